package found

import (
	"errors"
	"math"
	"testing"

	"evenpull/sim/bench/book"
	"evenpull/sim/bench/readings"
	"evenpull/sim/internal/trial"
	"evenpull/sim/internal/trial/books"
	"evenpull/sim/scenario"
)

// weightsOf are trials of a train under masses (g), negative where it did not run.
func weightsOf(train string, masses ...float64) book.Weights {
	w := book.Weights{Train: train, PulleyRadiusMM: 20}
	for _, m := range masses {
		runs := m > 0
		w.Trials = append(w.Trials, book.Trial{MassG: math.Abs(m), Runs: &runs, BlowIntervalS: nan, TwelveS: nan})
	}
	return w
}

// A need by an up-and-down sequence is known as a mean is; one that no weight was too small
// for is none; and weights of a train that is not there tell why.
func TestNeeds(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	var masses []float64
	for range 6 {
		masses = append(masses, 1800, -1700)
	}
	c := clockOf(t, &book.Book{Weights: []book.Weights{weightsOf("going", masses...), weightsOf("striking", 3000, 2500), weightsOf("chimes", 3000, -2500)}}, s)
	d := &c.Demands[0]
	if d.UpDown == nil || !d.Least || d.Before != s.Trains[0].Demand.LeastTorqueNM && !math.IsNaN(d.Before) {
		t.Fatalf("%+v", d)
	}
	want := scenario.Tolerance{Key: "going.demand.least_torque_nm", PlusMinus: d.Bracket.Between.Length() / 2, Shape: scenario.Normal}
	if got := toleranceOf(c.Scenario, want.Key); math.Abs(got.PlusMinus-want.PlusMinus) > 1e-12 || got.Shape != want.Shape {
		t.Errorf("%+v, want %+v", got, want)
	}
	if d = &c.Demands[1]; d.Least || d.Why != nil || !math.IsNaN(c.Scenario.Trains[1].Demand.LeastTorqueNM) {
		t.Errorf("%+v", d)
	}
	var none *scenario.NoTrainError
	if d = &c.Demands[2]; d.Least || !errors.As(d.Why, &none) {
		t.Errorf("%+v", d)
	}
	if _, taken, err := c.With(t.Context(), nil); err != nil || len(taken) != 2 || taken[0].Demand != &c.Demands[0] || taken[1].Spring != nil {
		t.Errorf("%+v, %v", taken, err)
	}
}

// The weights tell a need of 0.348 N·m for the going train, and the scenario's 0.35 is the
// same to a hundredth, which is the most that goes untold, either way. What is no need is
// no other one.
func TestDiffers(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	d := clockOf(t, books.Sample(t), s).Demands[0]
	least := d.Bracket.Least
	if math.Abs(least-0.348) > 0.001 || d.Before != 0.35 || d.Differs() {
		t.Fatalf("%v N·m, the scenario has %v", least, d.Before)
	}
	for share, differs := range map[float64]bool{1.0095: false, 1.0105: true, 1 / 1.0115: true, 0.9905: false, nan: false} {
		d.Before = least / share
		if d.Differs() != differs {
			t.Errorf("weights of %v times the need: %v", share, !differs)
		}
	}
	d.Before, d.Least = 2*least, false
	if d.Differs() {
		t.Error("what went not in differs")
	}
}

// Each end of the torques liked by ear is known within what lies between two trials.
func TestBandTolerances(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	w := weightsOf("striking", 2000, 2200, 2400, 2600)
	for i, judged := range []book.Judged{book.Weak, book.Liked, book.Liked, book.Brisk} {
		w.Trials[i].Runs, w.Trials[i].Judged = nil, judged
	}
	going := w
	going.Train = "going"
	c := clockOf(t, &book.Book{Weights: []book.Weights{w, going}}, s)
	d := &c.Demands[0]
	if !d.Ear || d.Why != nil || c.Demands[1].Ear {
		t.Fatalf("%+v", d)
	}
	for i, u := range d.Need.Band.Uncertainty {
		got := toleranceOf(c.Scenario, "striking.demand.torque_band_nm."+string(rune('0'+i)))
		if near(t, "end", got.PlusMinus, math.Sqrt(3)*u, 1e-12); got.Shape != scenario.Uniform {
			t.Errorf("%+v", got)
		}
	}
}

