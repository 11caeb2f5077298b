package mainspring

import (
	"math"

	"evenpull/fusee/numeric"
)

// Energy is the work (J) that the strip gives back when it runs down from the
// given turns to rest, without friction: 2π∫M dφ. In closed form: the strain
// energy ½EI∫(κ − κ0)² ds less what is left of it at rest.
func (c *Curve) Energy(turns float64) float64 {
	m := c.at(turns)
	s := c.strain(m, c.contacts(m))
	return math.Pi * c.ei / (2 * c.h) * (s - c.sRest)
}

// WoundBy is the inverse of Energy: the turns from rest at which the strip
// stores the given work (J), between 0 and Turns. It also gives the couple
// (N·m) there.
func (c *Curve) WoundBy(energy float64) (turns, couple float64) {
	want := c.sRest + energy*2*c.h/(math.Pi*c.ei)
	if full := c.strain(c.mHome, touch{}); want >= full {
		return c.Turns(), c.MaxCouple()
	}
	k := touch{x2: c.xy}
	m := numeric.Newton(0, c.mHome, c.middle(), 1e-12*c.mHome, func(m float64) (lacks, slope float64) {
		k = c.contactsNear(m, k)
		return want - c.strain(m, k), 2 * m * k.free()
	})
	return c.Wound(c.ei * m), c.ei * m
}

// middle is the couple m half way along where the whole strip is free, but between a
// tenth and nine tenths of that at home.
func (c *Curve) middle() float64 {
	return min(max((c.mPeak+c.mTouch)/2, 0.1*c.mHome), 0.9*c.mHome)
}

// strain is ∫(κ − κ0)² dx at the couple m with the given touch.
func (c *Curve) strain(m float64, k touch) float64 {
	s := m * m * k.free()
	if k.xa < c.xEnd {
		s += c.packedStrain(c.r2, c.xEnd) - c.packedStrain(c.r2, k.xa)
	}
	if k.x2 > k.x1 {
		s += c.packedStrain(c.u2, k.x2) - c.packedStrain(c.u2, k.x1)
	}
	return s
}

// packedStrain is an antiderivative of (κ − κ0)² at x for coils packed to κ = 1/√(p + x),
// on arbor or wall, the same for every x. Where the strip set, that is κ − κs + (a − b x)
// with κs = √k/√(k r² + x): six products, each with a closed integral.
func (c *Curve) packedStrain(p, x float64) float64 {
	s := min(x, c.xy)
	sum := 0.0
	if c.xy > 0 {
		q, qs := math.Sqrt(p+s), math.Sqrt(c.n2+s)
		k := c.rootK * c.rootK
		sum = math.Log(p+s) + k*math.Log(c.n2+s) - 4*c.rootK*math.Log(q+qs) + c.squareOfSet(s) +
			2*(c.setOver(p, q)-c.rootK*c.setOver(c.n2, qs))
	}
	if x > s {
		sum += elasticSquare(p, c.c, x) - elasticSquare(p, c.c, s)
	}
	return sum
}

// squareOfSet is ∫(a − b x)² dx from 0 to x.
func (c *Curve) squareOfSet(x float64) float64 {
	return x * (c.a*c.a - c.a*c.b*x + c.b*c.b*x*x/3)
}

// setOver is an antiderivative of (a − b x)/√(p + x) at q = √(p + x).
func (c *Curve) setOver(p, q float64) float64 {
	return 2*(c.a+c.b*p)*q - c.b*q*q*q*2/3
}

// elasticSquare is an antiderivative of (1/√(p+x) − k)² at x.
func elasticSquare(p, k, x float64) float64 {
	return math.Log(p+x) - 4*k*math.Sqrt(p+x) + k*k*x
}
