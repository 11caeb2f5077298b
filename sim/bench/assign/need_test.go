package assign

import (
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

	"github.com/golang/geo/r1"
)

// standardGravity is that of CGPM (1901), m/s²; arm is a pulley of 100 mm.
const (
	standardGravity = 9.80665
	arm             = 0.1
)

// bench is a bench file of a train with trials and one spring read in it twice.
func bench(t testing.TB, train, trials string, torques ...float64) *book.Book {
	t.Helper()
	list := strings.ReplaceAll(fmt.Sprint(torques), " ", ", ")
	return books.Read(t, fmt.Sprintf("[[weights]]\ntrain = %q\npulley_radius_mm = %v\ntrials = [ %s ]\n[[torque]]\ntrain = %q\nspring = \"A\"\nrunning_down = [ %s, %s ]\n",
		train, 1e3*arm, trials, train, list, list))
}

// weight is a trial at a torque (N·m): one that struck at an interval (s), one that
// ran with an interval of 0, one that stopped with one below 0.
func weight(torque, interval float64) string {
	grams := 1e3 * torque / standardGravity / arm
	if interval > 0 {
		return fmt.Sprintf("{ mass_g = %.12g, blow_interval_s = %.12g }, ", grams, interval)
	}
	return fmt.Sprintf("{ mass_g = %.12g, runs = %v }, ", grams, interval == 0)
}

const stopped = -1.0

// fly is the interval (s) at a torque when 1/interval² = slope·(torque − threshold).
func fly(slope, threshold, torque float64) float64 { return 1 / math.Sqrt(slope*(torque-threshold)) }

func within(got, want r1.Interval) bool {
	return math.Abs(got.Lo-want.Lo) < 1e-9 && math.Abs(got.Hi-want.Hi) < 1e-9
}

// A train whose blows were timed is judged by the torques that strike as fast as
// wanted: by the law of the fly threshold + 1/(slope·interval²) (closed form),
// between 0.8 and 1.6 s where no scenario wants something else (common practice, no
// source).
func TestJudgedByTheCadence(t *testing.T) {
	const slope, threshold = 2.5, 0.3
	trials := weight(0.35, stopped) + weight(0.45, fly(slope, threshold, 0.45)) + weight(0.6, fly(slope, threshold, 0.6)) + weight(1.2, fly(slope, threshold, 1.2))
	n := study(t, bench(t, "striking", trials, 0.6), nil).Needs[0]
	want := r1.Interval{Lo: threshold + 1/(slope*1.6*1.6), Hi: threshold + 1/(slope*0.8*0.8)}
	if n.Standard.Basis != rules.ByCadence || !within(n.Standard.Liked, want) || n.wanted != (r1.Interval{Lo: 0.8, Hi: 1.6}) || !n.Weighed {
		t.Errorf("%+v, want %v", n, want)
	}
	if !within(n.Between, r1.Interval{Lo: 0.35, Hi: 0.45}) || math.Abs(n.Need.Used-0.4) > 1e-9 || n.Need.Measured != n.Need.Used || n.Standard.Need != n.Need.Used || !math.IsNaN(n.Need.Predicted) || n.Standard.Bands != rules.DefaultBands() {
		t.Errorf("%+v", n)
	}
	// The striking train of the sample wants 0.9 to 1.6 s; the gravity of its place
	// makes the torques less.
	_, s := sample(t)
	s.Place.GravityMS2 = 9.6
	st := study(t, bench(t, "striking", trials, 0.6), s)
	n = st.Needs[slices.IndexFunc(st.Needs, func(n Need) bool { return n.Train == "striking" })]
	if light := 9.6 / standardGravity; n.Standard.Basis != rules.ByCadence || math.Abs(n.Need.Measured-0.4*light) > 1e-9 || n.Number != 1 || !n.Weighed {
		t.Errorf("%+v", n)
	}
}

