package mainspring

import (
	"errors"
	"math"
	"slices"
	"testing"

	"evenpull/fusee/numeric"
)

// naturalAt is κ0 at x written straight from the definition, without the
// rearrangements of the code under test.
func (c *Curve) naturalAt(x float64) float64 {
	s := c.strip
	switch s.Form {
	case Even:
		return 2 * math.Pi * s.FreeCoils / s.Length
	case Set:
		k := c.h / s.Thickness
		ka, ky := 1/math.Sqrt(c.in.Arbor*c.in.Arbor+x/k), c.YieldCurvature() // it set with ideal packing
		if ka > ky {
			return ka - 1.5*ky*(1-ky*ky/(ka*ka)/3)
		}
	}
	return 0
}

func (c *Curve) curvatureAt(m, x float64) float64 {
	kw, ka := 1/math.Sqrt(c.u2+x), 1/math.Sqrt(c.r2+x)
	return math.Min(math.Max(c.naturalAt(x)+m, kw), ka)
}

func sorted(x ...float64) []float64 {
	slices.Sort(x)
	return x
}

// The closed windings against quadrature of the clamped curvature.
func TestWindingAgainstQuadrature(t *testing.T) {
	for i, c := range family(t, 150) {
		for _, share := range []float64{0.02, 0.2, 0.4, 0.6, 0.8, 0.95} {
			m := share * c.mHome
			k := c.contacts(m)
			want := numeric.Adaptive(0, c.xEnd, 1e-13*c.tHome, func(x float64) float64 {
				return c.curvatureAt(m, x) - 1/math.Sqrt(c.u2+x)
			}, sorted(k.x1, k.x2, k.xa, c.xy)...)
			got := c.winding(m, k)
			if math.Abs(got-want) > 1e-9*c.tHome {
				t.Errorf("spring %d (form %d) at %g of its couple: winding %.12g, quadrature %.12g", i, c.strip.Form, share, got, want)
			}
		}
	}
}

// The strain energy against quadrature too.
func TestStrainAgainstQuadrature(t *testing.T) {
	for i, c := range family(t, 60) {
		for _, share := range []float64{0.05, 0.5, 0.9} {
			m := share * c.mHome
			k := c.contacts(m)
			want := numeric.Adaptive(0, c.xEnd, 1e-13*c.mHome*c.mHome*c.xEnd, func(x float64) float64 {
				d := c.curvatureAt(m, x) - c.naturalAt(x)
				return d * d
			}, sorted(k.x1, k.x2, k.xa, c.xy)...)
			got := c.strain(m, k)
			if math.Abs(got-want) > 1e-9*c.mHome*c.mHome*c.xEnd {
				t.Errorf("spring %d at %g: strain %.12g, quadrature %.12g", i, share, got, want)
			}
		}
	}
}

// Couple and Wound undo each other in every regime of contact.
func TestCoupleInvertsWinding(t *testing.T) {
	for i, c := range family(t, 400) {
		for k := 1; k < 40; k++ {
			turns := c.Turns() * float64(k) / 40
			if back := c.Wound(c.Couple(turns)); math.Abs(back-turns) > 1e-9*c.Turns() {
				t.Errorf("spring %d (form %d, fill %.2f): %.12g turns came back as %.12g", i, c.strip.Form, c.Fill(), turns, back)
			}
		}
	}
}

// dU/dφ = 2πM: what the strip stores is what it was wound with.
func TestEnergyIsWorkOfCouple(t *testing.T) {
	for i, c := range family(t, 60) {
		kinks := []float64{c.Wound(c.ei * c.mTouch), c.Wound(c.ei * c.mPeak)}
		for x := range 2 { // where the wall begins and ends to matter
			kinks = append(kinks, c.Wound(c.ei*c.leaveWall(float64(x)*c.xEnd)), c.Wound(c.ei*c.leaveWall(c.xy)), c.Wound(c.ei*c.layOnArbor(c.xy)))
		}
		slices.Sort(kinks)
		for _, span := range [][2]float64{{0, 1}, {0.1, 0.4}, {0.35, 0.9}} {
			a, b := span[0]*c.Turns(), span[1]*c.Turns()
			want := numeric.Adaptive(a, b, 1e-12*c.Energy(c.Turns()), func(p float64) float64 { return 2 * math.Pi * c.Couple(p) }, kinks...)
			got := c.Energy(b) - c.Energy(a)
			if math.Abs(got-want) > 1e-9*c.Energy(c.Turns()) {
				t.Errorf("spring %d (form %d): energy %.12g J, work %.12g J", i, c.strip.Form, got, want)
			}
		}
	}
}

