package mainspring

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// Associated Spring, Design Handbook (from memory): with 2.55 in place of the ideal 2 a
// barrel of 46 mm with an arbor of 15 mm, half filled by coils of 0.4 mm, makes 7.2796
// turns in place of 9.2814: a packing of 2.55/2, through the model.
func TestHandbookPacking(t *testing.T) {
	in := Housing{Arbor: 7.5 * mm, Inside: 23 * mm}
	s := Strip{Width: 38 * mm, Thickness: 0.4 * mm, Modulus: 206 * GPa, Packing: 2.55 / 2}
	s.Length = s.LongestFor(in) / 2
	c := mustCurve(t, s, in)
	closeTo(t, "turns", c.Turns(), 7.2796, 0.00005/7.2796)
	closeTo(t, "fill", c.Fill(), 0.5, 1e-12)
	closeTo(t, "turns", c.Turns(), HalfAreaTurns(in, s.Packing*s.Thickness), 1e-12)
	closeTo(t, "turns so packed", s.TurnsPacked(in, s.Packing), c.Turns(), 1e-15)
	if math.Abs(HandbookPacking-2.55/2) > 0.005/2 {
		t.Errorf("8/π is %.4f, the handbook's 2.55", 2*HandbookPacking)
	}
}

// The packing of a strip is found from its turns; they fall as it rises.
func TestPackingFor(t *testing.T) {
	for i, c := range family(t, 300) {
		s := c.strip
		if most := s.LongestFor(c.in) / s.Length * c.h / s.Thickness; most < 1.02 {
			continue
		}
		got, err := PackingFor(s, c.in, c.Turns())
		if err != nil {
			t.Fatalf("spring %d: %v", i, err)
		}
		closeTo(t, "packing", got, max(s.Packing, 1), 1e-9)
		last := math.Inf(1)
		for k := 1.0; k < 1.5; k += 0.05 {
			n := s.TurnsPacked(c.in, k)
			if math.IsNaN(n) {
				break
			}
			if !(n < last) {
				t.Errorf("spring %d (form %d, fill %.2f): %g turns at a packing of %.2f after %g", i, s.Form, c.Fill(), n, k, last)
			}
			last = n
		}
	}
}

func TestPackingForAtItsLimits(t *testing.T) {
	s, in := clockSpring(Set)
	ideal := s.TurnsPacked(in, 1)
	for _, over := range []float64{0, 0.2, 0.499} {
		if k, err := PackingFor(s, in, ideal+over); err != nil || k != 1 {
			t.Errorf("%g more than ideal: %v, %v", over, k, err)
		}
	}
	for _, n := range []float64{ideal + 0.501, 0, -1, math.NaN(), math.Inf(1)} {
		if _, err := PackingFor(s, in, n); !errors.Is(err, ErrCount) || !strings.Contains(err.Error(), "at most") {
			t.Errorf("%g turns: %v", n, err)
		}
	}
	if k, err := PackingFor(s, in, 0.01); err != nil || !(k > 1.5) {
		t.Errorf("hardly a turn: %v, %v", k, err)
	}
	s.Length = 99
	if _, err := PackingFor(s, in, 5); !errors.Is(err, ErrTooLong) {
		t.Errorf("too long: %v", err)
	}
	if n := s.TurnsPacked(in, 1); !math.IsNaN(n) {
		t.Errorf("too long: %g turns", n)
	}
}

// The set does not know how the strip is packed now: free coils and flow stress are
// those of ideal packing, and so is the couple with nothing on wall or arbor but for
// the turns it starts from.
func TestPackingLeavesTheSet(t *testing.T) {
	s, in := clockSpring(Set)
	tight := mustCurve(t, s, in)
	s.Packing = 1.1
	loose := mustCurve(t, s, in)
	closeTo(t, "free coils", loose.FreeTurns(), tight.FreeTurns(), 1e-12)
	closeTo(t, "greatest couple", loose.MaxCouple(), tight.MaxCouple(), 1e-12)
	closeTo(t, "fill", loose.Fill(), 1.1*tight.Fill(), 1e-12)
	// A coil takes up more than its thickness and not less.
	for _, k := range []float64{0.99, -1, 11, math.NaN()} {
		s.Packing = k
		if _, err := New(s, in); !errors.Is(err, ErrGeometry) {
			t.Errorf("packing %g: %v", k, err)
		}
	}
}

// A soft steel loosely packed would touch the arbor in the middle first: refused, and
// what is not refused falls all along (checked point by point).
func TestOrderly(t *testing.T) {
	refused := 0
	for i := range 4000 {
		u, v := float64(i%63)/63, float64(i/63)/63
		in := Housing{Arbor: 7.5 * mm, Inside: (20 + 15*u) * mm}
		s := Strip{Width: 38 * mm, Thickness: 0.4 * mm, Modulus: 206 * GPa, Bending: Narrow, Form: Set, Packing: 1 + 0.4*v, Yield: (500 + 900*math.Mod(7*u+3*v, 1)) * MPa}
		s.Length = 0.7 * s.LongestFor(in)
		var c Curve
		c.shape(&s, in)
		last, rises := math.Inf(1), false
		for k := range 400 {
			x := c.xEnd * float64(k) / 400
			m := c.layOnArbor(x)
			rises = rises || m > last
			last = m
		}
		_, err := New(s, in)
		if errors.Is(err, ErrLoose) {
			refused++
		}
		if rises != errors.Is(err, ErrLoose) && c.xy >= c.xEnd {
			t.Errorf("packing %.3f, %.0f MPa: rises %v, %v", s.Packing, s.Yield/MPa, rises, err)
		}
	}
	if refused < 100 {
		t.Errorf("only %d refused", refused)
	}
}
