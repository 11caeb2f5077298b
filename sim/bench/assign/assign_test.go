package assign

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/sim"
	"evenpull/sim/bench/book"
	"evenpull/sim/bench/found"
	"evenpull/sim/internal/trial"
	"evenpull/sim/internal/trial/books"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"

	"github.com/golang/geo/r1"
)

func study(t testing.TB, b *book.Book, s *scenario.Scenario) *Study {
	t.Helper()
	var clock *found.Clock
	if s != nil {
		var err error
		if clock, err = found.Of(t.Context(), b, s); err != nil {
			t.Fatal(err)
		}
	}
	st, err := Of(t.Context(), b, clock)
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// The sample was made with A from the striking train, B from the quarters and C
// from the going train: that is what comes out, and what each gives in its own
// train is what the scenario says, within the errors of the sample.
func TestSample(t *testing.T) {
	b, s := sample(t)
	st := study(t, b, s)
	if want := []string{"C", "A", "B"}; !slices.Equal(labels(st, st.Best), want) {
		t.Errorf("%v, want %v", labels(st, st.Best), want)
	}
	for i, p := range st.PairsOf(st.Best) {
		if of := &st.Pairs[st.Best[i]]; p.Label != of.Label || p.Train != of.Train {
			t.Errorf("%s in %s, want %s in %s", p.Label, p.Train, of.Label, of.Train)
		}
	}
	for i, at := range st.Best {
		p, r := &st.Pairs[at], trial.RunOf(t, s, i)
		if math.Abs(p.Torque.Mean/r.Torque.Mean-1) > 0.02 || math.Abs(p.Torque.Min/r.Torque.Min-1) > 0.02 || p.Verdict.Code != rules.Suits || p.Carried() != (i > 0) || !p.Whole || !p.Chosen {
			t.Errorf("%+v, in the scenario %+v", p, r.Torque)
		}
	}
}

// labels are those of the springs of a choice.
func labels(st *Study, pairs []int) []string {
	list := make([]string, len(pairs))
	for i, at := range pairs {
		list[i] = st.Pairs[at].Label
	}
	return list
}

// bench of a train that needs 0.37 N·m by weights of no doubt, and springs of level
// torque.
func levelSprings(t testing.TB, torques ...float64) *book.Book {
	t.Helper()
	var text strings.Builder
	// 0.37 N·m at 77 mm is 490.0 g.
	fmt.Fprintf(&text, "[[weights]]\ntrain = \"going\"\npulley_radius_mm = 77\ntrials = [ { mass_g = 489.9, runs = false }, { mass_g = 490.1, runs = true } ]\n")
	for i, v := range torques {
		fmt.Fprintf(&text, "[[torque]]\ntrain = \"going\"\nspring = \"S%d\"\nmeter_relative = 0.01\nrunning_down = [ [%v, %v, %v], [%v, %v, %v] ]\n", i+1, v, v, v, v, v, v)
	}
	return books.Read(t, text.String())
}

// What a train is judged by is what a run of the scenario judges it by, with the
// need by weights: a band liked at the bench stands before blows that were timed, and
// also where none were.
func TestJudgedAsARun(t *testing.T) {
	b, s := sample(t)
	quarters := func(s *scenario.Scenario) *Need {
		st := study(t, b, s)
		return &st.Needs[slices.IndexFunc(st.Needs, func(n Need) bool { return n.Train == "quarters" })]
	}
	if got := quarters(s).Standard; got.Basis != rules.ByBand || got.Liked != (r1.Interval{Lo: 0.6, Hi: 0.9}) {
		t.Errorf("with a band %+v", got)
	}
	if got := quarters(nil).Standard; got.Basis != rules.ByCadence || got.Liked.Hi < 1 || got.Liked.Lo > 0.6 {
		t.Errorf("by the cadence of the weights %+v", got)
	}
	// Without a band the cadence is computed with the drag that the timed weights tell: it
	// is that of the weights themselves, as far as 1/interval² goes with the torque.
	free := s.Clone()
	free.Trains[2].Demand.TorqueBandNM = scenario.Range{Lo: math.NaN(), Hi: math.NaN()}
	timed, got := quarters(nil).Standard, quarters(free).Standard
	if got.Basis != rules.ByCadence || math.Abs(got.Liked.Lo/timed.Liked.Lo-1) > 0.05 || math.Abs(got.Liked.Hi/timed.Liked.Hi-1) > 0.05 {
		t.Errorf("by the cadence of the weights, with a scenario that computes one too %+v, want about %+v", got, timed)
	}
	for i := range b.Weights {
		for k := range b.Weights[i].Trials {
			trial := &b.Weights[i].Trials[k]
			runs := !math.IsNaN(trial.BlowIntervalS) || trial.Runs != nil && *trial.Runs
			trial.BlowIntervalS, trial.Runs = math.NaN(), &runs
		}
	}
	st := study(t, b, s)
	for i := range st.Needs {
		n := &st.Needs[i]
		weighed := s.Clone()
		weighed.Trains[i].Demand.LeastTorqueNM = n.Need.Measured
		if want := trial.RunOf(t, weighed, i).Standard; n.Standard != want || !n.Weighed {
			t.Errorf("%s: %+v, in a run %+v", n.Train, n.Standard, want)
		}
	}
}

// A going train that needs 0.37 N·m is suited by a spring of 0.46, a reserve of
// 1.24, and overdriven by one of 0.93 (common practice, no source).
func TestFiguresOfTheBench(t *testing.T) {
	st := study(t, levelSprings(t, 0.46, 0.93), nil)
	a, b := &st.Pairs[0], &st.Pairs[1]
	if math.Abs(st.Needs[0].Need.Used-0.37) > 0.0005 || a.Verdict.Code != rules.Suits || math.Abs(a.Reserve(a.Torque.Mean)-1.24) > 0.005 || !a.Sound() || b.Verdict.Code != rules.Overdriven || b.Sound() {
		t.Errorf("%+v\n%+v", a, b)
	}
	if want := []string{"S1"}; !slices.Equal(labels(st, st.Best), want) {
		t.Errorf("%v", st.Best)
	}
	// Without a scenario torque, need and verdict are known, and nothing else.
	if a.Whole || a.Torque.Unevenness != 0 || a.TurnsLost != 0 || !math.IsNaN(a.Spring.Available) || !math.IsNaN(a.HoursPerTurn) || !math.IsNaN(a.Spare()) || !math.IsNaN(st.Stored()) {
		t.Errorf("%+v", a)
	}
}

// The defaults are those of a scenario that says nothing.
func TestDefaults(t *testing.T) {
	_, trains := trial.Compile(t, "three-trains")
	if trains[0].Bands != rules.DefaultBands() {
		t.Errorf("%+v", rules.DefaultBands())
	}
}

func TestRefused(t *testing.T) {
	weights := books.Read(t, "[[weights]]\ntrain = \"going\"\npulley_radius_mm = 75\ntrials = [ { mass_g = 450.0, runs = true } ]\n")
	if _, err := Of(t.Context(), weights, nil); !errors.Is(err, ErrNoTorque) {
		t.Errorf("%v", err)
	}
	torque := books.Read(t, "[[torque]]\ntrain = \"going\"\nspring = \"A\"\nrunning_down = [ [0.46] ]\n")
	if _, err := Of(t.Context(), torque, nil); !errors.Is(err, ErrNoNeed) {
		t.Errorf("%v", err)
	}
	_, s := sample(t)
	st := study(t, torque, s) // the needs come from the scenario
	if len(st.Needs) != 3 || st.Needs[0].Weighed || !math.IsNaN(st.Sure) {
		t.Errorf("%+v", st.Needs)
	}
	var many strings.Builder
	for i := range 13 {
		fmt.Fprintf(&many, "[[weights]]\ntrain = \"t%d\"\npulley_radius_mm = 75\ntrials = [ { mass_g = 450.0, runs = true } ]\n[[torque]]\ntrain = \"t%d\"\nspring = \"%d\"\nrunning_down = [ [0.46] ]\n", i, i, i)
	}
	fmt.Fprint(&many, "[[torque]]\ntrain = \"t0\"\nspring = \"more\"\nrunning_down = [ [0.46] ]\n")
	if _, err := Of(t.Context(), books.Read(t, many.String()), nil); !errors.Is(err, ErrMany) || !strings.Contains(err.Error(), "14 springs, 13 trains: want at most 12 ") {
		t.Errorf("%v", err)
	}
	// Readings in a train that the scenario does not have tell nothing of the spring.
	other := levelSprings(t, 0.46)
	other.Torques[0].Train = "chimes"
	var none *scenario.NoTrainError
	if st := study(t, other, s); !errors.As(st.Pairs[0].Why, &none) || st.Pairs[0].Whole || len(st.Best) != 0 {
		t.Errorf("%+v", st.Pairs[0])
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	b, _ := sample(t)
	clock, err := found.Of(t.Context(), b, s)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Of(ctx, b, clock); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

// Trains that the scenario cannot run are left out, and why is told.
func TestTrainsThatCannotRun(t *testing.T) {
	b, s := sample(t)
	for i := range s.Trains {
		if i != 1 {
			s.Trains[i].Barrel.ArborDiameterMM = s.Trains[i].Barrel.InsideDiameterMM - 1
		}
	}
	st := study(t, b, s)
	if len(st.Needs) != 1 || len(st.Refused) != 2 || st.Needs[0].Train != "striking" {
		t.Errorf("%+v, %v", st.Needs, st.Refused)
	}
	// What nothing is known to be needed of is named too.
	_, s = sample(t)
	s.Trains[0].Demand.LeastTorqueNM, s.Trains[0].Escapement = math.NaN(), nil
	b.Weights = b.Weights[1:]
	if st := study(t, b, s); len(st.Needs) != 2 || len(st.Refused) != 1 || !errors.Is(st.Refused[0], ErrUnknown) {
		t.Errorf("%+v, %v", st.Needs, st.Refused)
	}
}

// A spring that binds is never advised, whatever its torque.
func TestBinding(t *testing.T) {
	b, s := sample(t)
	b.Weights, b.Torques = nil, nil
	s.Trains = s.Trains[:1]
	own := trial.RunOf(t, s, 0)
	b.Torques = []book.Torque{readingsOf(own, "A")}
	s.Trains[0].Barrel.SetUpTurns += own.Left() + 0.4
	b.Torques[0] = readingsOf(trial.RunOf(t, s, 0), "A")
	st := study(t, b, s)
	p := &st.Pairs[0]
	if !p.Whole || !(p.TurnsLost > 0.2) || !p.Faults.Has(sim.Binds) || p.Sound() || len(st.Best) != 0 || p.Chosen || len(st.Bare(st.Best)) != 1 {
		t.Errorf("%+v, %v, chosen %v", p, p.Why, st.Best)
	}
}
