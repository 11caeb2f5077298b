package cut

import (
	"context"
	"errors"
	"math"
	"testing"

	"evenpull/sim"
	"evenpull/sim/rules"
)

// The sums of the search are what a run has, but for the hundredths of a millimetre that a cone
// is rounded to: every figure of a limit, the torque, and the unevenness of a spring off its
// thickness.
func TestSumsAgreeWithRuns(t *testing.T) {
	s := wantedOf(t, limitsText(100, 45, 33, 8, 1))
	q, err := newSearcher(s, 0)
	if err != nil {
		t.Fatal(err)
	}
	if err := q.grid(context.Background()); err != nil {
		t.Fatal(err)
	}
	order := q.ordered()
	for i := 0; i < len(order); i += len(order)/25 + 1 {
		c := &order[i]
		f, err := q.built(c)
		if err != nil || f == nil {
			t.Fatal(err)
		}
		sums := q.figures(c)
		for l := range limitCount {
			if is := l.Of(f); math.Abs(sums[l]-is) > 2e-3*math.Abs(is)+1e-3*1e-3 {
				t.Errorf("%+v: limit %d is %.6g by the sums, %.6g by a run", *c, l, sums[l], is)
			}
		}
		if math.Abs(q.torque(c)/f.Torque.Mean-1) > 1e-3 || c.turns != f.Turns || math.Abs(float64(c.from)*q.place-f.Spring.SetUp) > 1e-9 {
			t.Errorf("%+v: %g N·m, run %g", *c, q.torque(c), f.Torque.Mean)
		}
		if f.Thinner, f.Thicker, err = offThickness(f.Scenario, 0); err != nil {
			t.Fatal(err)
		}
		if math.Abs(c.uneven-f.OffUnevenness()) > 2e-4 {
			t.Errorf("%+v: uneven by %g, run %g", *c, c.uneven, f.OffUnevenness())
		}
		if f.Thinner.Torque.Mean >= f.Torque.Mean || f.Thicker.Torque.Mean <= f.Torque.Mean {
			t.Errorf("%g, %g, %g N·m", f.Thinner.Torque.Mean, f.Torque.Mean, f.Thicker.Torque.Mean)
		}
		if q.bottom(c, c.to) < q.stout || q.bottom(c, c.from)+q.half+q.radius >= 57e-3 {
			t.Errorf("%+v cannot be made", *c)
		}
	}
}

// Gut of 1.6 mm lies in a groove of 1.7: with a land of a quarter of its width the pitch is
// 2.1 mm, with the least 1.9; a height takes it down by steps of 0.05.
func TestPitches(t *testing.T) {
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: %g, want %g", what, got, want)
		}
	}
	q, err := newSearcher(wantedOf(t, "height_at_most_mm = 35.7"), 0)
	if err != nil {
		t.Fatal(err)
	}
	near("12 clicks", 12*float64(q.clicks)*q.place, 1)
	near("least set-up", float64(q.setUps[0])*q.place, 0.25)
	near("usual", q.pitch[0]*1e3, 2.1)
	near("least", q.pitch[1]*1e3, 1.9)
	near("two margins and the groove", q.ends*1e3, 5.7)
	near("10 turns", q.pitchOf(&candidate{turns: 10})*1e3, 2.1)
	near("15 turns in 30 mm", q.pitchOf(&candidate{turns: 15})*1e3, 2)
	near("15.25 turns in 30 mm", q.pitchOf(&candidate{turns: 15.25})*1e3, 1.95)
	near("20 turns", q.pitchOf(&candidate{turns: 20})*1e3, 1.9)
}

