package choose

import (
	"context"
	"math"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
	"evenpull/sim/stock"
	"evenpull/sim/study/sure"
)

// uncut are springs that may not be cut, which nothing is done to but a set-up.
func uncut(sizes ...[3]float64) *stock.Stock {
	list := listOf(sizes...)
	for i := range list.Springs {
		list.Springs[i].MayBeCut = false
	}
	return list
}

// foremost is which of two springs, where their steel is known, comes first by the rules,
// each written into the scenario with a flow stress (MPa) that is exact.
func foremost(t *testing.T, s *scenario.Scenario, list *stock.Stock, yield float64) string {
	t.Helper()
	known := *list
	known.Springs = append([]stock.Spring(nil), list.Springs...)
	for i := range known.Springs {
		if math.IsNaN(known.Springs[i].YieldMPa) {
			known.Springs[i].YieldMPa = yield
		}
	}
	st := study(t, s, 0, &known, asIs)
	o := drawn
	o.Anew, o.Steel, o.Draws = true, sure.AsRead, fewDraws
	for i := range st.Candidates {
		c := &st.Candidates[i]
		w := written(t, s, st, c)
		if err := w.Check(); err != nil {
			t.Fatal(err)
		}
		if c.YieldMPa == yield {
			w.Tolerances = append(w.Tolerances, scenario.Tolerance{Key: "going.mainspring.yield_mpa", Percent: nan, Shape: scenario.Normal})
		} else {
			o.Steel = sure.Stated
		}
		is, err := sure.Of(context.Background(), w, 0, o)
		if err != nil {
			t.Fatal(err)
		}
		c.Digest.Verdict.Sureness = is
		o.Steel = sure.AsRead
	}
	a, b := &st.Candidates[0], &st.Candidates[1]
	x, y := a.Digest.Verdict.Sureness.Suits, b.Digest.Verdict.Sureness.Suits
	if math.Abs(x-y) > 0.03+1e-9 && a.Digest.Verdict.Code == b.Digest.Verdict.Code && y > x {
		return b.Label
	}
	return a.Label
}

// On either side of a change the one comes first that is told, by draws made anew with the
// steel written in; the coils told are those that the one shows at that stress.
func TestChanges(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	found := 0
	for _, list := range []*stock.Stock{
		uncut([3]float64{32, 0.40, 1700}, [3]float64{28, 0.40, 1600}),
		uncut([3]float64{32, 0.38, 1700}, [3]float64{32, 0.41, 1600}),
		uncut([3]float64{31, 0.42, 1600}, [3]float64{32, 0.36, 1800}),
	} {
		o := withDraws()
		o.Sure = &sure.Options{Draws: fewDraws, Seed: 3, Brief: true}
		st := study(t, s, 0, list, o)
		for _, c := range st.Changes {
			found++
			const aside = fine / 2 // MPa: what the search leaves open
			if below, above := foremost(t, s, list, c.Yield-aside), foremost(t, s, list, c.Yield+aside); below != c.Below.Label || above != c.Above.Label || below == above {
				t.Errorf("at %.0f MPa: %s, then %s; told %s, then %s", c.Yield, below, above, c.Below.Label, c.Above.Label)
			}
			if !(c.Yield > 1620*0.88 && c.Yield < 1620*1.12) || c.Counted != st.Candidates[0].Label {
				t.Errorf("at %.0f MPa, counted %s", c.Yield, c.Counted)
			}
			w := written(t, s, st, &st.Candidates[0])
			w.Trains[0].Mainspring.YieldMPa = c.Yield
			closeTo(t, "coils", c.Coils, trial.RunOf(t, w, 0).Spring.FreeCoils, 1e-9)
		}
		for i := 1; i < len(st.Changes); i++ {
			if st.Changes[i].Yield <= st.Changes[i-1].Yield || st.Changes[i].Below.Label != st.Changes[i-1].Above.Label {
				t.Errorf("%+v", st.Changes)
			}
		}
	}
	if found < 3 {
		t.Errorf("only %d changes", found)
	}
}

// Where both steels are stated, nothing sets, there is one spring alone, or no draws are
// made, nothing changes places; where one is stated only the other's is asked.
func TestNoChanges(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	straight, _ := trial.Compile(t, "eight-day", "yield_mpa    = 1620.0", `natural_form = "straight"`)
	two := func(yields ...float64) *stock.Stock {
		list := uncut([3]float64{32, 0.40, 1700}, [3]float64{28, 0.40, 1600})
		for i, y := range yields {
			list.Springs[i].YieldMPa = y
		}
		return list
	}
	o := withDraws()
	for _, c := range []struct {
		what string
		s    *scenario.Scenario
		list *stock.Stock
		o    Options
	}{{"stated", s, two(1620, 1620), o}, {"straight", straight, two(), o}, {"alone", s, uncut([3]float64{32, 0.4, 1700}), o}, {"no draws", s, two(), asIs},
		{"one that fits", s, uncut([3]float64{32, 0.4, 1700}, [3]float64{40, 0.4, 1700}), o}} {
		if st := study(t, c.s, 0, c.list, c.o); len(st.Changes) != 0 {
			t.Errorf("%s: %+v", c.what, st.Changes)
		}
	}
	o.Sure = &sure.Options{Draws: fewDraws, Seed: 3, Brief: true}
	one := 0
	for _, first := range []float64{1520, 1560, 1600, 1680} {
		st := study(t, s, 0, two(first), o)
		for _, c := range st.Changes {
			one++
			if c.Counted != "b" && st.Candidates[0].Label == "a" || c.Counted != st.Candidates[0].Label && st.Candidates[0].Label == "b" {
				t.Errorf("a at %v MPa: the coils of %s are counted, and %s is first", first, c.Counted, st.Candidates[0].Label)
			}
		}
	}
	if one == 0 {
		t.Error("with one stated nothing ever changes places")
	}
}
