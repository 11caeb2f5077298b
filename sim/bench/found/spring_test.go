package found

import (
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/sim/bench/book"
	"evenpull/sim/bench/fit"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
)

// fitterOf is the fit of the first spring of a book in the train it was read in.
func fitterOf(t *testing.T, b *book.Book, s *scenario.Scenario) (*fitter, *fit.Result) {
	t.Helper()
	c := clockOf(t, b, s)
	f, res, err := c.Springs[0].explain(t.Context(), c.carved, &c.carved.Trains[c.Springs[0].Number].Barrel)
	if err != nil {
		t.Fatal(err)
	}
	return f, res
}

// One run-down tells no scatter: n readings of 0.6 % each, in a run-down good to 0.4 % by a
// meter good to 1 %/√3, tell a couple that was known to 1 % with 1/σ² = 1/0.01² +
// 1/(0.006²/n + 0.004² + 0.01²/3) (Bayes' rule for normal errors).
func TestOneRunDown(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	known(t, s, 0, "mainspring.couple_ratio")
	q := readingsOf(trial.RunOf(t, s, 0), "A")
	q.RunningDown, q.WindingUp, q.MeterRelative, q.MeterResolutionNM = q.RunningDown[:1], nil, 0.01, 0
	n := float64(len(q.RunningDown[0]))
	sp := clockOf(t, &book.Book{Torques: []book.Torque{q}}, s).Springs[0]
	if sp.Why != nil || len(sp.Told) != 1 {
		t.Fatalf("%v, %+v", sp.Why, sp.Told)
	}
	v := &sp.Told[0]
	want := 1 / math.Sqrt(1e4+1/(0.006*0.006/n+0.004*0.004+0.01*0.01/3))
	near(t, "standard error", v.StandardError, want, 2e-3)
	near(t, "interval", v.Interval.Length(), 2*1.96*want, 2e-3)
	near(t, "narrowed", v.Narrowed, want/0.01, 2e-3)
}

// How run-downs differ is known from few of them: what all share is widened by Student's t
// over that of the normal distribution, and is that of a mean of three.
func TestShared(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	q := readingsOf(trial.RunOf(t, s, 0), "A")
	for k := range q.RunningDown {
		q.RunningDown[k] = slices.Clone(q.RunningDown[k])
		for i := range q.RunningDown[k] {
			q.RunningDown[k][i] *= 1 + 0.01*float64(k-1)
		}
	}
	q.WindingUp, q.MeterRelative = nil, 0.006
	f, _ := fitterOf(t, &book.Book{Torques: []book.Torque{q}}, s)
	// Student's t of two degrees of freedom, 95 %: 4.303 (any table).
	near(t, "shared", f.common, math.Hypot(0.01/math.Sqrt(3)*4.303/1.96, 0.006/math.Sqrt(3)), 1e-3)
}

// Readings within half a turn of where the spring went solid are left out; that turn and a
// count are fitted in their stead.
func TestReadingsTaken(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	r := trial.RunOf(t, s, 0)
	b := &book.Book{Torques: []book.Torque{readingsOf(r, "A")}, Springs: []book.Spring{{Label: "A", Train: r.Name, SolidAtTurn: nan}}}
	all, _ := fitterOf(t, b, s)
	for solid, out := range map[float64]int{r.Turns - 2: 2, r.Turns - 2.4: 2, r.Turns - 2.5: 0, r.Turns - 2.6: 2} {
		c := clockOf(t, b, s)
		sp := c.Springs[0]
		sp.SolidAt, sp.Counted = solid, 8
		f := &fitter{explained: new(explained), given: map[string]bool{}, solid: nan}
		f.there, f.inputs = all.there, all.inputs
		if err := f.begin(sp); err != nil {
			t.Fatal(err)
		}
		n := len(all.points) - out
		if len(f.points) != n || len(f.y) != n+2+len(f.parts)+1 || f.y[n] != 0 || f.sd[n] != 0.125 || f.y[n+1] != 8 || f.sd[n+1] != 0.125 || f.y[n+2] != 0 || f.sd[len(f.sd)-1] != 1 {
			t.Errorf("solid at %v: %d of %d readings, %v within %v", solid, len(f.points), len(all.points), f.y[n:n+3], f.sd[n:n+3])
		}
		for k := range f.parts {
			if want := map[bool]float64{false: 1, true: 1 / math.Sqrt(3)}[f.even[k]]; f.sd[n+2+k] != want {
				t.Errorf("part %d within %v, want %v", k, f.sd[n+2+k], want)
			}
		}
	}
}

