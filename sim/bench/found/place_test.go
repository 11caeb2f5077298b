package found

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/sim/bench/book"
	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"

	"gonum.org/v1/gonum/mat"
)

// known makes everything in a train exact but one key.
func known(t *testing.T, s *scenario.Scenario, number int, but string) {
	t.Helper()
	inputs, err := vary.Inputs(s, number)
	if err != nil {
		t.Fatal(err)
	}
	for _, in := range inputs {
		for _, part := range in.Parts {
			if part.Quantity.Key != s.Trains[number].Name+"."+but {
				exact(s, part.Quantity.Key)
			}
		}
	}
}

// toleranceOf is what a scenario has of a key.
func toleranceOf(s *scenario.Scenario, key string) scenario.Tolerance {
	i := slices.IndexFunc(s.Tolerances, func(t scenario.Tolerance) bool { return t.Key == key })
	if i < 0 {
		return scenario.Tolerance{PlusMinus: nan, Percent: nan}
	}
	return s.Tolerances[i]
}

// Where one input alone is not known, what the readings leave open of it is the tolerance
// that the scenario gets: two standard errors of the couple, and of the packing.
func TestTolerances(t *testing.T) {
	for _, but := range []string{"mainspring.couple_ratio", "mainspring.packing"} {
		s, _ := trial.Compile(t, "eight-day")
		known(t, s, 0, but)
		c := clockOf(t, &book.Book{Torques: []book.Torque{readingsOf(trial.RunOf(t, s, 0), "A")}}, s)
		sp := c.Springs[0]
		if sp.Why != nil || len(sp.Told) != 1 || sp.Told[0].Key != but {
			t.Fatalf("%v, %+v", sp.Why, sp.Told)
		}
		in, err := c.In(t.Context(), sp, 0)
		if err != nil {
			t.Fatal(err)
		}
		name := s.Trains[0].Name
		couple, packing := toleranceOf(in.Scenario, name+".mainspring.couple_ratio"), toleranceOf(in.Scenario, name+".mainspring.packing")
		if but == "mainspring.packing" {
			near(t, "packing", packing.PlusMinus, 2*sp.Told[0].StandardError, 0.01)
			near(t, "narrowed", sp.Told[0].Narrowed, sp.Told[0].StandardError/(0.13/math.Sqrt(12)), 1e-3) // 1 to 1.13, anything as likely
			continue
		}
		near(t, "couple", couple.Percent, 200*sp.Told[0].StandardError/sp.Told[0].Value, 0.01)
		if packing.PlusMinus > 1e-9 {
			t.Errorf("packing %v, which was known", packing.PlusMinus)
		}
	}
}

