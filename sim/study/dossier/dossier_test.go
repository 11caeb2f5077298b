package dossier

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/bench/assign"
	"evenpull/sim/internal/trial"
	"evenpull/sim/internal/trial/bench"
	"evenpull/sim/internal/trial/books"
	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/study/sure"
)

// Every study of a train is of that train, and none says otherwise than the run.
func TestStudiesAgree(t *testing.T) {
	for _, name := range scenarios.Names() {
		s, _ := trial.Compile(t, name)
		c, err := OfClock(context.Background(), s, nil)
		if err != nil {
			t.Fatal(err)
		}
		for i := range c.Trains {
			tr := &c.Trains[i]
			r := tr.Result
			// An even cone is cut for the studies: the same but for rounding.
			same := func(d *sim.Digest) bool {
				return d.Name == r.Name && d.Verdict == r.Verdict && math.Abs(d.Torque.Mean/r.Torque.Mean-1) < 1e-9 && math.Abs(d.Torque.Unevenness-r.Torque.Unevenness) < 1e-7
			}
			if !same(tr.Sweep.Own.Digest) || !same(&tr.Rank.Own) || !same(&tr.Fine.Digest) {
				t.Errorf("%s %s: studies of another train", name, r.Name)
			}
			if tr.SetUp != nil && (!same(&tr.SetUp.Now)) {
				t.Errorf("%s %s: set-up of another train", name, r.Name)
			}
			if tr.Made != nil && (!same(&tr.Made.Present.Digest) || tr.Made.First != tr.First()) {
				t.Errorf("%s %s: first %v, to order after %v", name, r.Name, tr.First(), tr.Made.First)
			}
			if now := r.Standing(); now.Sound() && tr.First() == rules.AnotherSpring {
				t.Errorf("%s %s suits, and another spring comes first", name, r.Name)
			}
		}
	}
}

// What is drawn and ranked is what the report says it is: rows too fine to see, another
// thickness of the train's own spring at 41 points, inputs by the mean torque and the
// least reserve.
func TestStudiesAreWhole(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	c, err := OfClock(context.Background(), s, nil)
	if err != nil || c.Scenario != s || len(c.Trains) != 3 || len(c.Run.Trains) != 3 {
		t.Fatalf("%v, %+v", err, c)
	}
	for i := range c.Trains {
		tr := &c.Trains[i]
		name := s.Trains[i].Name
		if tr.Result != &c.Run.Trains[i] || tr.Result.Name != name {
			t.Errorf("%s: the run of %s", name, tr.Result.Name)
		}
		if n := len(tr.Fine.Rows); float64(n-1) != math.Round(tr.Result.Turns/sim.FineStep(tr.Result.Turns)) {
			t.Errorf("%s: %d fine rows", name, n)
		}
		if key := tr.Sweep.Over.Key; key != name+".mainspring.thickness_mm" || len(tr.Sweep.Points) != 41 || tr.Sweep.Of.Name != outcome.MeanTorque {
			t.Errorf("%s: swept over %s, %d points of %s", name, key, len(tr.Sweep.Points), tr.Sweep.Of.Name)
		}
		if r := tr.Rank.Rankings; len(r) != 2 || r[0].Of.Name != outcome.MeanTorque || r[1].Of.Name != outcome.LeastReserve || len(r[0].Inputs) == 0 {
			t.Errorf("%s: %d rankings", name, len(r))
		}
		if tr.SetUp == nil || tr.Made == nil || len(tr.Made.Ideals) == 0 || tr.Made.Stock != nil {
			t.Errorf("%s: %+v, %+v", name, tr.SetUp, tr.Made)
		}
	}
}

// A scenario that cannot be run has no studies, only the fault of the run.
func TestNoRun(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	s.Trains[0].Barrel.SetUpTurns = 20
	_, want := sim.RunClock(s, sim.Options{})
	if c, err := OfClock(context.Background(), s, nil); c != nil || want == nil || err == nil || err.Error() != want.Error() {
		t.Errorf("%v, want %v", err, want)
	}
}

// Without a need there is nothing to choose by, and only the torque is ranked.
func TestWithoutNeed(t *testing.T) {
	text, _ := scenarios.Text("eight-day")
	s, _ := trial.Compile(t, "eight-day", text[strings.Index(text, "# The wheels"):], "")
	c, err := OfClock(context.Background(), s, nil)
	if err != nil {
		t.Fatal(err)
	}
	tr := &c.Trains[0]
	if !math.IsNaN(tr.Result.Need.Used) || tr.Made != nil || len(tr.Rank.Rankings) != 1 || tr.First() != rules.Nothing {
		t.Errorf("%+v", tr)
	}
	// With too few turns for the fusee no set-up is looked for.
	s, _ = trial.Compile(t, "eight-day", "length_mm    = 1650.0", "length_mm    = 700.0")
	if c, err = OfClock(context.Background(), s, nil); err != nil || c.Trains[0].SetUp != nil || c.Trains[0].First() != rules.AnotherSpring {
		t.Errorf("%v", err)
	}
}

