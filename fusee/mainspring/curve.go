package mainspring

import (
	"fmt"
	"math"
)

// Curve is a strip in its housing with all that does not depend on the
// winding worked out. It is a value: copies are independent, and its methods
// change nothing.
//
// Positions along the strip are x = k h s/π (m²), k h being what a coil takes up, so
// that the radii squared of packed coils are r² + x on the arbor and ru² + x on the
// wall. Couples are m = M/EI (1/m). Windings are t = 2khφ (m) from "all packed on
// the wall".
type Curve struct {
	strip    Strip
	in       Housing
	modulus  float64 // Pa, EΨ
	flat     float64 // of Flatness
	flow     float64 // Pa, flow stress along the strip; 0 unless it set
	ei       float64 // N·m², with EΨ, times the ratio of the couple to the computed one
	h        float64 // what a coil takes up
	r, rw    float64 // radii of the coils packed on the arbor: inner, outer
	ru, wall float64 // radii of the coils packed on the wall: inner, outer
	r2       float64
	u2       float64
	xEnd     float64 // x at the outer end

	// Natural form. For x < xy, where the strip set, its curvature is
	// √k/√(k r² + x) − (a − b x): it set with coils closer than they ever lie
	// again, k = 1, where that is κa − (a − b x). Beyond it is c.
	a, b, c, xy      float64
	n2, rootN, rootK float64 // k r², its root, √k

	xPeak, mPeak float64 // where and at which couple the wall is left last
	mTouch       float64 // couple at which the first element reaches the arbor
	mHome        float64 // couple at which the last one does
	mSet, dSet   float64 // couple at which the end of the part that set does, and ∫(κa − κ0 − m) dx up to there
	dFree        float64 // what is to be added to such an integral beyond, for its root
	tPeak        float64 // windings at mPeak and mTouch
	tTouch       float64
	tIdeal       float64 // from where bendIdeal holds; +Inf for nowhere
	tHome        float64 // all on the arbor
	tSolid       float64 // the same but for a rounding, which would come back as its root in the couple
	tRest        float64 // at M = 0
	fRest        float64 // free length (in x) at M = 0
	tFree, perX  float64 // the whole strip free: m = (t − tFree)/xEnd
	sRest        float64 // ∫(κ−κ0)² dx at M = 0

	// While the outer end lies on the wall and the strip is free inwards of
	// one edge, that edge rolls from xRest at M = 0 to xRoll at tRoll.
	xRest, xRoll, tRoll float64
	rollF, rollG, rollH float64 // t − tRest ≈ rollF u + rollG u² + rollH u³, u = x − xRest
}

// New works out the curve of a strip in its housing. It fails with ErrGeometry,
// ErrTooLong, ErrTooManyCoils or ErrLoose.
func New(s Strip, in Housing) (c Curve, err error) {
	if err := s.check(in); err != nil {
		return Curve{}, err
	}
	c.shape(&s, in)
	if c.c*c.rw >= 1 {
		return Curve{}, fmt.Errorf("%w (%.4g coils, and it must be fewer than %.3f)", ErrTooManyCoils, s.FreeCoils, s.Length/(2*math.Pi*c.rw))
	}
	if s.Form == Set && !c.orderly() {
		return Curve{}, ErrLoose
	}
	c.settle()
	return c, nil
}

// shape gives the strip its radii, stiffness and natural form.
func (c *Curve) shape(s *Strip, in Housing) {
	c.layOut(s, in)
	switch s.Form {
	case Even:
		c.c = 2 * math.Pi * s.FreeCoils / s.Length
	case Set:
		c.set(s.Yield)
	}
}

// layOut sets the radii of the packed coils, and the stiffness: that of the mean
// curvature of the strip wound home, of which it hangs little.
func (c *Curve) layOut(s *Strip, in Housing) {
	c.strip, c.in, c.h, c.r, c.wall = *s, in, s.pitch(), in.Arbor, in.Inside
	c.xEnd = c.h * s.Length / math.Pi
	c.r2 = c.r * c.r
	c.u2 = c.wall*c.wall - c.xEnd
	c.rw, c.ru = math.Sqrt(c.r2+c.xEnd), math.Sqrt(c.u2)
	c.flat = s.Flatness(2 * (c.rw - c.r) / c.xEnd)
	c.modulus = s.Modulus * s.stiffened(c.flat)
	c.ei = c.modulus * s.Width * s.Thickness * s.Thickness * s.Thickness / 12 * s.coupleRatio()
}

