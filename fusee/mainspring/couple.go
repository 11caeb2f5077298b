package mainspring

import (
	"math"

	"evenpull/fusee/numeric"
)

// Couple is the couple (N·m) that the strip gives, wound the given turns from
// rest. It rises with the turns. Below rest it is 0 (a strip cannot push its
// line), beyond the turns available it stays at MaxCouple: the coils are
// home and nothing but the metal gives.
func (c *Curve) Couple(turns float64) float64 {
	return c.ei * c.at(turns)
}

// at is the couple m at the turns from rest.
func (c *Curve) at(turns float64) float64 { return c.bend(c.tRest + 2*c.h*turns) }

// Wound is the inverse of Couple: the turns from rest at which the strip gives
// the couple, between 0 and Turns.
func (c *Curve) Wound(couple float64) float64 {
	m := min(max(couple/c.ei, 0), c.mHome)
	return (c.winding(m, c.contacts(m)) - c.tRest) / (2 * c.h)
}

// Rate is the slope of Couple at the given turns (N·m a turn): the free length
// sets it. It is +Inf while no part of the strip is free.
func (c *Curve) Rate(turns float64) float64 {
	_, k := c.touching(turns)
	return 2 * c.h * c.ei / k.free()
}

// bend is the couple m at the winding t.
func (c *Curve) bend(t float64) float64 {
	switch {
	case t <= c.tRest:
		return 0
	case t >= c.tSolid:
		return c.mHome
	case t >= c.tPeak && t <= c.tTouch:
		return c.bendFree(t)
	case t >= c.tPeak:
		return c.bendOnArbor(c.tHome - t)
	case c.xy == 0:
		return c.bendOnWall(t)
	case t <= c.tRoll:
		m, _ := c.bendRolling(t)
		return m
	}
	return c.bendBySteps(t)
}

// bendFree: the whole strip is free, a straight line.
func (c *Curve) bendFree(t float64) float64 {
	return (t - c.tFree) * c.perX
}

// bendOnArbor: nothing on the wall, the outer part on the arbor. What is missing to home,
// d = ∫(κa − κ0 − m) dx over the free part, is a quadratic in the radius of contact q
// where the strip did not set. Where it did it is a triangle with ideal packing, which
// κa − κ0 = a − b x makes, and nearly one with any other.
func (c *Curve) bendOnArbor(d float64) float64 {
	switch {
	case d <= c.dIdeal:
		return c.a - math.Sqrt(2*d*c.b)
	case d <= c.dSet:
		return c.seekOnArbor(d)
	}
	e := d + c.dFree
	q := (e + math.Sqrt(max(e*e-4*c.r2, 0))) / 2
	return 1/q - c.c
}

// seekOnArbor is bendOnArbor where the edge of contact is where the strip set: Newton's
// steps from the couple with ideal packing.
func (c *Curve) seekOnArbor(d float64) float64 {
	m := c.a - math.Sqrt(2*d*(c.a-c.mSet)/c.xy)
	return numeric.Newton(c.mSet, c.mHome, m, 1e-10*c.mHome, func(m float64) (lacks, slope float64) {
		x := c.arborEdge(m)
		return c.bendHome(x) - m*x - d, x
	})
}

// bendHome is ∫(κa − κ0) dx up to x where the strip set.
func (c *Curve) bendHome(x float64) float64 { return 2*(math.Sqrt(c.r2+x)-c.r) - c.natural(x) }

// bendOnWall: a strip of even natural curvature, its inner part on the wall
// and, when the barrel is more than half full, its outer part on the arbor.
func (c *Curve) bendOnWall(t float64) float64 {
	if t > c.tTouch {
		return (t+2*c.wall-2*c.rw)/(c.u2-c.r2) - c.c
	}
	e := 2*c.wall + t
	// The smaller root of q² − e q + wall² = 0, written without cancellation.
	q := 2 * c.wall * c.wall / (e + math.Sqrt(max(e*e-4*c.wall*c.wall, 0)))
	return 1/q - c.c
}

// bendRolling: a strip that set, free from the arbor to x and on the wall from
// there to its outer end. Winding and couple have closed forms in x: Halley's steps,
// of third order and guarded, from a cubic that has value and slope of the
// winding at both ends of the regime. Two steps are enough where Newton's take
// three or four, and the last of them gives the couple without another root.
func (c *Curve) bendRolling(t float64) (m, x float64) {
	lo, hi := c.xRest, c.xRoll
	x = c.rollGuess(t - c.tRest)
	for range 60 {
		if !(x > lo && x < hi) {
			x = (lo + hi) / 2
		}
		qs, qw := math.Sqrt(c.n2+x), math.Sqrt(c.u2+x)
		ks, kw := 1/qs, 1/qw
		off := kw - c.rootK*ks
		miss := t - 2*(c.rootK*(qs-c.rootN)-(qw-c.ru)) - (off-c.b*x/2)*x
		if miss > 0 {
			lo = x
		} else {
			hi = x
		}
		ks3, kw3 := c.rootK*ks*ks*ks, kw*kw*kw
		dm, ddm := (ks3-kw3)/2-c.b, (kw3*kw*kw-ks3*ks*ks)*0.75
		dt, ddt := dm*x, ddm*x+dm
		step := 2 * miss * dt / (2*dt*dt + miss*ddt)
		if math.Abs(step) <= min(4e-5*c.xEnd, 4e-3*x) { // what is left is its cube: 1e-10
			return off + c.a - c.b*x + step*(dm+step*ddm/2), x + step
		}
		x += step
	}
	return c.leaveWall(x), x
}

// touching is the couple m at the turns from rest, and the touch there.
func (c *Curve) touching(turns float64) (float64, touch) {
	if t := c.tRest + 2*c.h*turns; t > c.tRest && t <= c.tRoll && t < c.tPeak {
		m, x := c.bendRolling(t)
		return m, touch{x1: x, x2: c.xEnd, xa: c.xEnd}
	}
	m := c.at(turns)
	return m, c.contacts(m)
}

// rollGuess inverts the cubic roughly: a parabola's root and one Newton step.
func (c *Curve) rollGuess(up float64) float64 {
	f, g, h := c.rollF, c.rollG, c.rollH
	p := g + h*(c.xRoll-c.xRest) // the parabola through the same ends
	u := 2 * up / (f + math.Sqrt(f*f+4*p*up))
	u -= (u*(f+u*(g+u*h)) - up) / (f + u*(2*g+u*3*h))
	return c.xRest + u
}

// bendBySteps: a strip that set, touching wall and arbor in any other way. The
// winding for a given couple has a closed form, the inverse has none: Newton's
// method, whose slope is the free length.
func (c *Curve) bendBySteps(t float64) float64 {
	k := touch{x2: c.xy}
	return numeric.Newton(0, c.mPeak, c.stepsGuess(t-c.tRest), 1e-11*c.mPeak, func(m float64) (lacks, slope float64) {
		k = c.contactsNear(m, k)
		return t - c.winding(m, k), k.free()
	})
}

// stepsGuess is where to start from, by a parabola through rest, with its slope
// there, and mPeak; by a straight line where that would bend the other way.
func (c *Curve) stepsGuess(up float64) float64 {
	f := c.fRest
	g := max((c.tPeak-c.tRest)/c.mPeak-f, 0) / c.mPeak
	return 2 * up / (f + math.Sqrt(f*f+4*g*up))
}