// Among cones the class of the share that suits comes first, then the verdict, then how far it is
// from what suits, then the unevenness with the spring off its thickness.
func TestRankOfCones(t *testing.T) {
	cone := func(name string, suits float64, code rules.Code, uneven float64) Found {
		f := Found{}
		f.Name, f.Advice = name, rules.DefaultAdvice()
		f.Verdict.Code, f.Verdict.Sureness = code, sim.Sureness{Draws: 100, Suits: suits}
		f.Thinner.Torque.Unevenness, f.Thicker.Torque.Unevenness = uneven/2, uneven
		return f
	}
	all := []Found{
		cone("e", 0.5, rules.Suits, 0.01), cone("c", 0.95, rules.Suits, 0.03), cone("d", 0.96, rules.Thin, 0.001), cone("b", 0.94, rules.Suits, 0.02), cone("f", 0.2, rules.Suits, 0.001),
	}
	rank(all)
	got := ""
	for _, f := range all {
		got += f.Name
	}
	if got != "bcdef" {
		t.Error(got)
	}
	bad := cone("x", 1, rules.Suits, 0.01)
	if bad.Thicker.Fault = errors.New("no"); !math.IsInf(bad.OffUnevenness(), 1) {
		t.Error(bad.OffUnevenness())
	}
}

// What a study tells of a search: no more than so many cones, a turn apart; the best as the rest
// is of it, with no cone now; where there is none, nothing but that.
func TestStudyOfSearch(t *testing.T) {
	st, err := Run(context.Background(), wantedOf(t, limitsText(100, 50, 33, 8, 1.2)), 0, Options{})
	if err != nil || st.None() || !st.FromBlank || !st.Shown() {
		t.Fatal(err)
	}
	if n := len(st.Wanted.Cones); n != MostCones {
		t.Errorf("%d cones", n)
	}
	for i, a := range st.Wanted.Cones {
		for _, b := range st.Wanted.Cones[:i] {
			if math.Abs(a.Turns-b.Turns) < 1 {
				t.Errorf("%g and %g turns", a.Turns, b.Turns)
			}
		}
	}
	if r := st.Rows[0]; !math.IsNaN(r.Now) || !math.IsNaN(r.Remove) || !math.IsNaN(r.TorqueBefore) || math.Abs(r.Diameter-st.Wanted.Cones[0].Small) > 2e-5 {
		t.Errorf("%+v", r)
	}
	if st.After.Spring.SetUp != st.Wanted.Cones[0].Spring.SetUp || st.Suits() != NewCone || math.Abs(st.Blank.Height-st.Wanted.Cones[0].Height) > 1e-9 {
		t.Errorf("%v, blank %g, %g", st.Suits(), st.Blank.Height, st.Wanted.Cones[0].Height)
	}
	none, err := Run(context.Background(), wantedOf(t, limitsText(180, 30, 33, 10, 1.25)), 0, Options{})
	if err != nil || !none.None() || !errors.Is(none.After.Fault, ErrNoCone) || !math.IsNaN(none.Now.Torque.Mean) || none.Now.Name != "going" || !none.Nothing || none.Suits() != OtherSpring || len(none.Rows) != 0 {
		t.Errorf("%v, %+v", err, none)
	}
	alone := wantedOf(t, "runtime_at_least_h = 100")
	alone.Trains[0].Escapement, alone.Trains[0].Pendulum = nil, nil
	var fault *sim.Error
	if _, err := Run(context.Background(), alone, 0, Options{}); !errors.As(err, &fault) || fault.Fault.Key != "going.fusee.runtime_at_least_h" {
		t.Error(err)
	}
}

// A cone thinner than can be cut, or one that meets the barrel, is none to try.
func TestPossible(t *testing.T) {
	q, err := newSearcher(wantedOf(t, ""), 0)
	if err != nil {
		t.Fatal(err)
	}
	c := candidate{from: q.setUps[0], to: len(q.couple) - 1}
	thin, fits, wide := false, false, false
	for c.turns = 0.5; c.turns < 200; c.turns *= 1.1 {
		stout, clear := q.bottom(&c, c.to) >= 3e-3, q.bottom(&c, c.from)+0.8e-3+25.3e-3 < 57e-3
		if q.possible(&c) != (stout && clear) {
			t.Errorf("%g turns: stout %v, clear %v", c.turns, stout, clear)
		}
		thin, fits, wide = thin || !stout && clear, fits || stout && clear, wide || stout && !clear
	}
	if !thin || !fits || !wide {
		t.Error(thin, fits, wide)
	}
}