// A fit that ends at a corner is as good as its residuals.
func TestEnded(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	q := readingsOf(trial.RunOf(t, s, 0), "A")
	q.MeterRelative = 0.01
	f, res := fitterOf(t, &book.Book{Torques: []book.Torque{q}}, s)
	for status, want := range map[fit.Status]bool{fit.Converged: true, fit.AtBound: true, fit.NotConverged: true, fit.Singular: false, fit.Failed: false} {
		if got := f.ended(&fit.Result{Status: status, B: res.B}); got != want {
			t.Errorf("%v: %v", status, got)
		}
	}
	// What all share goes with every reading, either way.
	off := slices.Clone(res.B)
	off[len(off)-1] = 0
	base := slices.Clone(f.fitted(off))
	off[len(off)-1] = 1
	for i, v := range f.fitted(off)[:len(f.points)] {
		near(t, "shared", v/base[i]-1, f.common, 1e-6)
	}
	// Residuals twice what scatter explains.
	fitted := slices.Clone(f.fitted(res.B))
	for i := range f.points {
		f.y[i] = fitted[i] + 2*f.sd[i]
	}
	near(t, "misfit", f.misfit(res.B), 2, 1e-9)
	if f.ended(&fit.Result{Status: fit.NotConverged, B: res.B}) {
		t.Error("not converged, and good enough")
	}
	// They widen what is known by their square.
	before := f.errors.At(0, 0)
	if err := f.take(res); err != nil {
		t.Error(err)
	}
	near(t, "widened", f.errors.At(0, 0), 4*before, 1e-6)
	// Where the model cannot be evaluated nothing is foretold.
	far := slices.Clone(res.B)
	for i := range far {
		far[i] = nan
	}
	if got := f.fitted(far); !math.IsNaN(got[0]) || !math.IsNaN(got[len(got)-1]) {
		t.Error(got)
	}
}

// Coils and turns of the scenario's spring tell nothing of another that was read in its
// train; what was measured of that one stands.
func TestStripIn(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	m := &s.Trains[0].Mainspring
	m.NaturalForm, m.FreeCoils, m.YieldMPa, m.SolidTurns, m.Packing = scenario.BySet, 6, nan, 8.2, nan
	s.Tolerances = []scenario.Tolerance{{Key: "going.mainspring.width_mm", PlusMinus: 1}, {Key: "going.line.diameter_mm", PlusMinus: 0.1}}
	barrel := s.Trains[1].Barrel
	alone := &Spring{alone: true, Counted: nan}
	there, given, err := stripIn(s, alone, &barrel)
	if err != nil || given != nil || !math.IsNaN(there.Trains[0].Mainspring.YieldMPa) || there.Trains[0].Mainspring.SolidTurns != 8.2 || len(there.Tolerances) != 2 {
		t.Errorf("%v, given %v, %+v", err, given, there.Trains[0].Mainspring)
	}
	if b, own := &there.Trains[0].Barrel, &s.Trains[0].Barrel; !sameBarrel(b, &barrel) || b.SetUpTurns != own.SetUpTurns {
		t.Errorf("barrel %+v", b)
	}
	there, given, err = stripIn(s, &Spring{Counted: nan}, &barrel)
	if m := &there.Trains[0].Mainspring; err != nil || given == nil || len(given) != 0 || m.YieldMPa != scenario.AssumedYieldMPa || m.Packing != 1.065 || len(there.Tolerances) != 1 {
		t.Errorf("%v, given %v, %+v, %+v", err, given, m, there.Tolerances)
	}
	own := &Spring{Counted: nan, own: &book.Spring{Strip: []scenario.StripValue{{Key: "solid_turns", Value: "7.5"}, {Key: "thickness_mm", Value: "0.4"}}}}
	there, given, err = stripIn(s, own, &barrel)
	if m := &there.Trains[0].Mainspring; err != nil || !given["thickness_mm"] || !given["solid_turns"] || own.Counted != 7.5 || m.ThicknessMM != 0.4 {
		t.Errorf("%v, given %v, counted %v, %+v", err, given, own.Counted, m)
	}
	own = &Spring{Counted: nan, own: &book.Spring{Strip: []scenario.StripValue{{Key: "solid_turns", Value: "7.5"}, {Key: "length_mm", Value: "1700"}}}}
	if _, _, err = stripIn(s, own, &barrel); err != nil || !math.IsNaN(own.Counted) {
		t.Errorf("%v, counted %v: with a length it tells the packing", err, own.Counted)
	}
	m.NaturalForm, m.SolidTurns = scenario.AsEven, nan
	there, _, err = stripIn(s, &Spring{Counted: nan}, &barrel)
	if even := &there.Trains[0].Mainspring; err != nil || even.FreeCoils != 6 || !math.IsNaN(even.YieldMPa) || !math.IsNaN(even.Packing) {
		t.Errorf("%v, %+v", err, even)
	}
	own = &Spring{own: &book.Spring{Strip: []scenario.StripValue{{Key: "solid_turns", Value: "many"}}}}
	if _, _, err = stripIn(s, own, &barrel); err == nil {
		t.Error("a count of many")
	}
}

