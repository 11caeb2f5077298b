package choose

import (
	"math"
	"testing"

	"evenpull/sim/internal/trial"
)

// The range about a thickness ends where it is good no longer, and at a half and twice
// of it.
func TestAround(t *testing.T) {
	for _, c := range [][2]float64{{0.35, 0.45}, {0.3999, 0.4001}, {0.21, 0.79}, {0.4, 0.5}} {
		got := around(0.4, func(h float64) bool {
			if h < 0.2/1.03 || h > 0.8*1.03 {
				t.Errorf("%v is looked at", h)
			}
			return c[0] <= h && h <= c[1]
		})
		if !got.Known() || got.From < c[0] || got.To > c[1] || got.From > c[0]+1e-6 || got.To < c[1]-1e-6 {
			t.Errorf("%+v, good from %v to %v", got, c[0], c[1])
		}
	}
	if all := around(0.4, func(float64) bool { return true }); all.From < 0.2 || all.From > 0.2*1.02 || all.To > 0.8 || all.To < 0.8/1.02 {
		t.Errorf("always good: %+v", all)
	}
	if none := around(0.4, func(float64) bool { return false }); none.Known() || !math.IsNaN(none.From) || !math.IsNaN(none.To) {
		t.Errorf("never good: %+v", none)
	}
}

// A strip so thick that not 20 mm of it fill 95 of 100 parts of the barrel is refused,
// and by how much; one a little thinner goes in.
func TestTooThick(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	room := 0.95 * (45*45 - 15*15) * math.Pi / 4 / 1.065 // mm², as it packs
	for thickness, want := range map[float64]Why{room / 19: TooThick, room / 22: TooFewTurns} {
		c := study(t, s, 0, listOf([3]float64{32, thickness, 1000}), asIs).Candidates[0]
		if c.Refused.Why != want || c.Fits() || c.Orders() {
			t.Errorf("%v mm thick: %+v", thickness, c.Refused)
		}
		if want == TooThick {
			closeTo(t, "what goes in", c.Refused.Figure, 19, 1e-9)
			closeTo(t, "short by", c.Refused.Miss, 20.0/19-1, 1e-9)
		}
	}
}

// What the exponent would be if the spring never set is that of a scenario whose spring
// does not, cut to the same fill, from two runs close together.
func TestUnset(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	c := s.Clone()
	if err := c.Apply([]string{"going.mainspring.natural_form=straight"}); err != nil {
		t.Fatal(err)
	}
	area := c.Trains[0].Mainspring.ThicknessMM * c.Trains[0].Mainspring.LengthMM
	log := func(thickness float64) float64 {
		return math.Log(byHand(t, c, 0, map[string]float64{"mainspring.thickness_mm": thickness, "mainspring.length_mm": area / thickness}).Torque.Mean)
	}
	const step = 1e-4
	want := (log(0.38*(1+step)) - log(0.38*(1-step))) / math.Log((1+step)/(1-step))
	closeTo(t, "exponent", sampleStudy(t).Present.Unset, want, 1e-4)
}

// A strip too thick for the turns to spare is left whole where it can be wound; too long
// to be wound it is cut to where its coils, ideally packed, make the most turns.
func TestWhereNoLengthSpares(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	whole := study(t, s, 0, listOf([3]float64{32, 0.505, 1600}), asIs)
	c := &whole.Candidates[0]
	f := newFitter(&whole.shop)
	f.strip = f.stripOf(&c.Spring)
	if !c.Fits() || c.Length() != 1600 || !(f.turns(1430) > f.turns(1600)) {
		t.Errorf("%+v is fitted at %v mm: %+v", c.Spring, c.Length(), c.Refused)
	}
	c = &study(t, s, 0, listOf([3]float64{32, 0.505, 1800}), asIs).Candidates[0]
	turns := func(mm int) float64 {
		strip := f.strip
		strip.Length = float64(mm) / 1e3
		return strip.TurnsPacked(f.train.Drive.Housing, 1)
	}
	most := 400
	for mm := most; mm <= 1800; mm++ {
		if turns(mm) > turns(most) {
			most = mm
		}
	}
	if !c.Fits() || math.Abs(c.Length()-float64(most)) > 1 {
		t.Errorf("%+v is fitted at %v mm, and has the most turns at %v: %+v", c.Spring, c.Length(), most, c.Refused)
	}
	// Shorter than what goes in, and than what is wound: nothing is to be cut.
	if c = &study(t, s, 0, listOf([3]float64{32, 0.52, 1400}), asIs).Candidates[0]; c.Refused.Why != TooFewTurns || !math.IsNaN(c.Refused.CutTo) {
		t.Errorf("%+v: %+v", c.Spring, c.Refused)
	}
}

// No strip thicker than a scenario takes is looked for.
func TestThickestOfAll(t *testing.T) {
	st := toHave(t, sized(t, 10))
	m := made{fitter: newFitter(&st.shop), width: 0.5, fill: 0.5}
	if within := m.mean(9.9, 0); within > 0 {
		if h, ok := m.thickness(within, 5, 0); !ok || math.Abs(h-9.9) > 1e-6 {
			t.Errorf("%v N·m by %v mm, want 9.9", within, h)
		}
		if h, ok := m.thickness(3*within, 5, 0); ok || h != 0 {
			t.Errorf("%v N·m by %v mm", 3*within, h)
		}
	} else {
		t.Errorf("%v N·m of 9.9 mm", within)
	}
}
