package rank

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"
)

func study(t testing.TB, s *scenario.Scenario, number int, change float64, names ...string) *Study {
	t.Helper()
	of, err := outcome.Several(names...)
	if err != nil {
		t.Fatal(err)
	}
	st, err := Run(context.Background(), s, number, Options{Of: of, Change: change})
	if err != nil {
		t.Fatal(err)
	}
	return st
}

func (r *Ranking) input(t testing.TB, key string) *Input {
	t.Helper()
	for i := range r.Inputs {
		if r.Inputs[i].Quantity.Key == key {
			return &r.Inputs[i]
		}
	}
	t.Fatalf("%s is not ranked", key)
	return nil
}

// greatest is what moving an input does to the result, worked out anew.
func greatest(in *Input) float64 {
	e := 0.0
	for _, v := range []float64{in.Minus, in.Plus} {
		if math.Abs(v) > e { // false for NaN
			e = math.Abs(v)
		}
	}
	return e
}

// Every number of the train and of the whole clock is ranked, in order, and no
// number of another train.
func TestEveryInputInOrder(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	st := study(t, s, 1, 0.01, outcome.MeanTorque, outcome.LeastReserve, "blow_interval_s.mean")
	want := 0
	for _, q := range s.Quantities() {
		if vary.Concerns(s, 1, q.Key) {
			want++
			st.Rankings[0].input(t, q.Key)
		}
	}
	for _, r := range st.Rankings {
		if len(r.Inputs) != want || want < 40 {
			t.Errorf("%d inputs ranked, %d there", len(r.Inputs), want)
		}
		for i := 1; i < len(r.Inputs); i++ {
			a, b := &r.Inputs[i-1], &r.Inputs[i]
			within := 1e-9 * greatest(&r.Inputs[0]) // rounding
			x, y := greatest(a), greatest(b)
			steeper := math.Abs(b.Elasticity.Value) > math.Abs(a.Elasticity.Value)+1e-9
			if y > x+within || y > x-within && steeper {
				t.Errorf("%s: %+v before %+v", r.Of.Name, a, b)
			}
			if strings.HasPrefix(r.Inputs[i].Quantity.Key, "going.") {
				t.Errorf("%s is of another train", r.Inputs[i].Quantity.Key)
			}
		}
	}
}

// By their shares in all the inputs stand in that order, the greatest first; what is taken as
// exact has none and comes last, by what moving it does. The figures are those that stand
// beside the other order. Where all are moved alike there are no shares to go by.
func TestInOrderOfShares(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	s, _ := trial.Compile(t, "eight-day")
	of, err := outcome.Several(outcome.Unevenness, outcome.LeastReserve)
	if err != nil {
		t.Fatal(err)
	}
	run := func(o Options) *Study {
		o.Of, o.Seed = of, 1
		st, err := Run(t.Context(), s, 0, o)
		if err != nil {
			t.Fatal(err)
		}
		return st
	}
	usual, total := run(Options{Shares: true}), run(Options{Total: true})
	if usual.Total || !total.Total {
		t.Error("the studies do not tell what they are in the order of")
	}
	moved := 0
	for i := range total.Rankings {
		r, other := &total.Rankings[i], &usual.Rankings[i]
		if len(r.Inputs) != len(other.Inputs) || r.Inputs[0].Quantity.Key != "going.mainspring.yield_mpa" {
			t.Fatalf("%d inputs, first %s", len(r.Inputs), r.Inputs[0].Quantity.Key)
		}
		for k := range r.Inputs {
			in := &r.Inputs[k]
			if same := other.Input(in.Quantity.Key); same.Share.Total.Value != in.Share.Total.Value && !math.IsNaN(in.Share.Total.Value) || same.Effect() != in.Effect() {
				t.Errorf("%+v, in the other order %+v", in, same)
			}
			if k == 0 {
				continue
			}
			a, b := r.Inputs[k-1].Share.Total.Value, in.Share.Total.Value
			switch {
			case math.IsNaN(a) && !math.IsNaN(b), b > a+1e-9:
				t.Errorf("%s: %v before %v", in.Quantity.Key, a, b)
			case math.IsNaN(a) && in.Effect() > r.Inputs[k-1].Effect()+1e-9*r.Inputs[0].Effect():
				t.Errorf("%s has no share and more effect than the one before", in.Quantity.Key)
			}
			if in.Quantity.Key != other.Inputs[k].Quantity.Key && b > 0.01 {
				moved++
			}
		}
	}
	if moved == 0 {
		t.Error("both orders are the same")
	}
	if st, err := Run(t.Context(), s, 0, Options{Total: true, Change: 0.01}); !errors.Is(err, ErrTotal) || st != nil {
		t.Errorf("%v, %v", st, err)
	}
}

