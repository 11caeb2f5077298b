package spread

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"
)

// sample is the eight-day clock with the tolerances given, each as key, plus or minus and
// shape; all else is nearly exact.
func sample(t testing.TB, tolerances ...string) *scenario.Scenario {
	t.Helper()
	s, _ := trial.Compile(t, "eight-day")
	text := make([]scenario.Tolerance, len(tolerances))
	for i, line := range tolerances {
		var shape string
		f := strings.Fields(line)
		text[i] = scenario.Tolerance{Key: f[0], PlusMinus: number64(t, f[1]), Percent: math.NaN(), Shape: scenario.Normal}
		if len(f) > 2 {
			shape = f[2]
			text[i].Shape = shape
		}
	}
	s.Tolerances = nil
	inputs, err := vary.Inputs(s, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, in := range inputs {
		for _, p := range in.Parts {
			if key := p.Quantity.Key; !slices.ContainsFunc(text, func(t scenario.Tolerance) bool { return t.Key == key }) {
				text = append(text, scenario.Tolerance{Key: key, PlusMinus: 1e-12, Percent: math.NaN(), Shape: scenario.Normal})
			}
		}
	}
	s.Tolerances = text
	if err := s.Check(); err != nil {
		t.Fatal(err)
	}
	return s
}

func number64(t testing.TB, text string) float64 {
	t.Helper()
	var v float64
	if err := json.Unmarshal([]byte(text), &v); err != nil {
		t.Fatal(err)
	}
	return v
}

func study(t testing.TB, s *scenario.Scenario, o Options, names ...string) *Study {
	t.Helper()
	var err error
	if o.Of, err = outcome.Several(names...); err != nil {
		t.Fatal(err)
	}
	st, err := Run(context.Background(), s, 0, o)
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// written is every figure of a study; of a result that some run has, all are numbers.
func written(t testing.TB, st *Study) string {
	t.Helper()
	var b strings.Builder
	fmt.Fprintln(&b, st.Runs, st.Asked, st.Failed, st.Failures, st.Verdicts, st.Inputs, st.Shares, st.Own.Verdict.Code)
	for i := range st.Results {
		d := &st.Results[i]
		lo, hi := d.Range()
		fmt.Fprintln(&b, d.Of.Name, d.Own, d.N(), d.Mean(), d.SD(), lo, hi, d.Fineness())
		for p := range 101 {
			q := d.Quantile(float64(p) / 100)
			if math.IsNaN(q+d.Mean()+lo+hi) != (d.N() == 0) {
				t.Errorf("%s over %d runs: %v, mean %v from %v to %v", d.Of.Name, d.N(), q, d.Mean(), lo, hi)
			}
			fmt.Fprintln(&b, q)
		}
	}
	return b.String()
}

// For small tolerances the standard deviation of the runs is that of the delta
// method, √Σ(∂y/∂x σ)² (JCGM 100, section 5.1), within three standard errors.
func TestDeltaMethod(t *testing.T) {
	s := sample(t, "going.mainspring.thickness_mm 0.0004", "going.mainspring.yield_mpa 2 uniform", "going.barrel.inside_diameter_mm 0.02 uniform",
		"going.mesh.third.efficiency 0.0005", "going.demand.least_torque_nm 0.0003", "going.escapement.escaping_arc_deg 0.01")
	const runs = 20_000
	names := []string{outcome.MeanTorque, outcome.MeanReserve, "spring.stored_energy_j", "least_torque_nm.predicted"}
	st := study(t, s, Options{Runs: runs, Seed: 3}, names...)
	for i, name := range names {
		d, sum := &st.Results[i], 0.0
		for _, in := range st.Inputs {
			m, err := vary.Reading(s, 0, vary.Length, in.Key)
			if err != nil {
				t.Fatal(err)
			}
			e := in.Parts[0].Error
			sd := e.PlusMinus / 2
			if e.Uniform {
				sd = e.PlusMinus / math.Sqrt(3)
			}
			sum += math.Pow(m.Slopes(0, e.PlusMinus, []outcome.Figure{d.Of})[0].Value*sd, 2)
		}
		if ratio := d.SD() / math.Sqrt(sum); math.Abs(ratio-1) > 3/math.Sqrt(2*runs) {
			t.Errorf("%s: standard deviation %v, by slopes %v: %v times", name, d.SD(), math.Sqrt(sum), ratio)
		}
		if off := math.Abs(d.Mean()-d.Own) / d.SD(); off > 4/math.Sqrt(runs)+0.01 {
			t.Errorf("%s: the mean is %v standard deviations off", name, off)
		}
	}
}

// With the usual errors of all that was read inputs act together on the unevenness: no
// share alone is above that in all, the difference is what others share, and the diameters
// of the cone are one input.
func TestShares(t *testing.T) {
	if testing.Short() {
		t.Skip("takes some seconds")
	}
	s, _ := trial.Compile(t, "eight-day")
	st := study(t, s, Options{Runs: 1, Shares: true}, outcome.Unevenness)
	sum := 1.0
	for _, in := range st.Inputs {
		sum -= in.Share.First.Value
		if in.Share.Joint.Value < -4*in.Share.Joint.Error-1e-12 || in.Share.Total.Value < 0 {
			t.Errorf("%s: %+v", in.Key, in.Share)
		}
	}
	if math.Abs(sum-st.Shares.Joint.Value) > 1e-9 || !rules.ActTogether(st.Shares.Joint.Value, st.Shares.Joint.Error) || st.Inputs[0].Key != "going.mainspring.yield_mpa" {
		t.Errorf("%v, %+v, first %s", sum, st.Shares.Joint, st.Inputs[0].Key)
	}
	cone := slices.IndexFunc(st.Inputs, func(in Input) bool { return in.Key == "going.fusee.diameters_mm" })
	if len(st.Inputs[cone].Parts) != 17 || !(st.Inputs[cone].Share.Total.Value > 0.002) {
		t.Errorf("%+v", st.Inputs[cone])
	}
}

// The same seed gives the same bytes on any number of cores, another seed others.
func TestSeedAlone(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	on := func(cores, runs int) string {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores))
		return written(t, study(t, s, Options{Runs: runs, Seed: 1}, mainResults[:]...))
	}
	for runs, several := range map[int][]int{3000: {2, 3, 8}, kept + 500: {8}} { // kept, and counted in bins
		one := on(1, runs)
		for _, cores := range several {
			if on(cores, runs) != one {
				t.Errorf("%d cores give other figures of %d runs", cores, runs)
			}
		}
	}
	few := written(t, study(t, s, Options{Runs: 300, Seed: 1}, mainResults[:]...))
	for _, seed := range []int64{0, -1, 2, math.MaxInt64, math.MinInt64} {
		if other := written(t, study(t, s, Options{Runs: 300, Seed: seed}, mainResults[:]...)); other == few {
			t.Errorf("seed %d", seed)
		}
	}
}

