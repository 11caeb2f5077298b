package mainspring

import (
	"math"

	"evenpull/fusee/numeric"
)

// touch tells which part of the strip lies where: on the wall from x1 to x2,
// on the arbor from xa to the end, free elsewhere. With nothing on the wall
// x1 = x2 = 0.
type touch struct{ x1, x2, xa float64 }

func (t touch) free() float64 { return t.x1 + t.xa - t.x2 }

// setAt tells whether the strip set at x. At the end of the set part both
// formulas agree unless the whole strip set; then only the first holds.
func (c *Curve) setAt(x float64) bool { return c.xy > 0 && x <= c.xy }

// setCurvature is κ0 at x where the strip set.
func (c *Curve) setCurvature(x float64) float64 {
	return c.rootK/math.Sqrt(c.n2+x) - c.a + c.b*x
}

// layOnArbor is the couple that lays the element at x on the arbor: κa − κ0.
// It falls along the strip: the outer end arrives first.
func (c *Curve) layOnArbor(x float64) float64 {
	if c.setAt(x) {
		return 1/math.Sqrt(c.r2+x) - c.setCurvature(x)
	}
	return 1/math.Sqrt(c.r2+x) - c.c
}

// leaveWall is the couple that lifts the element at x off the wall: κw − κ0.
// Where the strip set it is concave in x, beyond it falls: it has one peak.
func (c *Curve) leaveWall(x float64) float64 {
	if c.setAt(x) {
		return 1/math.Sqrt(c.u2+x) - c.setCurvature(x)
	}
	return 1/math.Sqrt(c.u2+x) - c.c
}

// leaveWallSlope is leaveWall and its derivative where the strip set.
func (c *Curve) leaveWallSlope(x float64) (v, dv float64) {
	kw2, ks2 := 1/(c.u2+x), 1/(c.n2+x) // not by the roots, which are on their way meanwhile
	kw, ks := kw2*math.Sqrt(c.u2+x), c.rootK*(ks2*math.Sqrt(c.n2+x))
	return kw - ks + c.a - c.b*x, (ks*ks2-kw*kw2)/2 - c.b
}

// lastOnWall is the x at which leaveWall peaks.
func (c *Curve) lastOnWall() float64 {
	slope := func(x float64) float64 {
		_, dv := c.leaveWallSlope(x)
		return dv
	}
	switch {
	case c.xy == 0 || slope(c.xy) >= 0:
		return c.xy
	case slope(0) <= 0:
		return 0
	}
	// The peak is flat: half the digits of x are enough for all of the couple.
	lo, hi := numeric.Root(c.xy, 0, 1e-12*c.xy, slope)
	return (lo + hi) / 2
}

// contacts finds the touch at the couple m.
func (c *Curve) contacts(m float64) touch {
	if m >= c.mPeak { // nothing on the wall
		return touch{xa: c.arborFrom(m)}
	}
	return c.contactsNear(m, touch{x2: c.xy})
}

// contactsNear does the same, faster from a touch at a couple nearby.
func (c *Curve) contactsNear(m float64, near touch) touch {
	k := touch{xa: c.arborFrom(m)}
	if m < c.mPeak {
		k.x1, k.x2 = c.wallFrom(m, near.x1), c.wallTo(m, near.x2)
	}
	return k
}

func (c *Curve) arborFrom(m float64) float64 {
	switch {
	case m >= c.mHome:
		return 0
	case m <= c.mTouch:
		return c.xEnd
	case c.xy > 0 && m >= c.mSet:
		return c.arborEdge(m)
	}
	q := 1 / (m + c.c)
	return max(q*q-c.r2, 0) // a hair below 0 by rounding, next to home
}

// arborEdge solves layOnArbor(x) = m where the strip set: a straight line with ideal
// packing, and nearly one with any, so that a step or two of Newton's are enough.
func (c *Curve) arborEdge(m float64) float64 {
	x := min((c.a-m)/c.b, c.xy)
	if c.rootK == 1 {
		return x
	}
	for range 60 {
		ka, ks := 1/math.Sqrt(c.r2+x), 1/math.Sqrt(c.n2+x)
		v, dv := ka-c.rootK*ks+c.a-c.b*x, (c.rootK*ks*ks*ks-ka*ka*ka)/2-c.b
		next := min(max(x+(m-v)/dv, 0), c.xy)
		if !(math.Abs(next-x) > 1e-5*c.xEnd) { // the step after this one would be its square
			return next
		}
		x = next
	}
	return x
}

func (c *Curve) wallFrom(m, start float64) float64 {
	if c.xPeak == 0 || m <= c.leaveWall(0) {
		return 0
	}
	if start == 0 { // with the wall's coils all as sharp as the innermost, which is less
		ks := 1/c.ru + c.a - m
		start = max(0, c.rootK*c.rootK/(ks*ks)-c.n2)
	}
	return c.wallEdge(m, min(start, c.xPeak), 0)
}

func (c *Curve) wallTo(m, start float64) float64 {
	switch {
	case c.xPeak == c.xEnd || m <= c.leaveWall(c.xEnd):
		return c.xEnd
	case m <= c.leaveWall(c.xy):
		q := 1 / (m + c.c)
		return q*q - c.u2
	}
	return c.wallEdge(m, min(max(start, c.xPeak), c.xy), c.xy)
}

// wallEdge solves leaveWall(x) = m between outer and the peak, where the strip
// set, by Newton's method. The function is concave, so from the low side the
// steps never overshoot: a start on the high side, where the slope may vanish,
// is replaced by the outer end. It needs no bracket and, from the edge at a couple
// nearby, two or three steps: fewer than a search without either.
func (c *Curve) wallEdge(m, start, outer float64) float64 {
	// The edge need not be sharp: κ is continuous there, so winding and strain
	// feel its error only squared, and the step after this one would be its
	// square again.
	tiny := 1e-6 * c.xEnd
	x := start
	v, dv := c.leaveWallSlope(x)
	if v > m {
		x = outer
		v, dv = c.leaveWallSlope(x)
	}
	lo, hi := min(outer, c.xPeak), max(outer, c.xPeak)
	for range 60 {
		next := min(max(x+(m-v)/dv, lo), hi)
		if !(math.Abs(next-x) > tiny) {
			return next
		}
		x = next
		v, dv = c.leaveWallSlope(x)
	}
	return x
}

// natural is ∫κ0 dx from the arbor to x. A strip that set has no natural curvature
// beyond xy, and one of coils has no part that set.
func (c *Curve) natural(x float64) float64 {
	s := min(x, c.xy)
	set := 2*c.rootK*(math.Sqrt(c.n2+s)-c.rootN) - (c.a-c.b*s/2)*s
	return set + c.c*x
}

// winding is t = ∫(κ − κw) dx at the couple m with the given touch.
func (c *Curve) winding(m float64, k touch) float64 {
	t := m*k.free() + c.natural(k.x1) + c.natural(k.xa) - c.natural(k.x2)
	onArbor := 2 * (c.rw - math.Sqrt(c.r2+k.xa))
	offWall := 2 * (c.wall - c.ru)
	if k.x2 > k.x1 {
		offWall -= 2 * (math.Sqrt(c.u2+k.x2) - math.Sqrt(c.u2+k.x1))
	}
	return t + onArbor - offWall
}