// Elasticities known in closed form. At the end of its bearings a fly runs by
// 1/interval ∝ √torque: what raises the torque by 1 % shortens it, but not by more.
func TestKnownElasticities(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day", "width_mm     = 32.0", "bending = \"strip\"\nwidth_mm = 32.0")
	st := study(t, s, 0, 0.01, outcome.MeanTorque, "least_torque_nm.predicted", outcome.LeastReserve)
	for _, c := range []struct {
		ranking int
		key     string
		want    float64
	}{
		{0, "going.mainspring.width_mm", 1}, {0, "going.mainspring.efficiency", 1}, {0, "going.line.efficiency", 1},
		{0, "place.gravity_m_s2", 0}, {0, "going.demand.least_torque_nm", 0},
		{1, "place.gravity_m_s2", 1}, {1, "going.pendulum.mass_g", 1}, {1, "going.mainspring.width_mm", 0},
		{2, "going.demand.least_torque_nm", -1}, {2, "going.mainspring.width_mm", 1},
	} {
		if in := st.Rankings[c.ranking].input(t, c.key); math.Abs(in.Elasticity.Value-c.want) > 1e-8 {
			t.Errorf("%s in %s: %v, want %v", st.Rankings[c.ranking].Of.Name, c.key, in.Elasticity, c.want)
		}
	}
	if !(st.Rankings[0].Inputs[0].Quantity.Key == "going.mainspring.thickness_mm") {
		t.Errorf("the torque depends most on %s", st.Rankings[0].Inputs[0].Quantity.Key)
	}
}

// The steps of the slopes go with the size of the input, however small: the reserve
// over a need goes with its power −1.
func TestSmallInput(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	const key = "going.demand.least_torque_nm"
	for _, need := range []string{"1e-5", "0.001", "0.33", "9"} {
		if err := s.Apply([]string{key + "=" + need}); err != nil {
			t.Fatal(err)
		}
		in := study(t, s, 0, 0.01, outcome.LeastReserve).Rankings[0].input(t, key)
		if math.Abs(in.Elasticity.Value+1) > 1e-8 || in.Elasticity.Error > 1e-6 {
			t.Errorf("at a need of %s: %+v", need, in.Elasticity)
		}
	}
}

// A scenario that cannot be run cannot be ranked.
func TestCannotBeRun(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	s.Trains[0].Mainspring.LengthMM = 1e6
	if st, err := Run(context.Background(), s, 0, Options{}); err == nil || st != nil {
		t.Errorf("%v: %+v", err, st)
	}
}

// What moving an input does agrees with its elasticity to first order, where all are moved
// alike; no input leaves its range, and none has shares.
func TestMinusAndPlus(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := study(t, s, 0, 1e-4, outcome.MeanTorque)
	r := &st.Rankings[0]
	for _, in := range r.Inputs {
		want := in.Elasticity.Value * 1e-4 * r.Value
		if in.Moved != ByShare || math.Abs(in.To-in.Value*(1+1e-4)) > 1e-12*in.Value && in.To != in.Quantity.Hi || in.From != in.Value-(in.To-in.Value) && math.Abs(in.From-in.Value*(1-1e-4)) > 1e-12*in.Value {
			t.Errorf("%+v", in)
		}
		if math.Abs(in.Plus-want) > 2e-3*math.Abs(want)+1e-12 || math.Abs(in.Minus+want) > 2e-3*math.Abs(want)+1e-12 || !math.IsNaN(in.Share.Total.Value) {
			t.Errorf("%+v, want %v", in, want)
		}
	}
	if !st.Alike || r.Shares != nil || len(r.Inputs) < 30 {
		t.Errorf("%d moved, alike %v", len(r.Inputs), st.Alike)
	}
	best, _ := trial.Compile(t, "eight-day", "efficiency   = 0.90", "efficiency   = 1.0")
	in := study(t, best, 0, 0.01, outcome.MeanTorque).Rankings[0].input(t, "going.mainspring.efficiency")
	if in.To != 1 || in.Plus != 0 || !(in.Minus < 0) || math.Abs(in.Elasticity.Value-1) > 1e-6 {
		t.Errorf("an efficiency of 1 is raised: %+v", in)
	}
}

