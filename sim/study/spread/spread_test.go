package spread

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"errors"
	"math"
	"runtime"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"
)

// sample is the eight-day clock with the tolerances given, each as lines of TOML.
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
	if o.Of, err = outcome.Several(names); err != nil {
		t.Fatal(err)
	}
	st, err := Run(context.Background(), s, 0, o)
	if err != nil {
		t.Fatal(err)
	}
	return st
}

func written(t testing.TB, st *Study) string {
	t.Helper()
	var b bytes.Buffer
	if err := JSON(&b, st); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// For small tolerances the standard deviation of the runs is that of the delta
// method, √Σ(∂y/∂x σ)² (JCGM 100, section 5.1), within three standard errors.
func TestDeltaMethod(t *testing.T) {
	s := sample(t, "going.mainspring.thickness_mm 0.0004", "going.mainspring.yield_mpa 2 uniform", "going.barrel.inside_diameter_mm 0.02 uniform",
		"going.mesh.third.efficiency 0.0005", "going.demand.least_torque_nm 0.0003", "going.pendulum.mass_g 0.2")
	const runs = 20_000
	for _, name := range []string{outcome.MeanTorque, outcome.MeanReserve, "spring.stored_energy_j", "least_torque_nm.predicted"} {
		st := study(t, s, Options{Runs: runs, Seed: 3}, name)
		d := &st.Results[0]
		if ratio := d.SD() / st.DeltaSD; math.Abs(ratio-1) > 3/math.Sqrt(2*runs) {
			t.Errorf("%s: standard deviation %v, by slopes %v: %v times", name, d.SD(), st.DeltaSD, ratio)
		}
		if off := math.Abs(d.Mean()-d.Own) / d.SD(); off > 4/math.Sqrt(runs)+0.01 {
			t.Errorf("%s: the mean is %v standard deviations off", name, off)
		}
		sum := 0.0
		for _, in := range st.Inputs {
			sum += in.Share
		}
		if math.Abs(sum-1) > 1e-12 {
			t.Errorf("the shares add up to %v", sum)
		}
	}
}

// The same seed gives the same bytes on any number of cores, another seed others.
func TestSeedAlone(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	on := func(cores int, seed int64) string {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores))
		return written(t, study(t, s, Options{Runs: 20_000, Seed: seed}, mainResults...))
	}
	one := on(1, 1)
	for _, cores := range []int{2, 3, 8} {
		if on(cores, 1) != one {
			t.Errorf("%d cores give other figures", cores)
		}
	}
	few := written(t, study(t, s, Options{Runs: 300, Seed: 1}, mainResults...))
	for _, seed := range []int64{0, -1, 2, math.MaxInt64, math.MinInt64} {
		if other := written(t, study(t, s, Options{Runs: 300, Seed: seed}, mainResults...)); other == few || strings.Contains(other, "NaN") {
			t.Errorf("seed %d", seed)
		}
	}
}