// set gives the strip the natural form that is left of being wound home once with a
// flow stress of the steel (Pa).
func (c *Curve) set(yield float64) {
	c.flow = yield * planeStrain(c.flat)
	k, ky := c.h/c.strip.Thickness, c.YieldCurvature()
	bend := ky * ky * ky / 2
	c.a, c.b = 1.5*ky-bend*c.r2, bend/k
	c.n2, c.rootK = k*c.r2, math.Sqrt(k)
	c.rootN = math.Sqrt(c.n2)
	c.xy = min(max(k*(1/(ky*ky)-c.r2), 0), c.xEnd)
}

// YieldCurvature is κy = 2σ/(E h) (1/m): bent more sharply the strip sets. 0 unless it set.
func (c *Curve) YieldCurvature() float64 { return 2 * c.flow / (c.modulus * c.strip.Thickness) }

// orderly tells whether the couple that lays an element on the arbor falls all along
// the strip, as everything here takes it to. Its slope is greatest where
// r² + x/k = y r², y = (k − 1)/(k − k^⅘), and below 0 there for (κy r)³ above
// (1 − k^−⅕)/y^1.5: for all but a soft steel with k well above 1.
func (c *Curve) orderly() bool {
	k := c.h / c.strip.Thickness
	if k == 1 {
		return true
	}
	y := min((k-1)/(k-math.Pow(k, 0.8)), 1+c.xy/c.n2)
	sharp := c.r * c.YieldCurvature()
	z := k*y - k + 1
	return sharp*sharp*sharp > 1/(y*math.Sqrt(y))-k/(z*math.Sqrt(z)) // powers of −3/2
}

// lie works out the couples at which contact begins and ends, and the state of rest.
func (c *Curve) lie() (rest touch) {
	c.xPeak = c.lastOnWall()
	c.mPeak = c.leaveWall(c.xPeak)
	c.mTouch, c.mHome = c.layOnArbor(c.xEnd), c.layOnArbor(0)
	c.dFree = 2 * c.r
	if c.xy > 0 {
		home := c.bendHome(c.xy)
		c.mSet = c.layOnArbor(c.xy)
		c.dSet, c.dFree = home-c.mSet*c.xy, 2*math.Sqrt(c.r2+c.xy)-home
	}
	c.tHome = 2 * (c.rw - c.r - c.wall + c.ru)
	c.tSolid = c.tHome * (1 - 8e-16)
	rest = c.contacts(0)
	c.tRest = c.winding(0, rest)
	return rest
}

// settle works out the windings at which contact begins and ends.
func (c *Curve) settle() {
	rest := c.lie()
	c.tFree, c.perX = c.natural(c.xEnd)-2*(c.wall-c.ru), 1/c.xEnd
	c.tPeak = c.winding(c.mPeak, c.contacts(c.mPeak))
	c.tTouch = c.winding(c.mTouch, c.contacts(c.mTouch))
	c.tIdeal = math.Inf(1)
	if c.xy > 0 && c.rootK == 1 {
		c.tIdeal = max(c.tPeak, c.tTouch, c.tHome-c.dSet)
	}
	c.fRest = rest.free()
	c.sRest = c.strain(0, rest)
	c.roll(rest)
}

// roll works out the regime of bendRolling, empty unless all of the strip set.
func (c *Curve) roll(rest touch) {
	c.xRest, c.tRoll = rest.x1, c.tRest
	if c.xy < c.xEnd || rest.x2 < c.xEnd {
		return
	}
	m := min(c.leaveWall(c.xEnd), c.mTouch)
	c.xRoll, c.tRoll = c.xPeak, c.tPeak
	if m < c.mPeak {
		k := c.contacts(m)
		c.xRoll, c.tRoll = k.x1, c.winding(m, k)
	}
	_, dm0 := c.leaveWallSlope(c.xRest)
	_, dm1 := c.leaveWallSlope(c.xRoll)
	span := c.xRoll - c.xRest
	mean := (c.tRoll - c.tRest) / span
	c.rollF = dm0 * c.xRest
	end := dm1 * c.xRoll
	c.rollG = (3*mean - 2*c.rollF - end) / span
	c.rollH = (c.rollF + end - 2*mean) / (span * span)
}