// Where the trials tell the torque of the slowest interval wanted or of the fastest
// alone, and where no blow was timed, the reserve over the need decides.
func TestTrialsThatDoNotTell(t *testing.T) {
	for name, c := range map[string]struct {
		trials string
		timed  bool
	}{
		"the slowest alone": {weight(0.5, 1.6), true},
		"the fastest alone": {weight(0.5, 0.8), true},
		"neither":           {weight(0.5, 1.2), true},
		"no blows":          {weight(0.5, 0), false},
	} {
		n := study(t, bench(t, "striking", c.trials, 0.6), nil).Needs[0]
		if n.Standard.Basis != rules.ByReserve || !n.Standard.Liked.IsEmpty() || math.Abs(n.Standard.Need-0.5) > 1e-9 || n.wanted.IsEmpty() == c.timed {
			t.Errorf("%s: %+v", name, n)
		}
	}
}

// A train that stops before it strikes as slowly as wanted is judged from the least
// torque that is sure to strike on, though the fastest interval would by the line
// take less.
func TestStopsBeforeItIsSlow(t *testing.T) {
	const slope, threshold = 10, 0.27 // 0.8 s at 0.426 N·m
	trials := weight(0.4, stopped) + weight(0.5, fly(slope, threshold, 0.5)) + weight(0.6, fly(slope, threshold, 0.6))
	n := study(t, bench(t, "striking", trials, 0.5), nil).Needs[0]
	if want := (r1.Interval{Lo: 0.45, Hi: 0.45}); n.Standard.Basis != rules.ByCadence || !within(n.Standard.Liked, want) {
		t.Errorf("%+v, want %v", n.Standard, want)
	}
}

// Weights of a train that runs beside one whose blows give it another kind of
// standard: a going train has no cadence even when blows were written for it.
func TestGoingTrainHasNoCadence(t *testing.T) {
	_, s := sample(t)
	trials := weight(0.3, stopped) + weight(0.4, 1.4) + weight(0.6, 1) + weight(0.9, 0.8)
	if n := study(t, bench(t, "going", trials, 0.5), s).Needs[0]; n.Standard.Basis != rules.ByReserve {
		t.Errorf("%+v", n.Standard)
	}
}

// The bands of the scenario hold.
func TestBands(t *testing.T) {
	_, s := sample(t)
	want := rules.Bands{Stops: 1.05, Thin: 1.25, Suits: 1.7, Strong: 2.3}
	if err := s.Apply([]string{"verdict.stops_below=1.05", "verdict.thin_below=1.25", "verdict.suits_up_to=1.7", "verdict.strong_up_to=2.3"}); err != nil {
		t.Fatal(err)
	}
	n := study(t, bench(t, "going", weight(0.4, stopped)+weight(0.42, 0), 0.5, 0.5, 0.5), s).Needs[0]
	if n.Standard.Bands != want || math.Abs(n.Standard.Need-0.41) > 0.001 {
		t.Errorf("%+v", n)
	}
}

// The trains stand in the order of the scenario, which stays as it was given; weights that
// tell no need leave it the scenario's.
func TestOrderOfTheNeeds(t *testing.T) {
	_, s := sample(t)
	before := s.Clone()
	st := study(t, bench(t, "striking", weight(0.3, stopped)+weight(0.34, 0), 0.5, 0.5, 0.5), s)
	var trains []string
	for i := range st.Needs {
		n := &st.Needs[i]
		trains = append(trains, n.Train)
		if n.Weighed != (n.Train == "striking") || n.Number != i || n.Train != "striking" && n.Between != r1.IntervalFromPoint(n.Need.Used) {
			t.Errorf("%+v", n)
		}
	}
	if !slices.Equal(trains, []string{"going", "striking", "quarters"}) || len(st.Refused) > 0 || !st.Scenario {
		t.Errorf("%v, %v", trains, st.Refused)
	}
	if v := s.Trains[1].Demand.LeastTorqueNM; !math.IsNaN(v) || s.Trains[0].Demand.LeastTorqueNM != before.Trains[0].Demand.LeastTorqueNM {
		t.Errorf("the scenario that was given now needs %v", v)
	}
	st = study(t, bench(t, "striking", weight(0.3, stopped), 0.5, 0.5, 0.5), s)
	if n := &st.Needs[1]; n.Weighed || n.Train != "striking" {
		t.Errorf("%+v", st.Needs)
	}
}