// A study that is stopped gives what a shorter one gives.
func TestStopped(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	of := Main(s, 0)
	last := 0
	st, err := Run(ctx, s, 0, Options{Runs: MaxRuns, Seed: 1, Of: of, Progress: func(done int) {
		if done < last {
			t.Errorf("progress goes back from %d to %d", last, done)
		}
		if last = done; done >= 18_000 {
			stop()
		}
	}})
	if err != nil || !st.Stopped() || st.Runs < 18_000 || st.Runs > 30_000 || st.Runs%blockRuns != 0 {
		t.Fatalf("%v, %d runs", err, st.Runs)
	}
	short, err := Run(context.Background(), s, 0, Options{Runs: st.Runs, Seed: 1, Of: of})
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := (Text{}).Write(&b, st); err != nil || !strings.Contains(b.String(), "stopped early") {
		t.Errorf("%v: %s", err, b.String())
	}
	short.Asked = st.Asked
	if written(t, short) != written(t, st) {
		t.Error("stopped early, the figures differ from those of as many runs")
	}
	stop()
	if _, err := Run(ctx, s, 0, Options{Runs: 5, Of: of}); !errors.Is(err, context.Canceled) {
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
	if st.Failed < 2000 || st.Failed == st.Runs || counted != st.Failed || judged != st.Built() || st.Results[0].N() != st.Built() || len(st.Failures) < 3 {
		t.Errorf("%d of %d failed, %d counted, %d judged, %+v", st.Failed, st.Runs, counted, judged, st.Failures)
	}
	var b bytes.Buffer
	if err := (Text{}).Write(&b, st); err != nil || !strings.Contains(b.String(), "cannot be built and are left out") || strings.Contains(b.String(), "NaN") {
		t.Errorf("%v: %s", err, b.String())
	}
	// Nothing at all can be built.
	s = sample(t, "going.mainspring.length_mm 1e6")
	st = study(t, s, Options{Runs: 300, Seed: 1}, outcome.MeanTorque)
	b.Reset()
	if err := (Text{}).Write(&b, st); err != nil || st.Built() > 3 || strings.Contains(b.String()+written(t, st), "NaN") {
		t.Errorf("%v: %s", err, b.String())
	}
}

func TestRefused(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	for _, runs := range []int{0, -1, MaxRuns + 1} {
		if _, err := Run(context.Background(), s, 0, Options{Runs: runs}); !errors.Is(err, ErrRuns) {
			t.Errorf("%d runs: %v", runs, err)
		}
	}
	s.Tolerances = nil
	if _, err := Run(context.Background(), s, 0, Options{Runs: 5}); !errors.Is(err, ErrNoTolerance) {
		t.Errorf("%v", err)
	}
}

// Memory does not grow with the runs: five times as many take no more.
func TestMemoryIsBounded(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	of := Main(s, 0)
	taken := func(runs int) uint64 {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		if _, err := Run(context.Background(), s, 0, Options{Runs: runs, Seed: 1, Of: of}); err != nil {
			t.Fatal(err)
		}
		runtime.ReadMemStats(&after)
		return after.TotalAlloc - before.TotalAlloc
	}
	if few, many := taken(20_000), taken(100_000); many > few+1<<20 {
		t.Errorf("%d bytes for 20 000 runs, %d for 100 000", few, many)
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
func TestMain(t *testing.T) {
	if _, err := outcome.Several(mainResults); err != nil {
		t.Error(err)
	}
	s, _ := trial.Compile(t, "three-trains")
	has := func(number int, name string) bool {
		for _, o := range Main(s, number) {
			if o.Name == name {
				return true
			}
		}
		return false
	}
	if !has(0, "amplitude_deg.mean") || has(0, "blow_interval_s.mean") || has(1, "amplitude_deg.mean") || !has(1, "blow_interval_s.mean") {
		t.Error("the results are not those of the train")
	}
}

func TestFormats(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := study(t, s, Options{Runs: 3000, Seed: 1}, mainResults...)
	var doc struct {
		Runs, Failed int
		Seed         int64
		Results      map[string]struct{ Mean, SD, P05, P50, P95 *float64 }
		Verdicts     map[string]float64
	}
	if err := json.Unmarshal([]byte(written(t, st)), &doc); err != nil {
		t.Fatal(err)
	}
	m := doc.Results[outcome.MeanTorque]
	if doc.Runs != 3000 || doc.Seed != 1 || !(*m.P05 < *m.P50 && *m.P50 < *m.P95 && *m.SD > 0) || doc.Results["blow_interval_s.mean"].Mean != nil || doc.Verdicts["suits"] < 0.9 {
		t.Errorf("%+v", doc)
	}
	var b bytes.Buffer
	if err := CSV(&b, st); err != nil {
		t.Fatal(err)
	}
	if lines, err := csv.NewReader(&b).ReadAll(); err != nil || len(lines) != 1+len(mainResults) {
		t.Errorf("%v, %d lines", err, len(lines))
	}
	b.Reset()
	if err := (Text{}).Write(&b, st); err != nil {
		t.Fatal(err)
	}
	for _, says := range []string{"3000 runs: SUITS in 9", "thin in", "two standard deviations", "Seed 1.", "let-down key"} {
		if !strings.Contains(b.String(), says) {
			t.Errorf("no %q in\n%s", says, b.String())
		}
	}
	if strings.Contains(b.String(), "–  –") || st.Own != rules.Suits {
		t.Errorf("%s", b.String())
	}
}
