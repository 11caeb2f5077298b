package mainspring

import (
	"math"

	"evenpull/fusee/numeric"
)

// Energy is the work (J) that the strip gives back when it runs down from the
// given turns to rest, without friction: 2π∫M dφ. In closed form: the strain
// energy ½EI∫(κ − κ0)² ds less what is left of it at rest.
func (c *Curve) Energy(turns float64) float64 {
	m, k := c.touching(turns)
	s := c.strain(m, k)
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
		s += c.packedStrain(c.r2, k.xa, c.xEnd)
	}
	if k.x2 > k.x1 {
		s += c.packedStrain(c.u2, k.x1, k.x2)
	}
	return s
}

// packedStrain is ∫(κ − κ0)² dx over a part of coils packed to κ = 1/√(p + x), on arbor or
// wall. Where the strip set, that is κ − κs + (a − b x) with κs = √k/√(k r² + x): six
// products, each with a closed integral.
func (c *Curve) packedStrain(p, from, to float64) (sum float64) {
	set := min(to, c.xy)
	if from < set {
		sum = c.squareOfSet(set) - c.squareOfSet(from)
		if p != c.n2 || c.rootK != 1 { // else κ = κs: ideally packed on the arbor
			sum += c.offSet(p, from, set)
		}
	}
	if from = max(from, set); from < to {
		sum += elasticSquare(p, c.c, to) - elasticSquare(p, c.c, from)
	}
	return sum
}

// offSet is ∫(κ − κs)² + 2(κ − κs)(a − b x) dx.
func (c *Curve) offSet(p, from, to float64) float64 {
	q0, q1, s0, s1 := math.Sqrt(p+from), math.Sqrt(p+to), math.Sqrt(c.n2+from), math.Sqrt(c.n2+to)
	return math.Log((p+to)/(p+from)) + c.rootK*c.rootK*math.Log((c.n2+to)/(c.n2+from)) - 4*c.rootK*math.Log((q1+s1)/(q0+s0)) +
		2*(c.setOver(p, q1)-c.setOver(p, q0)-c.rootK*(c.setOver(c.n2, s1)-c.setOver(c.n2, s0)))
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