// What nobody measured of a spring may be far from that of the scenario's; what was measured
// is known as it would be there.
func TestInputs(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	inputs(t, s, 4)
	m := &s.Trains[0].Mainspring
	m.NaturalForm, m.FreeCoils, m.YieldMPa = scenario.AsEven, 6, nan
	inputs(t, s, 4)
}

func inputs(t *testing.T, s *scenario.Scenario, widened int) {
	t.Helper()
	before, err := inputsOf(s, 0, nil)
	if err != nil {
		t.Fatal(err)
	}
	got, err := inputsOf(s, 0, map[string]bool{"efficiency": true})
	if err != nil || len(got) != len(before) {
		t.Fatalf("%v, %d inputs of %d", err, len(got), len(before))
	}
	wide := map[string]float64{"width_mm": 5, "thickness_mm": 30, "length_mm": 30, "free_coils": 40, "yield_mpa": 12}
	seen := 0
	for i := range got {
		_, key, _ := strings.Cut(got[i].Key, ".")
		table, name, _ := strings.Cut(key, ".")
		if !slices.Contains([]string{"mainspring", "barrel", "line", "fusee"}, table) || name == "inside_height_mm" {
			t.Errorf("%s does nothing to the torque", got[i].Key)
		}
		want := before[i].Parts[0].Error
		if by, ok := wide[name]; ok && table == "mainspring" {
			want = scenario.ReadingError{Percent: by}
			seen++
		}
		if got[i].Parts[0].Error != want {
			t.Errorf("%s: %+v, want %+v", got[i].Key, got[i].Parts[0].Error, want)
		}
		if is, want := goes(&got[i]), table == "mainspring" || table == "barrel" && name != "set_up_turns"; is != want || ofStrip(&got[i]) != (table == "mainspring") {
			t.Errorf("%s goes: %v", got[i].Key, is)
		}
	}
	if seen != widened {
		t.Errorf("%d are widened", seen)
	}
}

// A strip whose width nobody measured went into its barrel.
func TestWidthGoes(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	b := &book.Book{Torques: []book.Torque{readingsOf(trial.RunOf(t, s, 0), "A")}, Springs: []book.Spring{{Label: "A", Train: "going", SolidAtTurn: nan}}}
	f, _ := fitterOf(t, b, s)
	seen := 0
	for k, part := range f.parts {
		if part.Quantity.Key == "going.mainspring.width_mm" {
			near(t, "widest", part.Error.At(part.Value, f.hi[k]), s.Trains[0].Barrel.InsideHeightMM, 1e-6)
			seen++
		} else if lo, hi := f.lo[k], f.hi[k]; lo != -hi || hi != map[bool]float64{true: 1, false: 5}[f.even[k]] {
			t.Errorf("%s from %v to %v", part.Quantity.Key, lo, hi)
		}
	}
	if seen != 1 {
		t.Error("the width is none of the parts")
	}
}

// The turn at which a spring went solid is told of the train that it was in.
func TestSolidThere(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	q := book.Torque{Train: "going", Spring: "A", RunningDown: [][]float64{{0.5}}}
	for train, want := range map[string]float64{"going": 12, "": 12, "striking": nan} {
		sp := clockOf(t, &book.Book{Torques: []book.Torque{q}, Springs: []book.Spring{{Label: "A", Train: train, SolidAtTurn: 12}}}, s).Springs[0]
		if sp.SolidAt != want && !(math.IsNaN(sp.SolidAt) && math.IsNaN(want)) {
			t.Errorf("solid in %q at %v, want %v", train, sp.SolidAt, want)
		}
	}
}