func TestBench(t *testing.T) {
	b := books.Sample(t)
	s, _ := trial.Compile(t, "three-trains")
	o, err := OfBench(context.Background(), bench.Clock(t, b, s), nil)
	if err != nil || o.Book != b || o.Assign == nil || len(o.Assign.Pairs) == 0 || len(o.Readings.Springs) != 3 {
		t.Errorf("%+v, %v", o, err)
	}
	b.Torques = nil
	if o, err = OfBench(context.Background(), bench.Clock(t, b, s), nil); err != nil || o.Assign != nil {
		t.Errorf("%+v, %v", o, err)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := OfClock(ctx, s, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
	if _, err := OfBench(ctx, bench.Clock(t, b, s), nil); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

// With draws the verdict of every train is as sure as it is alone, also where with any
// set-up the spring binds, and so is that of its set-up; without none is told.
func TestDraws(t *testing.T) {
	draws := sure.Options{Draws: 60, Seed: 4}
	for _, c := range [][]string{{"eight-day"}, {"three-trains"}, {"eight-day", "length_mm    = 1650.0", "length_mm    = 700.0"}} {
		s, _ := trial.Compile(t, c[0], c[1:]...)
		clock, err := OfClock(t.Context(), s, &draws)
		if err != nil {
			t.Fatal(err)
		}
		without, err := OfClock(t.Context(), s, nil)
		if err != nil {
			t.Fatal(err)
		}
		for i := range clock.Trains {
			tr := &clock.Trains[i]
			alone, err := sure.Of(t.Context(), s, i, draws)
			want := fmt.Sprint(alone) // NaN is NaN here
			if is := tr.Result.Verdict.Sureness; err != nil || fmt.Sprint(is) != want || is.Draws != 60 {
				t.Errorf("%s %s: sure to %+v, alone to %v, %v", c, tr.Result.Name, is, want, err)
			}
			if (tr.SetUp == nil) != (len(c) > 1) || tr.SetUp != nil && (fmt.Sprint(tr.SetUp.Now.Verdict.Sureness) != want || tr.SetUp.Advised != nil && tr.SetUp.Advised.Verdict.Sureness.Draws != 60) {
				t.Errorf("%s %s: set-up sure to %+v, advised %+v", c, tr.Result.Name, tr.SetUp.Now.Verdict.Sureness, tr.SetUp.Advised)
			}
			if none := &without.Trains[i]; none.Result.Verdict.Sureness != (sim.Sureness{}) || none.SetUp != nil && none.SetUp.Now.Verdict.Sureness != (sim.Sureness{}) {
				t.Errorf("%s %s: without draws sure to %+v", c, none.Result.Name, none.Result.Verdict.Sureness)
			}
		}
	}
}

// A bench book with draws is assigned as it is alone, with as many draws of that seed.
func TestBenchWithDraws(t *testing.T) {
	b := books.Sample(t)
	s, _ := trial.Compile(t, "three-trains")
	got, err := OfBench(t.Context(), bench.Clock(t, b, s), &sure.Options{Draws: 70, Seed: 9})
	if err != nil {
		t.Fatal(err)
	}
	alone, err := assign.Of(t.Context(), b, bench.Clock(t, b, s))
	if err != nil {
		t.Fatal(err)
	}
	if err := alone.Draw(t.Context(), 70, 9); err != nil || !slices.EqualFunc(got.Assign.Pairs, alone.Pairs, func(a, b assign.Pair) bool { return a.Verdict == b.Verdict && a.Torque == b.Torque }) || got.Assign.Sure != alone.Sure || got.Book != b || got.Readings == nil {
		t.Errorf("%+v, alone %+v, %v", got.Assign, alone, err)
	}
	without, err := OfBench(t.Context(), bench.Clock(t, b, s), nil)
	if is := without.Assign.Pairs[0].Verdict.Sureness; err != nil || is.Draws != 0 {
		t.Errorf("%+v, %v", is, err)
	}
	ended, stop := context.WithCancel(t.Context())
	stop()
	if _, err := OfBench(ended, bench.Clock(t, b, s), &sure.Options{Draws: 70}); !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
}