// The energy at the turns it was found for is the energy asked for, and the
// slope is that of the couple.
func TestEnergyInverseAndRate(t *testing.T) {
	for i, c := range family(t, 200) {
		for k := 1; k < 20; k++ {
			turns := c.Turns() * (float64(k) + 0.3) / 20
			back, couple := c.WoundBy(c.Energy(turns))
			if math.Abs(back-turns) > 1e-7*c.Turns() || math.Abs(couple-c.Couple(turns)) > 1e-7*c.MaxCouple() {
				t.Errorf("spring %d (form %d): %.12g turns came back as %.12g", i, c.strip.Form, turns, back)
			}
			const d = 1e-5
			slope := (c.Couple(turns+d) - c.Couple(turns-d)) / (2 * d)
			if math.Abs(slope/c.Rate(turns)-1) > 2e-3 {
				t.Errorf("spring %d (form %d) at %.3g of %.3g turns: rate %.6g, slope %.6g", i, c.strip.Form, turns, c.Turns(), c.Rate(turns), slope)
			}
		}
		if turns, m := c.WoundBy(2 * c.Energy(c.Turns())); turns != c.Turns() || m != c.MaxCouple() {
			t.Errorf("spring %d: more energy than it holds gives %g turns", i, turns)
		}
	}
}

func TestCoupleRisesWithWind(t *testing.T) {
	for i, c := range family(t, 200) {
		last := -1.0
		for k := 0; k <= 200; k++ {
			m := c.Couple(c.Turns() * float64(k) / 200)
			if !(m > last) {
				t.Fatalf("spring %d (form %d): couple %.12g after %.12g at step %d", i, c.strip.Form, m, last, k)
			}
			last = m
		}
	}
}

func TestLimits(t *testing.T) {
	for i, c := range family(t, 100) {
		if c.Couple(-0.1) != 0 {
			t.Errorf("spring %d pulls below rest", i)
		}
		if got := c.Couple(c.Turns() + 1); got != c.MaxCouple() {
			t.Errorf("spring %d: couple past home %g, want %g", i, got, c.MaxCouple())
		}
		if c.Energy(0) != 0 || c.Energy(-1) != 0 {
			t.Errorf("spring %d holds %g J at rest", i, c.Energy(0))
		}
		closeTo(t, "energy past home", c.Energy(c.Turns()+1), c.Energy(c.Turns()), 1e-12)
		if c.Wound(-1) != 0 || math.Abs(c.Wound(2*c.MaxCouple())-c.Turns()) > 1e-12*c.Turns() {
			t.Errorf("spring %d: Wound leaves its range", i)
		}
	}
}

// A strip that gives another couple than computed gives it at every turn: couples and
// energy go with the ratio, turns, form and stress stay.
func TestCoupleRatio(t *testing.T) {
	for _, own := range family(t, 40) {
		s := own.strip
		s.Couple = 1.02
		c := mustCurve(t, s, own.in)
		closeTo(t, "turns", c.Turns(), own.Turns(), 1e-14)
		closeTo(t, "peak stress", c.PeakStress(), own.PeakStress(), 1e-14)
		closeTo(t, "free coils", c.FreeTurns(), own.FreeTurns(), 1e-14)
		for _, share := range []float64{0.1, 0.5, 0.9, 1} {
			at := share * own.Turns()
			closeTo(t, "couple", c.Couple(at), 1.02*own.Couple(at), 1e-13)
			closeTo(t, "energy", c.Energy(at), 1.02*own.Energy(at), 1e-13)
			if rate := own.Rate(at); !math.IsInf(rate, 1) {
				closeTo(t, "rate", c.Rate(at), 1.02*rate, 1e-13)
			}
			closeTo(t, "wound", c.Wound(c.Couple(at)), own.Wound(own.Couple(at)), 1e-12)
		}
	}
	s, in := clockSpring(Set)
	for _, wrong := range []float64{-0.1, math.NaN(), math.Inf(1)} {
		if s.Couple = wrong; !errors.Is(func() error { _, err := New(s, in); return err }(), ErrGeometry) {
			t.Errorf("a ratio of %v is taken", wrong)
		}
	}
}