// Of a train that stops before it strikes as slowly as wanted the slowest strike tells the
// drag of the fly.
func TestTooFast(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	w := weightsOf("striking", 3000, 3500, 4000, -2950)
	for i, interval := range []float64{0.32, 0.29, 0.27} {
		w.Trials[i].Runs, w.Trials[i].BlowIntervalS = nil, interval
	}
	c := clockOf(t, &book.Book{Weights: []book.Weights{w}}, s)
	d, timed := &c.Demands[0], c.Scenario.Trains[1].Strike.Timed
	if !d.Timed || d.Why != nil || !d.Least || timed.BlowIntervalS != 0.32 || timed.TorqueNM != d.Trials[0].Torque {
		t.Errorf("%+v, %+v", d, timed)
	}
	if r := trial.RunOf(t, c.Scenario, 1); !r.Timed || r.Untimed {
		t.Error("the fly is still any fly")
	}
}

// A train of which hammers or fly are not known takes no timed strike.
func TestNoFly(t *testing.T) {
	w := weightsOf("striking", -2000, 2500, 3000, 3500)
	for i, interval := range []float64{nan, 1.6, 1.1, 0.8} {
		w.Trials[i].BlowIntervalS = interval
	}
	for what, out := range map[string]func(*scenario.Train){"": func(*scenario.Train) {}, "fly": func(t *scenario.Train) { t.Fly = nil }, "strike": func(t *scenario.Train) { t.Strike = nil }} {
		s, _ := trial.Compile(t, "three-trains")
		out(&s.Trains[1])
		_, list := demands(readings.Read(&book.Book{Weights: []book.Weights{w}}, 9.81), s)
		if list[0].Timed != (what == "") || what == "" && list[0].Why != nil {
			t.Errorf("without %q: %+v", what, list[0])
		}
	}
}

// What cannot be so is not put in.
func TestTry(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	fails := errors.New("fails")
	for name, change := range map[string]func(*scenario.Scenario) error{
		"fails":    func(s *scenario.Scenario) error { s.Title = "changed"; return fails },
		"a check":  func(s *scenario.Scenario) error { s.Trains[0].Barrel.ArborDiameterMM = 1e4; return nil },
		"compiled": func(s *scenario.Scenario) error { s.Trains[0].Mainspring.WidthMM = nan; return nil },
	} {
		d, title, arbor := new(Demand), s.Title, s.Trains[0].Barrel.ArborDiameterMM
		if d.try(s, change) || d.Why == nil || s.Title != title || s.Trains[0].Barrel.ArborDiameterMM != arbor {
			t.Errorf("%s: %v", name, d.Why)
		}
	}
	d := new(Demand)
	if !d.try(s, func(s *scenario.Scenario) error { s.Title = "changed"; return nil }) || d.Why != nil || s.Title != "changed" {
		t.Errorf("%v, title %q", d.Why, s.Title)
	}
}

// A tolerance stands in place of the one before, and others stay.
func TestWithin(t *testing.T) {
	s := &scenario.Scenario{Tolerances: []scenario.Tolerance{{Key: "a", PlusMinus: 1}, {Key: "b", PlusMinus: 2}}}
	exact(s, "a")
	if len(s.Tolerances) != 2 || s.Tolerances[0].Key != "b" || s.Tolerances[1].PlusMinus != 0 || !math.IsNaN(s.Tolerances[1].Percent) || s.Tolerances[1].Shape != scenario.Normal {
		t.Errorf("%+v", s.Tolerances)
	}
}