// By default each input is moved by its tolerance, else by its usual reading error, else by
// 1 %, and what was observed stays: with other free coils in place of a flow stress the
// thickness does another thing to the torque than in a what-if.
func TestOwnErrors(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day", "yield_mpa    = 1620.0", "free_coils = 6.9")
	const thickness = "going.mainspring.thickness_mm"
	r := &study(t, s, 0, 0, outcome.MeanTorque).Rankings[0]
	for key, want := range map[string]struct {
		by     Moved
		lo, hi float64
	}{
		thickness:                        {ByTolerance, 0.37, 0.39},
		"going.mainspring.free_coils":    {ByReading, 6.65, 7.15},
		"going.mainspring.packing":       {ByReading, 1, 1.13},
		"going.mainspring.width_mm":      {ByReading, 31.9, 32.1},
		"going.fusee.diameters_mm.4":     {ByReading, 14.4, 14.6},
		"going.mainspring.poisson":       {ByShare, 0.297, 0.303},
		"going.barrel.arbor_diameter_mm": {ByTolerance, 14.8, 15.2},
	} {
		if in := r.input(t, key); in.Moved != want.by || math.Abs(in.From-want.lo) > 1e-12 || math.Abs(in.To-want.hi) > 1e-12 {
			t.Errorf("%s: %+v", key, in)
		}
	}
	for reading, model := range map[bool]func(*scenario.Scenario, int, vary.Hold, ...string) (*vary.Model, error){true: vary.Reading, false: vary.New} {
		m, err := model(s, 0, vary.Length, thickness)
		if err != nil {
			t.Fatal(err)
		}
		thicker, err := m.Run([]float64{0.39})
		if err != nil {
			t.Fatal(err)
		}
		if same := math.Abs(thicker.Torque.Mean-r.Value-r.input(t, thickness).Plus) < 1e-9; same != reading {
			t.Errorf("reading %v: as ranked %v", reading, same)
		}
	}
}

// The shares are those of every number on its own, with the others off as well; what is
// taken as exact has none.
func TestShares(t *testing.T) {
	if testing.Short() {
		t.Skip("takes some seconds")
	}
	s, _ := trial.Compile(t, "three-trains")
	of, err := outcome.Several(outcome.MeanTorque, "blow_interval_s.mean")
	if err != nil {
		t.Fatal(err)
	}
	st, err := Run(context.Background(), s, 1, Options{Of: of, Shares: true})
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range st.Rankings {
		first, n := 1.0, 0
		if in := r.Shares.Inputs[0]; in.Words != "width of the striking mainspring" {
			t.Errorf("%+v", in)
		}
		for _, in := range r.Inputs {
			if math.IsNaN(in.Share.First.Value) != (in.Moved == ByShare) {
				t.Errorf("%s: %+v", in.Quantity.Key, in.Share)
			}
			if in.Moved != ByShare {
				first, n = first-in.Share.First.Value, n+1
			}
		}
		if math.Abs(first-r.Shares.Joint.Value) > 1e-9 || n < 20 {
			t.Errorf("%s: %v of %d inputs, %+v", r.Of.Name, first, n, r.Shares.Joint)
		}
	}
	// The fly knows nothing of the mean torque, and nearly all of the cadence.
	const fly = "striking.fly.drag_coefficient"
	if a, b := st.Rankings[0].input(t, fly).Share.Total.Value, st.Rankings[1].input(t, fly).Share.Total.Value; a != 0 || b < 0.3 {
		t.Errorf("%v, then %v", a, b)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if err := st.shares(ctx, s, 1, nil, Options{Of: of}); !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
}

// What is left out of the options is the default, and a study can be stopped.
func TestOptions(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st, err := Run(context.Background(), s, 0, Options{})
	if err != nil || len(st.Rankings) != 3 || st.Change != 0.01 || st.Own.Name != "going" {
		t.Fatalf("%v: %d rankings, %v", err, len(st.Rankings), st.Change)
	}
	for i, name := range []string{"fusee_torque_nm.mean", "fusee_torque_nm.unevenness", "reserve.min"} {
		if r := &st.Rankings[i]; r.Of.Name != name || r.Value != r.Of.Of(&st.Own) {
			t.Errorf("%s is %v", r.Of.Name, r.Value)
		}
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Run(ctx, s, 0, Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

// What moves the result by no more than rounding has no effect on it.
func TestMoves(t *testing.T) {
	r := &Ranking{Value: -2}
	for _, c := range []struct {
		in   Input
		want bool
	}{
		{Input{Minus: 1e-8}, true}, {Input{Plus: -1e-8}, true}, {Input{Plus: 2e-9, Minus: -2e-9}, false}, {Input{Elasticity: vary.Slope{Value: -1e-8}}, true},
		{Input{Elasticity: vary.Slope{Value: 1e-9}}, false}, {Input{Minus: math.NaN(), Plus: math.NaN(), Elasticity: vary.Slope{Value: math.NaN()}}, false},
		{Input{Minus: math.NaN(), Plus: 1}, true},
	} {
		if r.Moves(&c.in) != c.want {
			t.Errorf("%+v: %v", c.in, !c.want)
		}
	}
}

// BenchmarkRank is the default ranking of the eight-day clock.
func BenchmarkRank(b *testing.B) {
	s, _ := trial.Compile(b, "eight-day")
	b.ReportAllocs()
	for b.Loop() {
		study(b, s, 0, 0.01, outcome.MeanTorque, outcome.Unevenness, outcome.LeastReserve)
	}
}
