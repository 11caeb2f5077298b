package rub

import (
	"evenpull/fusee/mainspring"
	"math"
	"testing"
)

// Springs of which the table was not made, with 48 nodes to a turn: how far it is off what was
// solved, in the mean, how many windings and how many whole run-downs are within 1.5 %, and the
// worst of all windings.
func TestUnseen(t *testing.T) {
	for end, want := range [2]struct{ rms, within, springs, most float64 }{{0.004, 0.993, 0.85, 0.026}, {0.002, 0.999, 0.99, 0.01}} {
		var square, all, within, springs, good, far float64
		for _, list := range bySpring(solutions(t)) {
			if list[0].end != mainspring.End(end) || taught(list[0]) {
				continue
			}
			c, friction, _, err := drawn(list[0].spring)
			if err != nil {
				t.Fatal(err)
			}
			k := Of(&c, friction, mainspring.End(end))
			if k.Outside {
				continue
			}
			worst := 0.0
			for _, r := range list {
				if r.turns < least*k.turns || r.turns > most*k.turns {
					continue
				}
				off := math.Abs(k.Share(r.turns)/r.share - 1)
				square, all, worst = square+off*off, all+1, max(worst, off)
				if off <= 0.015 {
					within++
				}
			}
			springs++
			if worst <= 0.015 {
				good++
			}
			if testing.Verbose() && worst > 0.015 {
				g := groupsOf(&c, friction)
				t.Logf("end %d spring %d: %.4f  %.2f", end, list[0].spring, worst, g)
			}
			far = max(far, worst)
		}
		rms := math.Sqrt(square / all)
		t.Logf("end %d: %v springs, %v windings; rms %.4f, within %.4f; springs %v, most %.4f", end, springs, all, rms, within/all, good, far)
		if !(rms < want.rms && within/all > want.within && good/springs > want.springs && far < want.most) {
			t.Error("worse than told")
		}
	}
}

// The couples of a strip of 36 × 0.38 × 1650 mm in a barrel of 45 mm with an arbor of 15 mm,
// without friction, by another solver of our own (interior point, 96 nodes a turn).
func TestReference(t *testing.T) {
	c, err := mainspring.New(mainspring.Strip{
		Width: 36e-3, Thickness: 0.38e-3, Length: 1.65, Modulus: 206e9, Bending: mainspring.Narrow, Form: mainspring.Set, Yield: 1620e6,
	}, mainspring.Housing{Arbor: 7.5e-3, Inside: 22.5e-3})
	if err != nil {
		t.Fatal(err)
	}
	for end, want := range map[mainspring.End]map[float64]float64{
		mainspring.Hooked: {1.046: 0.661, 3.046: 1.111, 5.046: 1.396, 7.046: 1.672, 8.546: 1.875},
		mainspring.Braced: {1.046: 0.666, 3.046: 1.142, 5.046: 1.402, 7.046: 1.666, 8.546: 1.884},
	} {
		k := Of(&c, 0, end)
		for turns, couple := range want {
			if got := c.Couple(turns) * k.Share(turns); math.Abs(got/couple-1) > 0.015 {
				t.Errorf("end %d, %.4g turns: %.4f N·m, want %.3f", end, turns, got, couple)
			}
		}
	}
}
