package vary_test

import (
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

func inputs(t testing.TB, s *scenario.Scenario, number int) []vary.Input {
	t.Helper()
	list, err := vary.Inputs(s, number)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// Every quantity of a train, and of the whole clock, that has a reading error is there
// once, in the order of the format; what is read alike is one input; a tolerance takes
// the place of the reading error.
func TestInputs(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	s.Tolerances = []scenario.Tolerance{
		{Key: "going.fusee.diameters_mm.3", PlusMinus: 0.4, Percent: math.NaN(), Shape: scenario.Uniform},
		{Key: "going.pendulum.mass_g", PlusMinus: math.NaN(), Percent: 5, Shape: scenario.Normal},
		{Key: "going.mainspring.free_coils", PlusMinus: 1, Percent: math.NaN(), Shape: scenario.Normal}, // there is none
	}
	list := inputs(t, s, 0)
	at := map[string]*vary.Input{}
	parts := 0
	for i := range list {
		in := &list[i]
		if at[in.Key] = in; strings.HasPrefix(in.Key, "striking") {
			t.Errorf("%s is of another train", in.Key)
		}
		parts += len(in.Parts)
		for _, p := range in.Parts {
			if v, err := s.Value(p.Quantity.Key); err != nil || *v != p.Value || p.Error.Exact() || in.Unit != p.Quantity.Unit {
				t.Errorf("%s: %+v, %v", in.Key, p, err)
			}
		}
	}
	want := 0
	for _, q := range s.Quantities() {
		if vary.Concerns(s, 0, q.Key) && (!q.Usual.Exact() || q.Key == "going.pendulum.mass_g") {
			want++
		}
	}
	if parts != want || len(at) != len(list) {
		t.Errorf("%d quantities in %d inputs, want %d in %d", parts, len(list), want, len(at))
	}
	cone, one, mass := at["going.fusee.diameters_mm"], at["going.fusee.diameters_mm.3"], at["going.pendulum.mass_g"]
	if len(cone.Parts) != len(s.Trains[0].Fusee.DiametersMM)-1 || cone.Tolerated || cone.Words != "groove diameters of the going fusee" {
		t.Errorf("%d diameters, %+v", len(cone.Parts), cone)
	}
	if !one.Tolerated || one.Parts[0].Error != (scenario.ReadingError{PlusMinus: 0.4, Uniform: true}) || mass.Parts[0].Error.Percent != 5 {
		t.Errorf("%+v, %+v", one, mass)
	}
	if packing := at["going.mainspring.packing"]; !packing.Assumed || at["going.mainspring.thickness_mm"].Assumed {
		t.Errorf("%+v", packing)
	}
}

// With no error the train is the scenario's own.
func TestDrawOfNothing(t *testing.T) {
	for _, name := range scenarios.Names() {
		s, _ := trial.Compile(t, name)
		for number := range s.Trains {
			list := inputs(t, s, number)
			m, err := vary.Draws(s, number, vary.Length, nil, list)
			if err != nil {
				t.Fatal(err)
			}
			_, own := m.Own()
			d := vary.NewDrawer(m, list, 1)
			d.Begin(0)
			r, err := d.Run(d.Draw(), make([]float64, len(list)))
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range outcome.All() {
				// What a default is drawn about may not be the default itself.
				if v, w := f.Of(&r.Digest), f.Of(own); math.Abs(v-w) > 1e-9*math.Abs(w) {
					t.Errorf("%s %s: %s is %v, own %v", name, own.Name, f.Name, v, w)
				}
			}
		}
	}
}

// The places of a draw are standard: normal, or even from −1 to 1; each on its own.
func TestPlaces(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	list := inputs(t, s, 0)
	m, err := vary.Draws(s, 0, vary.Length, nil, list)
	if err != nil {
		t.Fatal(err)
	}
	d := vary.NewDrawer(m, list, 7)
	const blocks = 100
	const n = blocks * vary.BlockRuns
	places := make([][]float64, len(m.Keys()))
	for b := range blocks {
		d.Begin(b)
		for range vary.BlockRuns {
			for k, p := range d.Draw() {
				places[k] = append(places[k], p)
			}
		}
	}
	k := 0
	for _, in := range list {
		for _, p := range in.Parts {
			sd, most := 1.0, math.Inf(1)
			if p.Error.Even() {
				sd, most = 1/math.Sqrt(3), 1
			}
			mean, got := stat.MeanStdDev(places[k], nil)
			if math.Abs(mean) > 5*sd/math.Sqrt(n) || math.Abs(got-sd) > 5*sd/math.Sqrt(2*n) || slices.Max(places[k]) > most {
				t.Errorf("%s: mean %v, standard deviation %v, greatest %v", p.Quantity.Key, mean, got, slices.Max(places[k]))
			}
			if k > 0 {
				if r := stat.Correlation(places[k-1], places[k], nil); math.Abs(r) > 5/math.Sqrt(n) {
					t.Errorf("%s goes with the input before it: %v", p.Quantity.Key, r)
				}
			}
			k++
		}
	}
	// A block is the same whatever was drawn before it, and no two are alike.
	other := vary.NewDrawer(m, list, 7)
	other.Begin(3)
	if first := other.Draw(); first[0] != places[0][3*vary.BlockRuns] || places[0][0] == places[0][vary.BlockRuns] {
		t.Errorf("block 3 begins with %v, then with %v", places[0][3*vary.BlockRuns], first[0])
	}
	if other = vary.NewDrawer(m, list, 8); other.Draw()[0] == places[0][0] {
		t.Error("another seed gives the same draws")
	}
}

// No draw leaves what can be: a line that loses next to nothing cannot gain torque.
func TestDrawnWithinWhatCanBe(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	if err := s.Apply([]string{"going.line.efficiency=0.999", "going.barrel.set_up_turns=0.01"}); err != nil {
		t.Fatal(err)
	}
	list := inputs(t, s, 0)
	m, err := vary.Draws(s, 0, vary.Length, nil, list)
	if err != nil {
		t.Fatal(err)
	}
	d := vary.NewDrawer(m, list, 1)
	places := make([]float64, len(m.Keys()))
	for k, key := range m.Keys() {
		for _, place := range []float64{-3, 3} {
			clear(places)
			places[k] = place
			if strings.HasSuffix(key, "packing") {
				places[k] /= 3
			}
			if _, err := d.Run(places, nil); err != nil {
				t.Errorf("%s at %v: %v", key, place, err)
			}
		}
	}
}

// What was observed stays when a value was misread, and the steel that it tells of
// changes; of another spring the steel stays.
func TestReadingInfersAnew(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day", "yield_mpa    = 1620.0", "free_coils = 6.9\nsolid_turns = 8.7")
	const key, other = "going.mainspring.thickness_mm", 0.375
	run := func(model func(*scenario.Scenario, int, vary.Hold, ...string) (*vary.Model, error)) sim.Digest {
		m, err := model(s, 0, vary.Length, key)
		if err != nil {
			t.Fatal(err)
		}
		r, err := m.Run([]float64{other})
		if err != nil {
			t.Fatal(err)
		}
		return r.Digest
	}
	read, what := run(vary.Reading), run(vary.New)
	anew := s.Clone()
	if err := anew.SetNumber(key, other); err != nil {
		t.Fatal(err)
	}
	clock, err := sim.RunClock(anew, sim.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if d := &clock.Trains[0].Digest; math.Abs(read.Torque.Mean/d.Torque.Mean-1) > 1e-9 || math.Abs(read.Spring.FreeCoils-6.9) > 1e-6 || math.Abs(read.Spring.Available-8.7) > 1e-6 {
		t.Errorf("misread: mean %v, read anew %v; %v coils, %v turns", read.Torque.Mean, d.Torque.Mean, read.Spring.FreeCoils, read.Spring.Available)
	}
	own, err := sim.RunClock(s, sim.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if o := &own.Trains[0].Digest; math.Abs(what.Yield/o.Yield-1) > 1e-9 || math.Abs(what.Spring.Packing/o.Spring.Packing-1) > 1e-9 || math.Abs(read.Yield/o.Yield-1) < 0.005 {
		t.Errorf("another spring flows at %v, this at %v, this misread at %v", what.Yield, o.Yield, read.Yield)
	}
}

// Every value lies within its own error, whether it was given or assumed: a draw is of
// what may have been misread, not of something else.
func TestValuesLieWithinTheirErrors(t *testing.T) {
	for _, c := range [][]string{nil, {"going.escapement.recoil_ratio=6"}, {"going.escapement.recoil_ratio=1"}, {"going.mainspring.packing=1.3"}, {"going.mainspring.packing=1"}} {
		s, _ := trial.Compile(t, "eight-day")
		s.Tolerances = nil
		if err := s.Apply(c); err != nil {
			t.Fatal(err)
		}
		for _, in := range inputs(t, s, 0) {
			for _, p := range in.Parts {
				if lo, hi := p.Error.Around(p.Value); !(lo <= p.Value && p.Value <= hi) {
					t.Errorf("%v: %s is %v, and its error from %v to %v", c, in.Key, p.Value, lo, hi)
				}
			}
		}
	}
}

// column is n draws of one input, those of a block first.
func column(e scenario.ReadingError, seed int64, block, n int) []float64 {
	d := vary.NewDrawer(nil, []vary.Input{{Parts: []vary.Part{{Error: e}}}}, seed)
	d.Begin(block)
	x := make([]float64, n)
	for i := range x {
		x[i] = d.Draw()[0]
	}
	return x
}

// The draws have the moments of their distribution within four standard errors,
// and its shape by the statistic of Kolmogorov and Smirnov: 1.95/√n is passed by
// one sample in a thousand (tables of the limiting distribution, from memory).
func TestDraws(t *testing.T) {
	const n = 100_000
	root := math.Sqrt(n)
	for _, c := range []struct {
		value     float64
		error     scenario.ReadingError
		quantile  func(float64) float64
		sd        float64
		skew, exk float64
	}{
		{5, scenario.ReadingError{PlusMinus: 2, Uniform: true}, distuv.Uniform{Min: 3, Max: 7}.Quantile, 2 / math.Sqrt(3), 0, -1.2},
		{-3, scenario.ReadingError{PlusMinus: 0.5}, distuv.Normal{Mu: -3, Sigma: 0.25}.Quantile, 0.25, 0, 0},
	} {
		x := column(c.error, 12, 0, n)
		for i := range x {
			x[i] = c.error.At(c.value, x[i])
		}
		slices.Sort(x)
		mean, sd := stat.MeanStdDev(x, nil)
		if math.Abs(mean-c.value) > 4*c.sd/root || math.Abs(sd/c.sd-1) > 4/(math.Sqrt2*root) {
			t.Errorf("%+v: mean %v, standard deviation %v, want %v and %v", c.error, mean, sd, c.value, c.sd)
		}
		if skew, exk := stat.Skew(x, nil), stat.ExKurtosis(x, nil); math.Abs(skew-c.skew) > 4*math.Sqrt(6)/root || math.Abs(exk-c.exk) > 4*math.Sqrt(24)/root {
			t.Errorf("%+v: skewness %v, excess kurtosis %v", c.error, skew, exk)
		}
		exact := make([]float64, n)
		for i := range exact {
			exact[i] = c.quantile((float64(i) + 0.5) / n)
		}
		if d := stat.KolmogorovSmirnov(x, nil, exact, nil); d > 1.95/root {
			t.Errorf("%+v: the distribution is off by %v", c.error, d)
		}
		if c.error.Uniform && (x[0] < 3 || x[n-1] > 7) {
			t.Errorf("drawn outside the error: %v to %v", x[0], x[n-1])
		}
	}
}

// Streams of neighbouring blocks and seeds have nothing to do with each other.
func TestStreamsAreApart(t *testing.T) {
	const n = 50_000
	normal := scenario.ReadingError{PlusMinus: 1}
	first := column(normal, 1, 0, n)
	for _, other := range [][]float64{column(normal, 1, 1, n), column(normal, 2, 0, n), column(normal, -1, 0, n)} {
		if r := stat.Correlation(first, other, nil); math.Abs(r) > 4/math.Sqrt(n) {
			t.Errorf("correlation %v", r)
		}
	}
}

// There are no more drawers than blocks of 256 draws, nor than cores.
func TestDrawers(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(3))
	s, _ := trial.Compile(t, "eight-day")
	m, err := vary.New(s, 0, vary.Length, "going.mainspring.width_mm")
	if err != nil {
		t.Fatal(err)
	}
	for draws, want := range map[int]int{0: 1, 1: 1, 256: 1, 257: 2, 512: 2, 513: 3, 1_000_000: 3} {
		if list, err := vary.Drawers(m, nil, 1, draws); err != nil || len(list) != want {
			t.Errorf("%d draws: %d drawers, want %d (%v)", draws, len(list), want, err)
		}
	}
}

// What cannot be is taken at the end of what can.
func TestBounded(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	list := inputs(t, s, 0)
	i := slices.IndexFunc(list, func(in vary.Input) bool { return in.Key == "going.line.efficiency" })
	one := list[i : i+1]
	m, err := vary.Draws(s, 0, vary.Length, nil, one)
	if err != nil {
		t.Fatal(err)
	}
	one[0].Parts[0].Error = scenario.ReadingError{PlusMinus: 2}
	best, err := vary.NewDrawer(m, one, 1).Run([]float64{3}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if _, own := m.Own(); math.Abs(best.Torque.Mean/own.Torque.Mean-1/0.95) > 1e-12 {
		t.Errorf("%v times as strong at an efficiency above 1", best.Torque.Mean/own.Torque.Mean)
	}
}

// A draw is a run of a model that nothing was run with before, whatever was drawn before
// it, and what cannot be built there cannot be drawn: one input after the other is moved,
// some far, of every train of every sample.
func TestDrawIsARun(t *testing.T) {
	random, failed := rand.New(rand.NewPCG(1, 1)), 0
	for _, sample := range [][]string{{"eight-day"}, {"three-trains"}, {"strike-quick"}, {"eight-day", "length_mm    = 1650.0", "solid_turns = 8.6"}, {"strike-quick", "length_mm    = 1400.0", ""}} {
		s, _ := trial.Compile(t, sample[0], sample[1:]...)
		for number := range s.Trains {
			list := inputs(t, s, number)
			fresh := func() *vary.Model {
				m, err := vary.Draws(s, number, vary.Length, nil, list)
				if err != nil {
					t.Fatal(err)
				}
				return m
			}
			d := vary.NewDrawer(fresh(), list, 1)
			places := slices.Clone(d.Draw())
			for range 80 {
				places[random.IntN(len(places))] = []float64{1, 1, 1, 40}[random.IntN(4)] * random.NormFloat64()
				var values []float64
				for _, in := range list {
					for _, p := range in.Parts {
						values = append(values, min(max(p.Error.At(p.Value, places[len(values)]), p.Quantity.Lo), p.Quantity.Hi))
					}
				}
				got, err := d.Run(places, nil)
				want, wanted := fresh().Run(values)
				if (err == nil) != (wanted == nil) {
					t.Fatalf("%s: %v, want %v", s.Trains[number].Name, err, wanted)
				}
				if err != nil {
					failed++
					places = slices.Clone(d.Draw())
					continue
				}
				for _, f := range outcome.All() {
					if a, b := f.Of(&got.Digest), f.Of(&want.Digest); math.Abs(a-b) > 1e-6*math.Abs(b)+1e-9 { // the last digit of a value, through the search for a couple
						t.Errorf("%s: %s is %v, want %v", s.Trains[number].Name, f.Name, a, b)
					}
				}
			}
		}
	}
	if failed < 5 {
		t.Errorf("only %d cannot be built", failed)
	}
}
