package found

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/sim"
	"evenpull/sim/bench/book"
	"evenpull/sim/internal/trial"
	"evenpull/sim/internal/trial/books"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"
)

// readingsOf are what a run gives at whole fusee turns, read three times without error.
func readingsOf(r *sim.Result, label string) book.Torque {
	q := book.Torque{Train: r.Name, Spring: label, FirstTurn: math.Ceil(r.TurnsLost - 1e-9), MeterResolutionNM: 0.001}
	var down, up []float64
	for i := range r.Rows {
		if row := &r.Rows[i]; row.FuseeTurn == math.Round(row.FuseeTurn) && row.FuseeTurn >= q.FirstTurn {
			down, up = append(down, row.FuseeTorque), append(up, row.WindingTorque)
		}
	}
	q.RunningDown, q.WindingUp = [][]float64{down, down, down}, [][]float64{up, up, up}
	return q
}

func clockOf(t testing.TB, b *book.Book, s *scenario.Scenario) *Clock {
	t.Helper()
	c, err := Of(t.Context(), b, s)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func near(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if !(math.Abs(got/want-1) <= share) {
		t.Errorf("%s: %v, want %v within %v", what, got, want, share)
	}
}

// told is what the readings tell of a key.
func told(t *testing.T, sp *Spring, key string) Told {
	t.Helper()
	i := slices.IndexFunc(sp.Told, func(v Told) bool { return v.Key == "mainspring."+key })
	if i < 0 {
		t.Fatalf("spring %s: nothing is told of its %s", sp.Label, key)
	}
	return sp.Told[i]
}

// A spring that was read without error in its own train, which the scenario describes, is
// that of the scenario: nothing moves, the readings narrow what is known of it, and the train
// runs with it as before.
func TestOwnSpring(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	for i := range s.Trains {
		r := trial.RunOf(t, s, i)
		c := clockOf(t, &book.Book{Torques: []book.Torque{readingsOf(r, "A")}}, s)
		sp := c.Springs[0]
		if sp.Why != nil || sp.Misfit > 1e-3 {
			t.Fatalf("%v, misfit %v", sp.Why, sp.Misfit)
		}
		for _, v := range sp.Told {
			if near(t, v.Key, v.Value, v.Before, 1e-4); !v.Interval.Contains(v.Before) || v.Narrowed > 1+1e-9 || !(v.StandardError > 0) {
				t.Errorf("%s: %+v", r.Name, v)
			}
		}
		if v := told(t, sp, "yield_mpa"); !(v.Narrowed < 0.7) || !v.Measured {
			t.Errorf("the flow stress is known to %v of before", v.Narrowed)
		}
		in, err := c.In(t.Context(), sp, i)
		if err != nil {
			t.Fatal(err)
		}
		got := trial.RunOf(t, in.Scenario, i)
		near(t, "mean", got.Torque.Mean, r.Torque.Mean, 1e-4)
		near(t, "least", got.Torque.Min, r.Torque.Min, 1e-4)
		near(t, "turns", got.Spring.Available, r.Spring.Available, 1e-4)
	}
}

// A spring that was read in its barrel in another train, without error, gives in its own
// what a run of that gives.
func TestCarried(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	for of := range s.Trains {
		there := s.Clone()
		setUp := there.Trains[0].Barrel.SetUpTurns
		there.Trains[0].Mainspring, there.Trains[0].Barrel = s.Trains[of].Mainspring, s.Trains[of].Barrel
		there.Trains[0].Barrel.SetUpTurns = setUp
		width := []scenario.StripValue{{Key: "width_mm", Value: fmt.Sprint(s.Trains[of].Mainspring.WidthMM)}}
		b := &book.Book{Torques: []book.Torque{readingsOf(trial.RunOf(t, there, 0), "A")}, Springs: []book.Spring{{Label: "A", Train: "going", SolidAtTurn: nan, Strip: width}}}
		if of == 2 { // 35 mm wide, which is not to be had in the barrel that the going train has
			b.Springs = nil
			b.Torques = append(b.Torques, book.Torque{Train: "going", Spring: "B", RunningDown: [][]float64{{0.5}}})
		}
		c := clockOf(t, b, s)
		in, err := c.In(t.Context(), c.Springs[0], of)
		if err != nil {
			t.Fatal(err)
		}
		got, want := trial.RunOf(t, in.Scenario, of), trial.RunOf(t, s, of)
		near(t, s.Trains[of].Name+" mean", got.Torque.Mean, want.Torque.Mean, 2e-3)
		near(t, s.Trains[of].Name+" least", got.Torque.Min, want.Torque.Min, 5e-3)
	}
}

// Springs of which nothing was measured come out as they are, though the scenario has
// another in the train; what was measured is told to be, and so is what cannot be told.
func TestUnknownSprings(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	var b book.Book
	for i, label := range []string{"A", "B"} {
		there := s.Clone()
		there.Trains[0].Mainspring = s.Trains[i].Mainspring
		b.Torques = append(b.Torques, readingsOf(trial.RunOf(t, there, 0), label))
	}
	b.Springs = []book.Spring{{Label: "B", Train: "going", SolidAtTurn: nan, Strip: []scenario.StripValue{{Key: "width_mm", Value: "32"}, {Key: "length_mm", Value: "1500"}}}}
	c := clockOf(t, &b, s)
	for i, sp := range c.Springs {
		if v := told(t, sp, "thickness_mm"); sp.Why != nil || !v.Interval.Contains(s.Trains[i].Mainspring.ThicknessMM) || v.Interval.Length() > 0.05 || v.Measured {
			t.Errorf("%s: %v, %+v, it is %v", sp.Label, sp.Why, v, s.Trains[i].Mainspring.ThicknessMM)
		}
	}
	if v := told(t, c.Springs[1], "length_mm"); !v.Measured || v.Before != 1500 {
		t.Errorf("%+v", v)
	}
	if v := told(t, c.Springs[0], "length_mm"); v.Measured || !v.Interval.Contains(1650) {
		t.Errorf("%+v", v)
	}
	in, err := c.In(t.Context(), c.Springs[1], 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mean", trial.RunOf(t, in.Scenario, 0).Torque.Mean, meanOf(b.Torques[1].RunningDown[0]), 0.003)
}

// A fit of a scale alone is a closed form: with the strip known but for a couple good to
// 2 % and readings good to 1 % together, what is known after has 1/σ² = 1/0.01² + 1/0.005²
// (both at two standard deviations), and the mean is weighted so (Bayes' rule for normal
// errors).
func TestClosedForm(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	name := s.Trains[0].Name
	inputs, err := vary.Inputs(s, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, in := range inputs {
		for _, part := range in.Parts {
			if part.Quantity.Key != name+".mainspring.couple_ratio" {
				exact(s, part.Quantity.Key)
			}
		}
	}
	r := trial.RunOf(t, s, 0)
	q := readingsOf(r, "A")
	q.WindingUp, q.MeterRelative, q.MeterResolutionNM = nil, 0.005*math.Sqrt(3), 1e-4
	for _, list := range q.RunningDown {
		for i := range list {
			list[i] *= 1.01 // all three are one list
		}
	}
	q.RunningDown = [][]float64{q.RunningDown[0], slices.Clone(q.RunningDown[0])}
	for i := range q.RunningDown[0] {
		q.RunningDown[0][i] = r.Rows[4*i].FuseeTorque * 1.01
		q.RunningDown[1][i] = q.RunningDown[0][i]
	}
	sp := clockOf(t, &book.Book{Torques: []book.Torque{q}}, s).Springs[0]
	if sp.Why != nil || len(sp.Told) != 1 {
		t.Fatalf("%v, %+v", sp.Why, sp.Told)
	}
	v := sp.Told[0]
	weight := 1 / (0.005 * 0.005) / (1/(0.005*0.005) + 1/(0.01*0.01))
	near(t, "couple", v.Value-1, 0.01*weight, 0.01)
	near(t, "its standard error", v.StandardError, math.Sqrt(1/(1/(0.005*0.005)+1/(0.01*0.01))), 0.01)
}

// The turn at which a spring went solid tells its turns.
func TestSolidAtTurn(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	there := s.Clone()
	m := &there.Trains[0].Mainspring
	m.LengthMM, m.ThicknessMM = 1250, 0.45
	r := trial.RunOf(t, there, 0)
	if !(r.TurnsLost > 1) {
		t.Fatalf("%v turns lost", r.TurnsLost)
	}
	b := &book.Book{Torques: []book.Torque{readingsOf(r, "A")}, Springs: []book.Spring{{Label: "A", Train: r.Name, SolidAtTurn: r.Turns - r.TurnsLost}}}
	known := clockOf(t, b, s)
	b.Springs[0].SolidAtTurn = nan
	guessed := clockOf(t, b, s)
	var off, spread [2]float64
	for i, c := range []*Clock{known, guessed} {
		in, err := c.In(t.Context(), c.Springs[0], 0)
		if err != nil {
			t.Fatal(err)
		}
		off[i] = math.Abs(trial.RunOf(t, in.Scenario, 0).Spring.Available - r.Spring.Available)
		spread[i] = in.Scenario.Tolerances[len(in.Scenario.Tolerances)-1].PlusMinus
	}
	if off[0] > 0.1 || !(spread[0] < 0.75*spread[1]) {
		t.Errorf("turns off by %v, known within %v of packing; without the turn off by %v, within %v", off[0], spread[0], off[1], spread[1])
	}
}

// Turns counted from rest to solid tell the length of a spring whose length is not known.
func TestCounted(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	r := trial.RunOf(t, s, 0)
	b := &book.Book{Torques: []book.Torque{readingsOf(r, "A")}, Springs: []book.Spring{{Label: "A", Train: r.Name, SolidAtTurn: nan}}}
	b.Torques[0].MeterRelative = 0.05
	before := told(t, clockOf(t, b, s).Springs[0], "length_mm")
	b.Springs[0].Strip = []scenario.StripValue{{Key: "solid_turns", Value: fmt.Sprint(r.Spring.Available)}}
	c := clockOf(t, b, s)
	v := told(t, c.Springs[0], "length_mm")
	if c.Springs[0].Why != nil || !v.Interval.Contains(s.Trains[0].Mainspring.LengthMM) || !(v.StandardError < 0.9*before.StandardError) {
		t.Errorf("%v, %+v, before %+v", c.Springs[0].Why, v, before)
	}
	in, err := c.In(t.Context(), c.Springs[0], 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "turns", trial.RunOf(t, in.Scenario, 0).Spring.Available, r.Spring.Available, 0.005)
}

// An even cone that was carved pulls as the even one does.
func TestCarve(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	want := trial.RunOf(t, s, 2)
	carve(s, 2)
	got := trial.RunOf(t, s, 2)
	near(t, "mean", got.Torque.Mean, want.Torque.Mean, 1e-5)
	if got.Torque.Unevenness > 1e-5 || got.Computed || s.Trains[2].Fusee.Profile != scenario.Measured {
		t.Errorf("unevenness %v", got.Torque.Unevenness)
	}
	if err := s.CheckTrain(2); err != nil {
		t.Error(err)
	}
	if got := toleranceOf(s, s.Trains[2].Name+".fusee.points.5"); got.PlusMinus != 0 {
		t.Errorf("its diameters are known: %+v", got)
	}
}

// What weights tell stands in the scenario, with its tolerance, and the scenario that was
// given stays as it was.
func TestDemands(t *testing.T) {
	b := books.Sample(t)
	s, _ := trial.Compile(t, "three-trains")
	before := s.Trains[0].Demand.LeastTorqueNM
	b.Torques = nil
	c := clockOf(t, b, s)
	if s.Trains[0].Demand.LeastTorqueNM != before || len(c.Demands) != 3 {
		t.Errorf("%v, %d demands", s.Trains[0].Demand.LeastTorqueNM, len(c.Demands))
	}
	for i := range c.Demands {
		d := &c.Demands[i]
		if d.Why != nil || !d.Least || c.Scenario.Trains[d.Number].Demand.LeastTorqueNM != d.Bracket.Least || d.Timed != (d.Train != "going") {
			t.Errorf("%+v", d)
		}
		inputs, err := vary.Inputs(c.Scenario, d.Number)
		if err != nil {
			t.Fatal(err)
		}
		k := slices.IndexFunc(inputs, func(in vary.Input) bool { return in.Key == d.Train+".demand.least_torque_nm" })
		lo, hi := inputs[k].Parts[0].Error.Around(d.Bracket.Least)
		near(t, "lower end", lo, d.Bracket.Between.Lo, 1e-12)
		near(t, "upper end", hi, d.Bracket.Between.Hi, 1e-12)
	}
	// The timed strike gives the interval that the weights gave.
	d := &c.Demands[1]
	timed := c.Scenario.Trains[1].Strike.Timed
	near(t, "torque", timed.TorqueNM, d.TorqueFor(timed.BlowIntervalS).Torque, 1e-12)
	if v := trial.RunOf(t, c.Scenario, 1); !v.Timed {
		t.Error("the drag of the fly does not follow from the blows")
	}
	// By ear: the band has the torques, each end within what the trials leave open.
	for i := range b.Weights[2].Trials {
		trial := &b.Weights[2].Trials[i]
		trial.Runs, trial.BlowIntervalS, trial.Judged = nil, nan, []book.Judged{book.Weak, book.Weak, book.Weak, book.Liked, book.Liked, book.Liked, book.Brisk}[i]
	}
	c = clockOf(t, b, s)
	band := c.Scenario.Trains[2].Demand.TorqueBandNM
	if likes := c.Demands[2].Likes(); !c.Demands[2].Ear || math.Abs(band.Lo-likes.Lo) > 1e-9 || math.Abs(band.Hi-likes.Hi) > 1e-9 {
		t.Errorf("%+v, likes %v", band, likes)
	}
}

// With puts in what was chosen, or the one spring that was read, and asks where several were.
func TestWith(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	b := &book.Book{Torques: []book.Torque{readingsOf(trial.RunOf(t, s, 0), "A"), readingsOf(trial.RunOf(t, s, 1), "B")}}
	c := clockOf(t, b, s)
	in, taken, err := c.With(t.Context(), nil)
	if err != nil || len(taken) != 2 || taken[0].Spring.Label != "A" || taken[1].Spring.Label != "B" {
		t.Fatalf("%+v, %v", taken, err)
	}
	if _, err := in.Value("going.mainspring.couple_ratio"); err != nil || in.Trains[2].Fusee.Profile != scenario.Even {
		t.Errorf("%v", err)
	}
	// --set keeps what the readings told.
	was := in.Trains[0].Mainspring.CoupleRatio
	if err := in.Apply([]string{"going.barrel.set_up_turns=1"}); err != nil || in.Trains[0].Mainspring.CoupleRatio != was {
		t.Errorf("%v, couple %v, was %v", err, in.Trains[0].Mainspring.CoupleRatio, was)
	}
	if _, taken, err = c.With(t.Context(), map[string]string{"going": "B", "striking": ""}); err != nil || len(taken) != 1 || taken[0].Spring.Train != "striking" {
		t.Errorf("%+v, %v", taken, err)
	}
	if _, _, err := c.With(t.Context(), map[string]string{"going": "X"}); err == nil || !strings.Contains(err.Error(), `"X"`) {
		t.Errorf("%v", err)
	}
	b.Torques = append(b.Torques, readingsOf(trial.RunOf(t, s, 0), "C"))
	c = clockOf(t, b, s)
	var which *WhichError
	if _, _, err := c.With(t.Context(), nil); !errors.As(err, &which) || which.Train != "going" || !slices.Equal(which.Labels, []string{"A", "C"}) {
		t.Errorf("%v", err)
	}
	if _, taken, err := c.With(t.Context(), nil, "striking"); err != nil || len(taken) != 1 {
		t.Errorf("%+v, %v", taken, err)
	}
}

func TestWhy(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	name := s.Trains[0].Name
	b := &book.Book{Torques: []book.Torque{{Train: name, Spring: "A", RunningDown: [][]float64{{0.5, 0.5}}}, {Train: "chimes", Spring: "B", RunningDown: [][]float64{{0.5, 0.5, 0.5}}}}}
	c := clockOf(t, b, s)
	var none *scenario.NoTrainError
	if !errors.Is(c.Springs[0].Why, ErrFew) || !errors.As(c.Springs[1].Why, &none) {
		t.Errorf("%v, %v", c.Springs[0].Why, c.Springs[1].Why)
	}
	if _, err := c.In(t.Context(), c.Springs[0], 0); !errors.Is(err, ErrFew) {
		t.Errorf("%v", err)
	}
	if _, taken, err := c.With(t.Context(), nil); err != nil || len(taken) != 1 || taken[0].Spring.Why == nil {
		t.Errorf("%+v, %v", taken, err)
	}
	if _, _, err := c.With(t.Context(), map[string]string{name: "A"}); !errors.Is(err, ErrFew) {
		t.Errorf("%v", err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := Of(ctx, b, s); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

// Coil friction and flow stress do the same to the torque running down of a spring whose
// sizes are known.
func TestApart(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	q := readingsOf(trial.RunOf(t, s, 0), "A")
	q.WindingUp = nil
	b := &book.Book{Torques: []book.Torque{q}, Springs: []book.Spring{{Label: "A", Train: "going", SolidAtTurn: nan, Strip: []scenario.StripValue{{Key: "width_mm", Value: "32"}, {Key: "thickness_mm", Value: "0.38"}, {Key: "length_mm", Value: "1650"}}}}}
	sp := clockOf(t, b, s).Springs[0]
	var pairs []string
	for _, p := range sp.Apart {
		pairs = append(pairs, sp.Told[p[0]].Key+" "+sp.Told[p[1]].Key)
	}
	if !slices.Contains(pairs, "mainspring.yield_mpa mainspring.efficiency") {
		t.Errorf("told apart: all but %v", pairs)
	}
}

// BenchmarkOf is three springs of which little is known, each read three times.
func BenchmarkOf(b *testing.B) {
	book := books.Sample(b)
	s, _ := trial.Compile(b, "three-trains")
	for b.Loop() {
		if _, err := Of(b.Context(), book, s); err != nil {
			b.Fatal(err)
		}
	}
}

// meanOf is the mean by trapezia.
func meanOf(list []float64) float64 {
	sum := -(list[0] + list[len(list)-1]) / 2
	for _, v := range list {
		sum += v
	}
	return sum / float64(len(list)-1)
}
