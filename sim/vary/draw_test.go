package vary_test

import (
	"math"
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
