package rank

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
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
	of, err := outcome.Several(names)
	if err != nil {
		t.Fatal(err)
	}
	st, err := Run(s, number, Options{Of: of, Change: change})
	if err != nil {
		t.Fatal(err)
	}
	return st
}

func (r *Ranking) input(t testing.TB, key string) *Input {
	t.Helper()
	for i := range r.Inputs {
		if r.Inputs[i].Key == key {
			return &r.Inputs[i]
		}
	}
	t.Fatalf("%s is not ranked", key)
	return nil
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
			if a, b := r.Inputs[i-1].Elasticity.Value, r.Inputs[i].Elasticity.Value; math.Abs(b) > math.Abs(a) {
				t.Errorf("%s: %v before %v", r.Of.Name, a, b)
			}
			if strings.HasPrefix(r.Inputs[i].Key, "going.") {
				t.Errorf("%s is of another train", r.Inputs[i].Key)
			}
		}
	}
}

// Elasticities known in closed form. At the end of its bearings a fly runs by
// 1/interval ∝ √torque: what raises the torque by 1 % shortens it, but not by more.
func TestKnownElasticities(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
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
	if !(st.Rankings[0].Inputs[0].Key == "going.mainspring.thickness_mm") {
		t.Errorf("the torque hangs most on %s", st.Rankings[0].Inputs[0].Key)
	}
}

// What moving an input does agrees with its elasticity to first order, and the
// move is its own tolerance where it has one.
func TestMinusAndPlus(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := study(t, s, 0, 1e-4, outcome.MeanTorque)
	r := &st.Rankings[0]
	moved := 0
	for _, in := range r.Inputs {
		if in.Tolerated {
			continue
		}
		moved++
		want := in.Elasticity.Value * 1e-4 * r.Value
		if in.By != 1e-4*math.Abs(in.Value) || math.Abs(in.Plus-want) > 2e-3*math.Abs(want)+1e-12 || math.Abs(in.Minus+want) > 2e-3*math.Abs(want)+1e-12 {
			t.Errorf("%+v, want %v", in, want)
		}
	}
	in := r.input(t, "going.mainspring.thickness_mm")
	if !in.Tolerated || in.By != 0.01 || !(in.Plus > 0.02 && in.Minus < -0.02) || moved < 30 {
		t.Errorf("%+v, %d moved", in, moved)
	}
	// An efficiency of 1 cannot be raised.
	best, _ := trial.Compile(t, "eight-day", "efficiency   = 0.90", "efficiency   = 1.0")
	in = study(t, best, 0, 0.01, outcome.MeanTorque).Rankings[0].input(t, "going.mainspring.efficiency")
	if !math.IsNaN(in.Plus) || !(in.Minus < 0) || math.Abs(in.Elasticity.Value-1) > 1e-6 {
		t.Errorf("%+v", in)
	}
}

func TestFormats(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := study(t, s, 0, 0.01, outcome.MeanTorque, outcome.Unevenness, outcome.LeastReserve, "blow_interval_s.mean")
	var b bytes.Buffer
	if err := JSON(&b, st); err != nil {
		t.Fatal(err)
	}
	type ranking struct {
		Of     string
		Inputs []struct {
			Key                            string
			Value, Elasticity, Minus, Plus *float64
		}
	}
	var doc struct {
		Train string
		ranking
		Others []ranking
	}
	if err := json.Unmarshal(b.Bytes(), &doc); err != nil || doc.Of != outcome.MeanTorque || len(doc.Others) != 3 || doc.Inputs[0].Key != "going.mainspring.thickness_mm" ||
		*doc.Inputs[0].Elasticity < 2 || *doc.Inputs[0].Minus > 0 || doc.Others[2].Inputs[0].Elasticity != nil {
		t.Errorf("%v: %s", err, b.String()[:500])
	}
	b.Reset()
	if err := CSV(&b, st); err != nil {
		t.Fatal(err)
	}
	if lines, err := csv.NewReader(&b).ReadAll(); err != nil || len(lines) != 1+4*len(doc.Inputs) {
		t.Errorf("%v, %d lines", err, len(lines))
	}
	b.Reset()
	if err := (Text{}).Write(&b, st); err != nil {
		t.Fatal(err)
	}
	for _, says := range []string{"the mean torque at the fusee is 0.429 N·m; it hangs on", "+1.000", "± 0.01", "no effect: 3", "less: fusee.diameters_mm.", "Whole numbers", "eye protection"} {
		if !strings.Contains(b.String(), says) {
			t.Errorf("no %q in\n%s", says, b.String())
		}
	}
	if strings.Contains(b.String(), "NaN") {
		t.Error("NaN in the text")
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