// What is a little off in line, fusee and barrel goes with the couple: the train runs as it is
// known best, and all of it is known then.
func TestSettled(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	q := readingsOf(trial.RunOf(t, s, 0), "A")
	for _, list := range [][]float64{q.RunningDown[0], q.WindingUp[0]} { // all three are one list
		for i := range list {
			list[i] *= 1.05
		}
	}
	c := clockOf(t, &book.Book{Torques: []book.Torque{q}}, s)
	in, err := c.In(t.Context(), c.Springs[0], 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mean", trial.RunOf(t, in.Scenario, 0).Torque.Mean, in.best.Torque.Mean, 1e-9)
	for _, part := range in.Inputs {
		key := part.Parts[0].Quantity.Key
		if tol := toleranceOf(in.Scenario, key); (tol.PlusMinus == 0) != (!strings.HasSuffix(key, ".couple_ratio") && !strings.HasSuffix(key, ".packing")) {
			t.Errorf("%s: %+v", key, tol)
		}
	}
	if in, err = c.In(t.Context(), c.Springs[0], 1); err != nil {
		t.Fatal(err)
	}
	if again, err := c.explainedIn(t.Context(), c.Springs[0], &s.Trains[1].Barrel); err != nil || again != in.e {
		t.Errorf("worked out again: %v", err)
	}
	// In another train it is set up anew, good to a quarter of a click.
	if tol := toleranceOf(in.Scenario, "striking.barrel.set_up_turns"); tol.PlusMinus != 0.25/float64(s.Trains[1].Barrel.Clicks) {
		t.Errorf("%+v", tol)
	}
}

// Draws lie about the best as the covariance says, never past a bound, and are the same
// spring in every train.
func TestDraw(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	c := clockOf(t, &book.Book{Torques: []book.Torque{readingsOf(trial.RunOf(t, s, 0), "A")}}, s)
	home, err := c.In(t.Context(), c.Springs[0], 0)
	if err != nil {
		t.Fatal(err)
	}
	n := home.Parts()
	normal, best, places := make([]float64, n), home.Best(), make([]float64, n)
	if home.Draw(normal, places); len(best) != n || !slices.Equal(places, best) {
		t.Errorf("%v drawn of zeros, best %v", places, best)
	}
	const step = 1e-6
	sum := mat.NewSymDense(n, nil)
	for k := range normal {
		normal[k] = step
		home.Draw(normal, places)
		normal[k] = 0
		d := mat.NewVecDense(n, nil)
		for i := range places {
			d.SetVec(i, (places[i]-best[i])/step)
		}
		sum.SymRankOne(sum, 1, d)
	}
	if !mat.EqualApprox(sum, home.errors, 1e-4) {
		t.Error("draws do not have the covariance of the fit")
	}
	for _, far := range []float64{-1e3, 1e3} {
		for k := range normal {
			normal[k] = far
		}
		home.Draw(normal, places)
		for k, v := range places {
			if v < home.e.lo[k] || v > home.e.hi[k] {
				t.Errorf("part %d at %v, outside of %v to %v", k, v, home.e.lo[k], home.e.hi[k])
			}
		}
	}
	for k := range normal {
		normal[k] = 0.1 * float64(k%5-2)
	}
	home.Draw(normal, places)
	away, err := c.In(t.Context(), c.Springs[0], 1)
	for _, in := range c.Springs[0].home.inputs {
		if !strings.HasPrefix(in.Parts[0].Quantity.Key, "going.") {
			t.Errorf("%s is an input of the train it was read in", in.Parts[0].Quantity.Key)
		}
	}
	if err != nil {
		t.Fatal(err)
	}
	there := make([]float64, len(away.Best()))
	if away.Draw(normal, there); away.Parts() != n || len(there) >= n {
		t.Errorf("%d parts, %d away of %d", away.Parts(), len(there), n)
	}
	for i, k := range away.kept {
		if there[i] != places[k] || away.Best()[i] != best[k] {
			t.Errorf("part %d: %v away, %v at home", k, there[i], places[k])
		}
	}
}

func TestRoot(t *testing.T) {
	for _, rows := range [][]float64{{2, 0, 0, 1, 3, 0, 4, 5, 6}, {2, 0, 0, 0, 0, 0, 1, 0, 3}} { // the second: held on its bound
		want := mat.NewDense(3, 3, rows)
		var square mat.SymDense
		square.SymOuterK(1, want)
		if got, err := rootOf(&square); err != nil || !mat.EqualApprox(got, want, 1e-12) {
			t.Errorf("%v, want %v", mat.Formatted(got), mat.Formatted(want))
		}
	}
}

func TestSameBarrel(t *testing.T) {
	b := scenario.Barrel{InsideDiameterMM: 45, ArborDiameterMM: 15, OutsideDiameterMM: 48, InsideHeightMM: 34}
	if !sameBarrel(&b, &b) {
		t.Error("a barrel is not of its own size")
	}
	for i := range 4 {
		other := b
		*[]*float64{&other.InsideDiameterMM, &other.ArborDiameterMM, &other.OutsideDiameterMM, &other.InsideHeightMM}[i]++
		if sameBarrel(&b, &other) {
			t.Errorf("%+v is as large as %+v", other, b)
		}
	}
}

// A label that was read in several trains is found in the one asked for, else as first read.
func TestFind(t *testing.T) {
	c := Clock{Springs: []*Spring{{Label: "B", Train: "going"}, {Label: "A", Train: "going"}, {Label: "A", Train: "striking"}, {Label: "A", Train: "going", Turns: 1}}}
	for train, want := range map[string]*Spring{"going": c.Springs[1], "striking": c.Springs[2], "quarters": c.Springs[1]} {
		if got := c.Find("A", train); got != want {
			t.Errorf("%s: %+v", train, got)
		}
	}
	if c.Find("C", "going") != nil {
		t.Error("found what was not read")
	}
	if got := c.ReadIn("going"); !slices.Equal(got, []string{"B", "A"}) {
		t.Error(got)
	}
}

// A spring that does not go into a train is refused there, in either barrel.
func TestRefused(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	b := &book.Book{Torques: []book.Torque{readingsOf(trial.RunOf(t, s, 2), "C"), {Train: "going", Spring: "A", RunningDown: [][]float64{{0.5}}}}}
	c := clockOf(t, b, s)
	if _, err := c.In(t.Context(), c.Springs[0], 0); err == nil {
		t.Error("35 mm wide goes into a barrel 33 mm high")
	}
	_, _, err := c.With(t.Context(), map[string]string{"going": "A"})
	if !errors.Is(err, ErrFew) || err.Error() != "spring A in the going train: "+c.Springs[1].Why.Error() {
		t.Error(err)
	}
	which := &WhichError{"going", []string{"A", "B"}}
	if which.Error() != "springs A, B were read in the going train: want which is in it" {
		t.Error(which)
	}
	// A train that cannot be run keeps its profile.
	broken := s.Clone()
	broken.Trains[2].Barrel.ArborDiameterMM = 1e4
	if carve(broken, 2); broken.Trains[2].Fusee.Profile != scenario.Even {
		t.Error("carved")
	}
	if _, err := turnsByPacking(broken, 2); err == nil {
		t.Error("turns of a train that cannot be run")
	}
}

// The least turns that suffice do.
func TestFewest(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	q := readingsOf(trial.RunOf(t, s, 0), "A")
	for i := range q.RunningDown {
		q.RunningDown[i], q.WindingUp = q.RunningDown[i][:rules.LeastTurnsRead], nil
	}
	if sp := clockOf(t, &book.Book{Torques: []book.Torque{q}}, s).Springs[0]; sp.Why != nil || sp.Turns != rules.LeastTurnsRead || math.IsNaN(sp.Misfit) {
		t.Errorf("%v, %d turns", sp.Why, sp.Turns)
	}
}
