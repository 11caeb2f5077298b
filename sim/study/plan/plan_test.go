package plan

import (
	"errors"
	"math"
	"math/rand/v2"
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

// From any set exchanges lead to one that no exchange makes better; of invented slopes to both
// sides, some of them 0, the sets found for each size are hardly ever worse than the best.
func TestExchangesFromAnywhere(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 5))
	tried, missed := 0, 0
	for range 20 {
		d := design{scatter: random.Float64(), offset: 4 * random.Float64(), meter: random.Float64()}
		for i := range 12 {
			d.at, d.slope, d.torque = append(d.at, i), append(d.slope, max(random.NormFloat64(), -1)+float64(i%3)), append(d.torque, 1+random.Float64())
		}
		d.slope[random.IntN(12)] = 0
		every, found := d.best(2), d.exchanged(2)
		for k := range every {
			if tried++; d.varianceOf(found[k], 2) > d.varianceOf(every[k], 2)*(1+1e-9) {
				missed++
			}
			start := random.Perm(12)[:k+1]
			set := d.exchange(start, 2)
			least := d.varianceOf(set, 2)
			if len(set) != k+1 || least > d.varianceOf(start, 2) {
				t.Fatalf("%v becomes %v", start, set)
			}
			for i := range set {
				for turn := range 12 {
					other := slices.Clone(set)
					if other[i] = turn; !slices.Contains(set, turn) && d.varianceOf(other, 2) < least*(1-1e-12) {
						t.Fatalf("%v is better than %v", other, set)
					}
				}
			}
		}
	}
	if missed > tried/20 {
		t.Errorf("%d of %d sets are not the best", missed, tried)
	}
}

// What two repeats that round to a step have in common is what drawn ones have.
func TestRoundingOfDraws(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 6))
	const step, n = 2.0, 400_000
	for _, jitter := range []float64{0.2, 0.5, 0.8} {
		common, all := 0.0, 0.0
		for range n {
			truth := step * random.Float64()
			r := func() float64 {
				x := truth + jitter*random.NormFloat64()
				return step*math.Round(x/step) - x
			}
			a, b := r(), r()
			common, all = common+a*b/n, all+a*a/n
		}
		own, shared := rounding(step, jitter)
		if math.Abs(shared-common) > 0.003 || math.Abs(own+shared-all) > 0.003 {
			t.Errorf("jitter %v: %v of %v in common, drawn %v of %v", jitter, shared, own+shared, common, all)
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
