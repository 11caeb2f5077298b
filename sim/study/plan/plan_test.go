package plan

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
)

const (
	thickness  = "going.mainspring.thickness_mm"
	flow       = "going.mainspring.yield_mpa"
	efficiency = "going.mainspring.efficiency"
)

// asked are options that ask for nothing but an input.
func asked(key string) Options {
	return Options{Key: key, Error: math.NaN(), Power: math.NaN(), Law: Usual()}
}

func planned(t testing.TB, o Options) *Study {
	t.Helper()
	s, _ := trial.Compile(t, "eight-day")
	st, err := Run(t.Context(), s, 0, o)
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// The coil efficiency only scales the torque. With scatter alone, the same at every turn, n
// readings of a torque that is even tell it to σ/√n (by hand: the mean of n); of one that
// is not, to σ·mean/√ΣT². A meter out by its bound a in common leaves a/√3 of it, and
// run-downs that differ as wholes by o over J of them o/√J.
func TestClosedForms(t *testing.T) {
	const value = 0.9
	for _, n := range []int{1, 4, 17} {
		for _, repeats := range []int{1, 3} {
			o := asked(efficiency)
			o.Turns, o.Repeats = n, repeats
			o.Law = Law{Scatter: 0.006}
			st := planned(t, o)
			squares, mean := 0.0, 0.0
			for _, at := range st.At {
				mean += at.Torque / float64(len(st.At))
				if at.Read {
					squares += at.Torque * at.Torque
				}
			}
			got := st.Plan.StandardError / value
			closeTo(t, "scatter alone", got, 0.006*mean/math.Sqrt(squares*float64(repeats)), 1e-6)
			closeTo(t, "of an even torque", got, 0.006/math.Sqrt(float64(n*repeats)), 0.01)
			o.Law = Law{MeterRelative: 0.02}
			closeTo(t, "the meter alone", planned(t, o).Plan.StandardError/value, 0.02/math.Sqrt(3), 0.001)
			o.Law = Law{Offset: 0.004}
			closeTo(t, "run-downs alone", planned(t, o).Plan.StandardError/value, 0.004/math.Sqrt(float64(repeats)), 0.01)
		}
	}
}

func closeTo(t testing.TB, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within*math.Abs(want)) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// More repeats are never worse, nor more turns to choose from where nothing is common to
// them; the plan keeps within Near of the best, and no fewer turns do.
func TestMoreIsNeverWorse(t *testing.T) {
	for _, key := range []string{thickness, flow, efficiency, "going.barrel.set_up_turns", "going.mainspring.length_mm"} {
		st := planned(t, asked(key))
		for _, size := range st.Choices {
			for i := 1; i < len(size.Plans); i++ {
				if a, b := size.Plans[i-1], size.Plans[i]; b.StandardError > a.StandardError || b.FromMeter > b.StandardError {
					t.Errorf("%s, %d turns: %v in %d run-downs, %v in %d", key, size.Turns, a.StandardError, a.Repeats, b.StandardError, b.Repeats)
				}
			}
		}
		least := math.Inf(1)
		plans := st.sizes(UsualRepeats)
		for i := range plans {
			least = min(least, plans[i].StandardError)
		}
		k := len(st.Plan.Turns) - 1
		if st.Plan.StandardError > 1.05*least || k > 0 && plans[k-1].StandardError <= 1.05*least || st.Plan.Repeats != UsualRepeats || least > st.Whole.StandardError*(1+1e-12) {
			t.Errorf("%s: %+v, best %v", key, st.Plan, least)
		}
	}
}

// The error asked for is reached, and with one run-down fewer, or one turn fewer, it is not.
func TestErrorAskedFor(t *testing.T) {
	for _, key := range []string{thickness, flow, efficiency} {
		o := asked(key)
		best := planned(t, Options{Key: key, Error: math.NaN(), Power: math.NaN(), Repeats: MostRepeats, Law: Usual()})
		floor := best.Plan.StandardError / best.Value
		for _, times := range []float64{1.06, 1.2, 1.5, 3} {
			o.Error = times * floor
			st := planned(t, o)
			if !st.Reached() || st.Plan.StandardError > o.Error*st.Value || st.Plan.Repeats != max(st.Needed, 3) {
				t.Fatalf("%s to %v: %+v", key, o.Error, st.Plan)
			}
			for _, p := range st.sizes(st.Needed - 1) {
				if st.Needed > 1 && p.StandardError <= o.Error*st.Value {
					t.Errorf("%s to %v: one run-down fewer does it too", key, o.Error)
				}
			}
			if k := len(st.Plan.Turns); k > 1 && st.sizes(st.Plan.Repeats)[k-2].StandardError <= o.Error*st.Value {
				t.Errorf("%s to %v: one turn fewer does it too", key, o.Error)
			}
			// Where only as many may be made as it takes, these are, though fewer than three.
			o.Repeats = st.Needed
			if few := planned(t, o); !few.Reached() || few.Plan.Repeats != st.Needed || few.Plan.StandardError > o.Error*st.Value {
				t.Errorf("%s to %v in %d: %+v", key, o.Error, o.Repeats, few.Plan)
			}
			// Where fewer may be made it is as good as they can.
			if o.Repeats = st.Needed - 1; o.Repeats > 0 {
				if fewer := planned(t, o); fewer.Reached() || fewer.Plan.Repeats != o.Repeats || fewer.Needed != st.Needed {
					t.Errorf("%s to %v in %d: %+v", key, o.Error, o.Repeats, fewer.Plan)
				}
			}
			o.Repeats = 0
		}
		o.Error = 0.9 * planned(t, asked(key)).Plan.FromMeter / best.Value
		if st := planned(t, o); st.Reached() || st.Needed != 0 || st.Plan.Repeats != UsualRepeats {
			t.Errorf("%s: below what the meter leaves, %+v", key, st.Plan)
		}
	}
}

// The other plans are those of some numbers of turns and run-downs, rising, the plan's among
// them.
func TestChoices(t *testing.T) {
	o := asked(flow)
	o.Turns, o.Repeats = 7, 4
	st := planned(t, o)
	var sizes []int
	for _, s := range st.Choices {
		sizes = append(sizes, s.Turns)
		for i, p := range s.Plans {
			if len(p.Turns) != s.Turns || p.Repeats != st.Repeats[i] {
				t.Errorf("%+v", p)
			}
		}
	}
	if !slices.Equal(sizes, []int{1, 2, 3, 5, 7, 8, 12, 17}) || !slices.Equal(st.Repeats, []int{1, 2, 3, 4, 5, 10}) || len(st.Plan.Turns) != 7 || st.Plan.Repeats != 4 {
		t.Errorf("%v in %v; %+v", sizes, st.Repeats, st.Plan)
	}
	if p := st.Choices[4].Plans[3]; !slices.Equal(p.Turns, st.Plan.Turns) || p.StandardError != st.Plan.StandardError {
		t.Errorf("%+v, the plan is %+v", p, st.Plan)
	}
	o.Turns, o.Repeats = 17, MostRepeats
	if st = planned(t, o); len(st.Choices) != 7 || len(st.Repeats) != 6 || st.Plan.StandardError != st.Whole.StandardError {
		t.Errorf("%d in %v", len(st.Choices), st.Repeats)
	}
}

func TestRunFails(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	of := func(change func(*Options)) Options {
		o := asked(thickness)
		change(&o)
		return o
	}
	for name, c := range map[string]struct {
		o    Options
		want error
	}{
		"another train's": {of(func(o *Options) { o.Key = "striking.mainspring.thickness_mm" }), ErrApart},
		"moves nothing":   {of(func(o *Options) { o.Key = "going.pendulum.mass_g" }), ErrMoves},
		"too many turns":  {of(func(o *Options) { o.Turns = 100 }), ErrTurns},
		"same spring":     {of(func(o *Options) { o.Key = ""; o.Against = &Other{s, 0} }), ErrAlike},
		"share of 0":      {of(func(o *Options) { o.Key = "going.mesh.centre.drag_nm"; o.Error = 0.01 }), ErrShare},
	} {
		if _, err := Run(t.Context(), s, 0, c.o); !errors.Is(err, c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
	var fault scenario.Fault
	if _, err := Run(t.Context(), s, 0, of(func(o *Options) { o.Key = "going.nothing" })); !errors.As(err, &fault) {
		t.Errorf("unknown key: %v", err)
	}
}

// What stands where nothing is asked (common practice, no source), and what is said of turns.
func TestDefaults(t *testing.T) {
	if got, want := Usual(), (Law{Scatter: 0.006, Offset: 0.004, MeterRelative: 0.01}); got != want {
		t.Errorf("%+v", got)
	}
	if Near != 0.05 || UsualRepeats != 3 || MostRepeats != 1000 {
		t.Errorf("%v, %v, %v", Near, UsualRepeats, MostRepeats)
	}
	if st := planned(t, asked(thickness)); st.Plan.Repeats != 3 || st.Value != 0.38 {
		t.Errorf("%+v", st.Plan)
	}
	o := asked("")
	o.Against = against(t, thickness+"=0.39")
	if st := planned(t, o); st.Value != 1 {
		t.Errorf("two springs differ by %v of what they differ by", st.Value)
	}
	s, _ := trial.Compile(t, "eight-day")
	o = asked(thickness)
	o.Turns = 18
	if _, err := Run(t.Context(), s, 0, o); err == nil || !strings.Contains(err.Error(), "there are 17, from 0 to 16") {
		t.Errorf("%v", err)
	}
	o = asked("")
	o.Against = against(t, thickness+"=0.39")
	o.Against.Scenario.Trains[0].Fusee.Turns = -1
	if _, err := Run(t.Context(), s, 0, o); err == nil {
		t.Error("a train that cannot be run is compared")
	}
}
