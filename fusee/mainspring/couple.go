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

// CoupleNear is Couple, found faster where near was left by a call for turns not far
// from these, or is the zero Near; nil is of no help.
func (c *Curve) CoupleNear(turns float64, near *Near) float64 {
	return c.ei * c.bend(c.tRest+2*c.h*turns, near)
}

// at is the couple m at the turns from rest.
func (c *Curve) at(turns float64) float64 { return c.bend(c.tRest+2*c.h*turns, nil) }

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
func (c *Curve) bend(t float64, near *Near) float64 {
	switch {
	case t <= c.tRest:
		return 0
	case t >= c.tSolid:
		return c.mHome
	case t >= c.tPeak && t <= c.tTouch:
		return c.bendFree(t)
	case t >= c.tIdeal:
		return c.bendIdeal(c.tHome - t)
	case t >= c.tPeak:
		return c.bendOnArbor(c.tHome-t, near)
	case c.xy == 0:
		return c.bendOnWall(t)
	case t <= c.tRoll:
		m, _ := c.bendRolling(t, near)
		return m
	}
	return c.bendBySteps(t)
}

// bendFree: the whole strip is free, a straight line.
func (c *Curve) bendFree(t float64) float64 {
	return (t - c.tFree) * c.perX
}

// bendIdeal: nothing on the wall, the outer part of a strip that set and packs ideally on
// the arbor. What is missing to home, d = ∫(κa − κ0 − m) dx over the free part, is a
// triangle, which κa − κ0 = a − b x makes.
func (c *Curve) bendIdeal(d float64) float64 { return c.a - math.Sqrt(2*d*c.b) }

// bendOnArbor is the same for any packing, with which that is nearly a triangle, and for a
// strip or a part that did not set: there it is a quadratic in the radius of contact q.
func (c *Curve) bendOnArbor(d float64, near *Near) float64 {
	if d <= c.dSet {
		x, known := near.from(-d, c.r2)
		if !known {
			x = math.Sqrt(2 * d * c.xy / (c.a - c.mSet)) // as if the couple fell in a straight line
		}
		m, _ := c.edgeAt(-d, c.onArbor(), x, near)
		return m
	}
	e := d + c.dFree
	q := (e + math.Sqrt(max(e*e-4*c.r2, 0))) / 2
	return 1/q - c.c
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
// there to its outer end.
func (c *Curve) bendRolling(t float64, near *Near) (m, x float64) {
	x, known := near.from(t, c.u2)
	if !known {
		x = c.rollGuess(t - c.tRest)
	}
	return c.edgeAt(t, c.onWall(), x, near)
}

// touching is the couple m at the turns from rest, and the touch there.
func (c *Curve) touching(turns float64) (float64, touch) {
	t := c.tRest + 2*c.h*turns
	switch {
	case t <= c.tRest:
	case t >= c.tPeak && t <= c.tTouch:
		return c.bendFree(t), touch{xa: c.xEnd}
	case t <= c.tRoll && t < c.tPeak:
		m, x := c.bendRolling(t, nil)
		return m, touch{x1: x, x2: c.xEnd, xa: c.xEnd}
	}
	m := c.bend(t, nil)
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
