package assign

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"evenpull/sim/bench/book"
	"evenpull/sim/bench/found"
	"evenpull/sim/internal/trial/books"
	"evenpull/sim/rules"

	"github.com/golang/geo/r1"
)

// Readings that no scenario carries over stand as they are: where they are least,
// where the train first stops by them, and whether they begin fully wound.
func TestReadingsAsTheyAre(t *testing.T) {
	nan := math.NaN()
	for name, c := range map[string]struct {
		torques                          []float64
		least, greatest, mean, at, stops float64
		lost                             float64
	}{
		"it stops twice":       {[]float64{0.46, 0.36, 0.40, 0.35, 0.45}, 0.35, 0.46, (0.46/2 + 0.36 + 0.40 + 0.35 + 0.45/2) / 4, 3, 1, 0},
		"twice the same least": {[]float64{0.46, 0.42, 0.40, 0.42, 0.40}, 0.40, 0.46, (0.46/2 + 0.42 + 0.40 + 0.42 + 0.40/2) / 4, 2, nan, 0},
		"least at once":        {[]float64{0.36, 0.42, 0.44}, 0.36, 0.44, (0.36/2 + 0.42 + 0.44/2) / 2, 0, 0, 0},
		"not read wound":       {[]float64{nan, 0.42, 0.36}, 0.36, 0.42, 0.39, 2, 2, nan},
	} {
		b := levelSprings(t, 0.5)
		b.Torques[0].RunningDown = [][]float64{c.torques, c.torques}
		st := study(t, b, nil)
		p := &st.Pairs[0]
		for _, v := range []struct {
			what      string
			got, want float64
		}{
			{"least", p.Torque.Min, c.least}, {"greatest", p.Torque.Max, c.greatest}, {"mean", p.Torque.Mean, c.mean}, {"unevenness", p.Torque.Unevenness, (c.greatest - c.least) / c.mean},
			{"turn of the least", p.Torque.MinAt, c.at}, {"turn of the greatest", p.Torque.MaxAt, nan}, {"variation", p.Torque.CV, nan},
			{"first turn it stops", p.StopsAt, c.stops}, {"turns lost", p.TurnsLost, c.lost}, {"energy", p.Spring.Stored, nan},
			// 1.15 to 1.6 times the need suits (common practice, no source).
			{"off", p.Off, c.mean/((1.15+1.6)/2*p.Need.Used) - 1},
		} {
			if !(math.Abs(v.got-v.want) < 1e-12 || math.IsNaN(v.got) && math.IsNaN(v.want)) {
				t.Errorf("%s: %s %v, want %v", name, v.what, v.got, v.want)
			}
		}
		if p.Name != "going" || p.Need.Used != st.Needs[0].Need.Used || p.Need.Measured != p.Need.Used || !math.IsNaN(p.Need.Loads) || !p.Wanted.IsEmpty() || p.Advice != rules.DefaultAdvice() || p.Whole || p.Carried() || p.Why != nil || st.Scenario {
			t.Errorf("%s: %+v, %+v, %v", name, p.Need, p.Advice, p.Why)
		}
	}
}

// A train does not stop on exactly the torque that it was found to run on.
func TestTheNeedItselfIsEnough(t *testing.T) {
	b := levelSprings(t, 0.5)
	b.Weights[0].Trials = b.Weights[0].Trials[1:] // the one that ran
	need := study(t, b, nil).Needs[0].Need.Used
	b.Torques[0].RunningDown = [][]float64{{need, need}, {need, need}}
	st := study(t, b, nil)
	if p := &st.Pairs[0]; !math.IsNaN(p.StopsAt) || p.Verdict.Code != rules.Thin {
		t.Errorf("%v, stops at %v", p.Verdict.Code, p.StopsAt)
	}
}

// The intervals wanted go with the readings of a train whose blows were timed.
func TestWantedGoesWithThePair(t *testing.T) {
	st := study(t, bench(t, "striking", weight(0.5, 1.2), 0.6), nil)
	if p := &st.Pairs[0]; p.Wanted != (r1.Interval{Lo: 0.8, Hi: 1.6}) {
		t.Errorf("%v", p.Wanted)
	}
}

// A spring that was read in several trains is judged in each by its readings there,
// elsewhere by those that stand first.
func TestReadInSeveralTrains(t *testing.T) {
	var text strings.Builder
	for i, train := range []string{"one", "two", "three"} {
		fmt.Fprintf(&text, "[[weights]]\ntrain = %q\npulley_radius_mm = 75\ntrials = [ { mass_g = 450.0, runs = true } ]\n", train)
		for k, label := range []string{"A", "B"} {
			if i+k != 2 { // A was not read in the third, nor B in the second
				fmt.Fprintf(&text, "[[torque]]\ntrain = %q\nspring = %q\nrunning_down = [ [%v] ]\n", train, label, 0.4+0.1*float64(k)+0.01*float64(i))
			}
		}
	}
	st := study(t, books.Read(t, text.String()), nil)
	want := []struct {
		label, train, readIn string
		mean                 float64
	}{{"A", "one", "one", 0.40}, {"A", "two", "two", 0.41}, {"A", "three", "one", 0.40}, {"B", "one", "one", 0.50}, {"B", "two", "one", 0.50}, {"B", "three", "three", 0.52}}
	if len(st.Pairs) != len(want) {
		t.Fatalf("%d pairs", len(st.Pairs))
	}
	for i, w := range want {
		if p := &st.Pairs[i]; p.Label != w.label || p.Train != w.train || p.ReadIn != w.readIn || math.Abs(p.Torque.Mean-w.mean) > 1e-12 || p.TurnsLost != 0 {
			t.Errorf("%s in %s, read in %s: %v, want %+v", p.Label, p.Train, p.ReadIn, p.Torque.Mean, w)
		}
	}
}

// A spring that its readings do not tell is not judged: too few turns, or none that a
// spring could give.
func TestNotJudged(t *testing.T) {
	b, s := sample(t)
	b.Torques = append(b.Torques, book.Torque{Train: "going", Spring: "D", RunningDown: [][]float64{{0.5, 0.5}, {0.5, 0.5}}})
	st := study(t, b, s)
	if st.Title != b.Title || !st.Scenario {
		t.Errorf("%q, %v", st.Title, st.Scenario)
	}
	for i := range st.Pairs {
		p := &st.Pairs[i]
		if p.Label != "D" && (!p.Whole || p.Why != nil || p.Carried() != (p.Train != "going")) || p.Whole == (p.Why != nil) || !p.Whole && (p.Carried() || p.Chosen || p.Verdict.Code != rules.Unjudged) {
			t.Errorf("%s in %s: whole %v, carried %v, %v", p.Label, p.Train, p.Whole, p.Carried(), p.Why)
		}
		if p.Label == "D" && !errors.Is(p.Why, found.ErrFew) {
			t.Errorf("%v", p.Why)
		}
	}
}
