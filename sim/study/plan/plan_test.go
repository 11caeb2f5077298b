package plan

import (
	"errors"
	"math"
	"slices"
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

// The step of a meter spreads as a rectangle: q²/12 in all, of which repeats that scatter
// widely have nothing in common, and repeats that do not scatter everything.
func TestRounding(t *testing.T) {
	for jitter, want := range map[float64][2]float64{0: {0, 1.0 / 12}, 10: {1.0 / 12, 0}} {
		own, common := rounding(2, jitter)
		closeTo(t, "own", own, 4*want[0], 1e-9)
		closeTo(t, "common", common, 4*want[1], 1e-9)
	}
	own, common := rounding(1, 1e-3)
	closeTo(t, "hardly any jitter", common, 1.0/12, 0.02)
	closeTo(t, "in all", own+common, 1.0/12, 1e-12)
	if own, common = rounding(0, 1); own != 0 || common != 0 {
		t.Errorf("without a step: %v, %v", own, common)
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
			if !st.Reached() || st.Plan.StandardError > o.Error*st.Value || st.Plan.Repeats != st.Needed {
				t.Fatalf("%s to %v: %+v", key, o.Error, st.Plan)
			}
			for _, p := range st.sizes(st.Needed - 1) {
				if st.Needed > 1 && p.StandardError <= o.Error*st.Value {
					t.Errorf("%s to %v: one run-down fewer does it too", key, o.Error)
				}
			}
			if k := len(st.Plan.Turns); k > 1 && st.sizes(st.Needed)[k-2].StandardError <= o.Error*st.Value {
				t.Errorf("%s to %v: one turn fewer does it too", key, o.Error)
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

// Exchanges find what trying every set finds.
func TestExchanges(t *testing.T) {
	for _, key := range []string{thickness, flow, "going.barrel.set_up_turns", "going.barrel.inside_diameter_mm", "going.line.thickness_mm"} {
		d := &planned(t, asked(key)).design
		for _, repeats := range []int{1, 3, 20} {
			every, found := d.best(repeats), d.exchanged(repeats)
			for k := range every {
				if v, w := d.varianceOf(found[k], repeats), d.varianceOf(every[k], repeats); !(v <= w*1.001) || !slices.IsSorted(found[k]) || len(found[k]) != k+1 {
					t.Errorf("%s, %d turns in %d run-downs: %v, best %v (%v)", key, k+1, repeats, v, w, found[k])
				}
			}
		}
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