// A study that is stopped gives what a shorter one gives.
func TestStopped(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	last := 0
	st, err := Run(ctx, s, 0, Options{Runs: MaxRuns, Seed: 1, Progress: func(done int) {
		if done < last {
			t.Errorf("progress goes back from %d to %d", last, done)
		}
		if last = done; done > kept+500 {
			stop()
		}
	}})
	if err != nil || !st.Stopped() || st.Runs <= kept+500 || st.Runs > 30_000 || st.Runs%blockRuns != 0 {
		t.Fatalf("%v, %d runs", err, st.Runs)
	}
	short, err := Run(context.Background(), s, 0, Options{Runs: st.Runs, Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	short.Asked = st.Asked
	if written(t, short) != written(t, st) {
		t.Error("stopped early, the figures differ from those of as many runs")
	}
	stop()
	if _, err := Run(ctx, s, 0, Options{Runs: 5}); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

// A tolerance wider than its value: what cannot be built is counted, by key, and
// is in none of the figures.
func TestWideTolerance(t *testing.T) {
	s := sample(t, "going.mainspring.thickness_mm 0.8 uniform", "going.mesh.centre.efficiency 0.2 uniform")
	st := study(t, s, Options{Runs: 5000, Seed: 1}, outcome.MeanTorque)
	counted, judged := 0, 0
	for _, f := range st.Failures {
		counted += f.Runs
		if f.Key == "" || f.Why == "" || f.Runs == 0 {
			t.Errorf("%+v", f)
		}
	}
	for _, n := range st.Verdicts {
		judged += n
	}
	if st.Failed < 1000 || st.Failed == st.Runs || counted != st.Failed || judged != st.Built() || st.Results[0].N() != st.Built() || len(st.Failures) < 2 {
		t.Errorf("%d of %d failed, %d counted, %d judged, %+v", st.Failed, st.Runs, counted, judged, st.Failures)
	}
	// Nothing at all can be built.
	s = sample(t, "going.mainspring.length_mm 1e6")
	st = study(t, s, Options{Runs: 300, Seed: 1}, outcome.MeanTorque)
	if st.Built() > 3 || st.Results[0].N() != st.Built() || st.Runs != 300 {
		t.Errorf("%d of %d runs were built", st.Built(), st.Runs)
	}
	written(t, st)
}

func TestRefused(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	for _, runs := range []int{0, -1, MaxRuns + 1} {
		if _, err := Run(context.Background(), s, 0, Options{Runs: runs}); !errors.Is(err, ErrRuns) {
			t.Errorf("%d runs: %v", runs, err)
		}
	}
	s.Trains[0].Mainspring.LengthMM = 1e6
	if _, err := Run(context.Background(), s, 0, Options{Runs: 5}); err == nil {
		t.Error("a strip that does not go in")
	}
}

// What a study holds does not grow with the runs: twice as many take no more.
func TestMemoryIsBounded(t *testing.T) {
	if testing.Short() {
		t.Skip("takes some seconds")
	}
	s, _ := trial.Compile(t, "eight-day")
	taken := func(runs int) uint64 {
		var before, after runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&before)
		st, err := Run(context.Background(), s, 0, Options{Runs: runs, Seed: 1})
		if err != nil {
			t.Fatal(err)
		}
		runtime.GC()
		runtime.ReadMemStats(&after)
		runtime.KeepAlive(st)
		return max(after.HeapAlloc, before.HeapAlloc) - before.HeapAlloc
	}
	if few, many := taken(kept+500), taken(3*kept); few < 1<<20 || many > few+1<<18 {
		t.Errorf("%d bytes for %d runs, %d for %d", few, kept+500, many, 2*kept)
	}
}

func TestHoldFill(t *testing.T) {
	s := sample(t, "going.mainspring.thickness_mm 0.02")
	kept := study(t, s, Options{Runs: 2000, Seed: 1}, "spring.fill")
	full := study(t, s, Options{Runs: 2000, Seed: 1, Hold: vary.Fill}, "spring.fill")
	if !(kept.Results[0].SD() > 0.005) || full.Results[0].SD() > 1e-12 {
		t.Errorf("the fill varies by %v, held by %v", kept.Results[0].SD(), full.Results[0].SD())
	}
}

// Every main result is a result, and those of a train are those that it has.
func TestMainResults(t *testing.T) {
	if _, err := outcome.Several(mainResults[:]...); err != nil {
		t.Error(err)
	}
	s, _ := trial.Compile(t, "three-trains")
	for number, want := range []struct{ has, not string }{{"amplitude_deg.mean", "blow_interval_s.mean"}, {"blow_interval_s.mean", "amplitude_deg.mean"}} {
		st, err := Run(context.Background(), s, number, Options{Runs: 10})
		if err != nil {
			t.Fatal(err)
		}
		had := map[string]bool{}
		for _, d := range st.Results {
			had[d.Of.Name] = true
		}
		if !had[want.has] || had[want.not] || st.Results[0].Of.Name != outcome.LeastReserve {
			t.Errorf("the results of train %d are %v", number, had)
		}
	}
}

// Whatever ends a study, no goroutine outlives it.
func TestNothingGoesOn(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	before := runtime.NumGoroutine()
	for range 8 {
		ctx, stop := context.WithCancel(context.Background())
		_, err := Run(ctx, s, 0, Options{Runs: 50_000, Progress: func(int) { stop() }})
		stop()
		if err != nil {
			t.Fatal(err)
		}
	}
	// Of the last to end only the return may still be under way.
	for i := 0; runtime.NumGoroutine() > before && i < 1000; i++ {
		time.Sleep(time.Millisecond)
	}
	if n := runtime.NumGoroutine(); n > before {
		t.Errorf("%d goroutines, %d before", n, before)
	}
}

// A share of a verdict is one of the runs that could be built.
func TestShare(t *testing.T) {
	st := &Study{Runs: 10, Failed: 2, Verdicts: map[rules.Code]int{rules.Suits: 6, rules.Thin: 2}}
	if st.Share(rules.Suits) != 0.75 || st.Share(rules.Thin) != 0.25 || st.Share(rules.Stops) != 0 || !math.IsNaN((&Study{Runs: 2, Failed: 2}).Share(rules.Suits)) {
		t.Errorf("%v, %v", st.Share(rules.Suits), st.Share(rules.Stops))
	}
}