// A need by weights is told beside what the scenario predicts, and never below what
// the loads take.
func TestNeedByWeightsInARun(t *testing.T) {
	b, s := sample(t)
	weighed := s.Clone()
	st := study(t, b, s)
	weighed.Trains[0].Demand.LeastTorqueNM = st.Needs[0].Need.Measured
	if want := trial.RunOf(t, weighed, 0).Need; st.Needs[0].Need != want {
		t.Errorf("%+v, want %+v", st.Needs[0].Need, want)
	}
	for i := range st.Pairs {
		if p, n := &st.Pairs[i], &st.Needs[i%len(st.Needs)]; math.Abs(p.Need.Used-n.Need.Used) > 1e-12 || p.Train != n.Train || p.Standard.Need != n.Standard.Need || p.Name != n.Train {
			t.Errorf("%+v, want %+v", p.Digest.Need, n.Need)
		}
	}
}

// The readings are measured over the need that their springs are judged by.
func TestOneNeedInARecord(t *testing.T) {
	b, s := sample(t)
	s.Trains[0].Demand.LeastTorqueNM = 0.33
	clock, err := found.Of(t.Context(), b, s)
	if err != nil {
		t.Fatal(err)
	}
	r, err := RecordOf(t.Context(), b, clock, true, 0, 1)
	if err != nil {
		t.Fatal(err)
	}
	for i, c := range r.Compared {
		if c.Reserve.Need != r.Read(i).Need.Used {
			t.Errorf("spring %s: readings over %v N·m, judged by %v", r.Springs[i].Spring, c.Reserve.Need, r.Read(i).Need.Used)
		}
	}
}

// A verdict by the torques liked is sure or not also where no need is known: the
// meter's bound alone can carry the torque beyond them.
func TestSureWithoutANeed(t *testing.T) {
	_, s := sample(t)
	quarters := &s.Trains[2]
	quarters.Strike, quarters.Fly = nil, nil
	quarters.Demand.LeastTorqueNM = math.NaN()
	for torque, sure := range map[float64]bool{0.75: true, 0.63: false} {
		b := levelSprings(t, torque)
		b.Weights, b.Torques[0].Train, b.Torques[0].MeterRelative = nil, "quarters", 0.02
		st := study(t, b, s)
		i := slices.IndexFunc(st.Pairs, func(p Pair) bool { return p.Train == "quarters" })
		if i < 0 {
			t.Fatalf("%+v", st.Needs)
		}
		if err := st.Draw(t.Context(), 2000, 1); err != nil {
			t.Fatal(err)
		}
		if p := &st.Pairs[i]; !math.IsNaN(p.Need.Used) || p.Standard.Basis != rules.ByBand || p.Verdict.Code != rules.Suits || (p.Verdict.Sureness.Same > 0.99) != sure {
			t.Errorf("%v N·m: need %v, %v, sure %v", torque, p.Need.Used, p.Verdict.Code, p.Verdict.Sureness)
		}
	}
}

// The strongest spring is told also when another could not be carried over.
func TestStored(t *testing.T) {
	st := new(Study)
	for _, energy := range []float64{math.NaN(), 3, 8, math.NaN(), 5, math.NaN()} {
		p := Pair{Digest: sim.Unknown()}
		p.Spring.Stored = energy
		st.Pairs = append(st.Pairs, p)
	}
	if got := st.Stored(); got != 8 {
		t.Errorf("%v J, the strongest known holds 8", got)
	}
}
