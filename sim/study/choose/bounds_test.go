package choose

import (
	"math"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/study/setup"
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
	// Thicker yet it cannot be wound at any length: told is the length with the most turns.
	for _, thickness := range []float64{0.52, 0.56, 0.6} {
		c = &study(t, s, 0, listOf([3]float64{32, thickness, 1700}), asIs).Candidates[0]
		f.strip = f.stripOf(&c.Spring)
		if r := &c.Refused; r.Why != TooFewTurns || !(r.CutTo < 1700) || r.Figure != f.turns(r.CutTo) || !(r.Figure > f.turns(1700)) {
			t.Errorf("%+v, which has %v turns whole: %+v", c.Spring, f.turns(1700), c.Refused)
		}
		c = &study(t, s, 0, listOf([3]float64{32, thickness, 1000}), asIs).Candidates[0]
		if r := &c.Refused; r.Why != TooFewTurns || !math.IsNaN(r.CutTo) || r.Figure != f.turns(1000) {
			t.Errorf("%+v: %+v", c.Spring, c.Refused)
		}
	}
}

// Where no set-up leaves the turns to spare an ideal spring has the best of all.
func TestIdealWhereNoneSpares(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	if err := s.Apply([]string{"advice.turns_to_spare=9"}); err != nil {
		t.Fatal(err)
	}
	st := toHave(t, s)
	for i := range st.Ideals {
		id := &st.Ideals[i]
		m := made{fitter: newFitter(&st.shop), width: id.Width, fill: id.Fill}
		is := id.Digest.Standing()
		clicks := 0
		for h, ok := m.thickness(st.Target.Mean, id.Thickness, 0); ok; h, ok = m.thickness(st.Target.Mean, h, float64(clicks)/12) {
			r, err := m.run(h, float64(clicks)/12, sim.Options{TorqueOnly: true})
			if err != nil || r.TurnsLost > 0 {
				break
			}
			other := r.Standing()
			if other.Beats(&is) || !is.Beats(&other) && other.Unevenness < is.Unevenness-1e-9 {
				t.Errorf("%v mm wide: %+v, and by %d clicks %+v", id.Width, is, clicks, other)
			}
			clicks++
		}
		if clicks < 5 || id.Digest.Spare() >= 9 || id.Ordered.Known() {
			t.Errorf("%v mm wide: %d clicks, %+v", id.Width, clicks, id.Ordered)
		}
	}
}

// The set-up is that which the search for one finds with the arcs, too, where by them the
// escapement trips.
func TestSetUpWhereItTrips(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day", "escaping_arc_deg = 5.0 ", "trip_deg = 3.1\nescaping_arc_deg = 5.0 ")
	st := study(t, s, 0, synthetic(30), asIs)
	trip, otherwise := 0, 0
	for i := range st.Candidates {
		c := &st.Candidates[i]
		if !c.Fits() {
			continue
		}
		f := newFitter(&st.shop)
		f.train.Drive.Spring = f.stripOf(&c.Spring)
		f.train.Drive.Spring.Length = c.Length() * mm
		f.strip = f.train.Drive.Spring
		n := f.clicks(c.Length())
		var at [2]int
		for k, o := range []sim.Options{{}, {TorqueOnly: true}} {
			list, err := setup.Curve(&f.train, n, o, &f.result, nil)
			if err != nil {
				t.Fatal(err)
			}
			at[k] = setup.Fitted(list, 15)
		}
		if got := c.Digest.Standing().Clicks; math.Abs(got-float64(at[0])) > 1e-9 {
			t.Errorf("%s is set up by %v clicks, want %d", c.Label, got, at[0])
		}
		if c.Digest.Swing.Trips {
			trip++
		}
		if at[0] != at[1] {
			otherwise++
		}
	}
	if trip < 5 || otherwise == 0 {
		t.Errorf("%d trip, %d are set up otherwise without the arcs", trip, otherwise)
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