// Turns are the turns available: from rest to all coils home on the arbor.
func (c *Curve) Turns() float64 { return (c.tHome - c.tRest) / (2 * c.h) }

// Counted are the turns from rest to solid that a hand counts: those of Turns but for the
// Uncounted of the strip.
func (c *Curve) Counted() float64 { return c.Turns() - c.strip.Uncounted }

// SlackTurns are the turns between all coils packed on the wall and rest: how
// far a strip that set deeply is off the wall when it is let down.
func (c *Curve) SlackTurns() float64 { return c.tRest / (2 * c.h) }

// LeavesWall are the turns from rest at which, wound, the last of the strip leaves the wall.
func (c *Curve) LeavesWall() float64 { return (c.tPeak - c.tRest) / (2 * c.h) }

// FreeTurns are the coils that the strip shows lying free.
func (c *Curve) FreeTurns() float64 { return c.natural(c.xEnd) / (2 * c.h) }

// Angle is how far the strip turns from its inner end to its outer one (rad), wound the
// given turns from rest.
func (c *Curve) Angle(turns float64) float64 {
	return math.Pi / c.h * (2*(c.wall-c.ru) + c.tRest + 2*c.h*turns)
}

// Natural is the natural curvature (1/m) at s (m) along the strip from the arbor, with its
// first and second derivative along it (1/m², 1/m³).
func (c *Curve) Natural(s float64) (curvature, slope, second float64) {
	dx := c.h / math.Pi
	x := dx * s
	if !c.setAt(x) {
		return c.c, 0, 0
	}
	q := c.n2 + x
	root := c.rootK / math.Sqrt(q)
	return c.setCurvature(x), dx * (c.b - root/(2*q)), dx * dx * 0.75 * root / (q * q)
}

// Strip is the strip that the curve is of.
func (c *Curve) Strip() Strip { return c.strip }

// Pitch is what a coil takes up in the barrel (m).
func (c *Curve) Pitch() float64 { return c.h }

// Housing is the room that the strip works in.
func (c *Curve) Housing() Housing { return c.in }

// EndFloat is the room (m) left between the strip and the caps of a barrel of
// the given inside height; negative when the strip is too wide.
func (c *Curve) EndFloat(height float64) float64 { return height - c.strip.Width }

// Fill is the share of the free area of the barrel that the strip takes up.
func (c *Curve) Fill() float64 { return c.strip.Fill(c.in) }

// Flatness is how far the strip is held flat across its width as it lies in its barrel,
// a pure number from 0 to 1: see Strip.Flatness.
func (c *Curve) Flatness() float64 { return c.flat }

// Stiffness is the bending stiffness of the strip as it lies in its barrel (N·m²),
// E w h³/12 times Ψ: see Strip.Flatness; and times the ratio of its couple to the
// computed one.
func (c *Curve) Stiffness() float64 { return c.ei }

// FlowStress is the stress along the strip at which it flows (Pa): that of its steel
// and, as far as its width keeps the strip from narrowing, up to 2/√3 of it. NaN unless
// the form is Set.
func (c *Curve) FlowStress() float64 {
	if c.strip.Form != Set {
		return math.NaN()
	}
	return c.flow
}

// MaxCouple is the couple (N·m) with every coil just home on the arbor.
func (c *Curve) MaxCouple() float64 { return c.ei * c.mHome }

// Searle is w²κ/h, a pure number, with κ the sharpest curvature, that at the arbor. Small, the
// strip bends freely across its width; large, it is held flat and bends as a
// plate (G. F. C. Searle, Experimental Elasticity, 1908).
func (c *Curve) Searle() float64 {
	return c.strip.Width * c.strip.Width / (c.strip.Thickness * c.r)
}

// PeakStress is the bending stress (Pa) at the skin of the innermost coil when
// it is wound home. A strip that set carries its flow stress there; for the
// other forms it is the elastic figure, whatever steel bears.
func (c *Curve) PeakStress() float64 {
	elastic := c.modulus * c.strip.Thickness / 2 * (1/c.r - c.c)
	if c.strip.Form == Set {
		return min(elastic, c.flow)
	}
	return elastic
}

// Overstrain is how many times its yield strain the innermost coil was bent to
// when first wound home: κa/κy. NaN unless the form is Set.
func (c *Curve) Overstrain() float64 {
	return c.modulus * c.strip.Thickness / (2 * c.r * c.FlowStress())
}
