package rub

import (
	"math"
	"testing"

	"evenpull/fusee/mainspring"
)

// Springs of which the table was not made: every winding of those that it is sure of is within
// 1.5 % of what was solved, and of those with more friction, whose coils stick and jump, within 3 %.
func TestUnseen(t *testing.T) {
	for end, many := range map[mainspring.End]int{mainspring.Hooked: 50, mainspring.Braced: 15} {
		var sure, rubs unseen
		for _, list := range bySpring(solutions(t)) {
			if list[0].end != end || taught(list[0]) {
				continue
			}
			c, friction, _, err := drawn(list[0].spring)
			if err != nil {
				t.Fatal(err)
			}
			g := groupsOf(&c, friction)
			switch k := Of(&c, friction, end); {
			case !k.Outside:
				sure.add(k, list)
			case !g.clamp() && k.turns <= mostTurns:
				rubs.add(k, list)
			}
		}
		for of, u := range map[string]*unseen{"sure": &sure, "with more friction": &rubs} {
			t.Logf("%s, %s: %d springs, %d windings; rms %.4f, most %.4f (spring %d)", names[end], of, u.springs, u.windings, math.Sqrt(u.square/float64(u.windings)), u.most, u.worst)
		}
		if !(sure.springs >= many && sure.most < 0.015 && sure.square < 0.003*0.003*float64(sure.windings)) {
			t.Errorf("%s: worse than told", names[end])
		}
		if !(rubs.springs >= 3 && rubs.most < 0.03) {
			t.Errorf("%s: worse than told with more friction", names[end])
		}
	}
}

// unseen is how far the table is off what was solved, as shares of that.
type unseen struct {
	springs, windings int
	square, most      float64
	worst             int // number of the spring
}

func (u *unseen) add(k *Coils, list []row) {
	u.springs++
	for _, r := range list {
		if r.turns < least*k.turns || r.turns > most*k.turns {
			continue
		}
		off := math.Abs(k.Share(r.turns)/r.share - 1)
		u.windings++
		u.square += off * off
		if off > u.most {
			u.most, u.worst = off, r.spring
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
