package words_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/sim/bench/assign"
	"evenpull/sim/bench/found"
	"evenpull/sim/bench/measure"
	"evenpull/sim/bench/readings"
	"evenpull/sim/internal/trial/bench"
	"evenpull/sim/show/words"

	"github.com/golang/geo/r1"
)

// strip is a spring of which thickness and length are told, the length hardly.
func strip() *found.Spring {
	return &found.Spring{Label: "A", Train: "going", Misfit: 1, Told: []found.Told{
		{Key: "mainspring.thickness_mm", Unit: "mm", Value: 0.38, Interval: r1.Interval{Lo: 0.37, Hi: 0.39}, StandardError: 0.005, Narrowed: 0.79},
		{Key: "mainspring.length_mm", Unit: "mm", Value: 1650, Interval: r1.Interval{Lo: 1600, Hi: 1700}, Narrowed: 0.8},
		{Key: "mainspring.efficiency", Value: 0.9, Narrowed: 0.1},
	}}
}

// What stands in place of what the scenario says is told train by train, and of a strip only
// what its readings tell.
func TestFromBench(t *testing.T) {
	var need measure.Need
	need.Bracket.Least, need.Bracket.Between = 0.35, r1.Interval{Lo: 0.34, Hi: 0.36}
	open := need
	open.Bracket.Between = r1.Interval{Lo: 0.34, Hi: math.Inf(1)}
	ear := measure.Need{Band: &measure.Band{Liked: r1.Interval{Lo: 0.4, Hi: 0.5}}}
	told := found.Spring{Label: "B", Train: "going"}
	for _, w := range []struct {
		taken found.Taken
		want  string
	}{
		{found.Taken{Demand: &found.Demand{Need: &need, Least: true, Before: math.NaN()}}, "needs 0.350 N·m by weights, 0.340 to 0.360"},
		{found.Taken{Demand: &found.Demand{Need: &need, Least: true, Before: 0.33}}, "needs 0.350 N·m by weights, 0.340 to 0.360, where the scenario has 0.330"},
		{found.Taken{Demand: &found.Demand{Need: &open, Least: true, Before: 0.351, Timed: true}}, "needs 0.350 N·m by weights; the fly's drag is that of the blows that were timed"},
		{found.Taken{Demand: &found.Demand{Need: &need, Why: errors.New("it breaks")}}, "not all that the weights tell can be so: it breaks"},
		{found.Taken{Demand: &found.Demand{Need: &ear, Ear: true}}, "likes 0.400 to 0.500 N·m by ear"},
		{found.Taken{Spring: strip()}, "spring A as its readings have it: 0.380 mm thick (0.370 to 0.390)"},
		{found.Taken{Spring: &told}, "spring B as its readings have it"},
	} {
		w.taken.Train = "going"
		if got := words.FromBench([]found.Taken{w.taken}); len(got) != 1 || got[0] != "going train: "+w.want {
			t.Errorf("%q, want %q", got, w.want)
		}
		if d := w.taken.Demand; d != nil {
			continue
		}
		w.taken.Train = "striking"
		if got := words.FromBench([]found.Taken{w.taken})[0]; !strings.Contains(got, ", read in the going train, as its readings") {
			t.Errorf("%q", got)
		}
	}
}

func TestFoundNotes(t *testing.T) {
	sp := strip()
	sp.Misfit = 1.7
	if got := words.FoundNotes(sp); len(got) > 0 {
		t.Errorf("%q of nothing", got)
	}
	sp.Told[0].Measured, sp.Told[0].Before, sp.Told[0].Off, sp.SolidAt, sp.SolidBy = true, 0.36, 4, 12, 13.8
	got := strings.Join(words.FoundNotes(sp), "; ")
	for _, want := range []string{"its thickness was measured as 0.360 mm, and what was read at the square makes it 0.380: measure it again", "it went solid at turn 12 counted from run down, and by its sizes and readings it would at 13.8: count again"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in %q", want, got)
		}
	}
	sp = strip()
	sp.Misfit = 2.1
	for _, w := range []struct {
		pairs [][2]int
		want  string
	}{
		{[][2]int{{0, 2}}, "thickness and coil friction cannot be told apart by these readings: count the free coils"},
		{[][2]int{{0, 1}, {1, 2}}, "thickness, length and coil friction cannot be told apart by these readings: count the free coils, and the turns from rest to solid"},
	} {
		sp.Apart = w.pairs
		if got, misfit := words.FoundNotes(sp), "its strip explains the readings badly: what is left is 2.1 times what scatter explains"; !slices.Equal(got, []string{w.want, misfit}) {
			t.Errorf("%q, want %q", got, w.want)
		}
	}
	for key, want := range map[string]string{"yield_mpa": "flow stress", "free_coils": "free coils", "friction_coefficient": "coil friction", "other": "mainspring.other"} {
		sp.Told[0].Key, sp.Apart = "mainspring."+key, [][2]int{{0, 1}}
		wantOne(t, key, words.FoundNotes(sp), want+" and length cannot")
	}
}

// The sample's book answers for each train and each spring, with a scenario and without.
func TestAnswers(t *testing.T) {
	r, err := assign.RecordOf(t.Context(), bench.Book(t), bench.Clock(t, bench.Book(t), bench.Scenario(t)), false, 0, 1)
	if err != nil {
		t.Fatal(err)
	}
	all := words.Answers(r)
	if len(all) != 3 || all[0].Needs != words.NeedHead(&r.Needs[0]) {
		t.Fatalf("%+v", all)
	}
	going := slices.IndexFunc(r.Springs, func(sp readings.Spring) bool { return sp.Spring == "C" })
	sup := r.Springs[going].Supply
	want := "spring C gives " + words.Figure(sup.Mean.Value) + " N·m in the mean ± " + words.About(sup.Mean.HalfWidth) + ", uneven by " + words.Percent(sup.Unevenness) + ": " + words.PairDoes(r.Read(going), words.Verdict) + "; by its readings "
	wantOne(t, "spring C", all[slices.Index(r.Trains(), r.Springs[going].Train)].Gives, want)
	r.Demands[0].Before = 0.33
	if got, want := words.Answers(r)[0].Needs, words.NeedHead(&r.Needs[0])+", where the scenario has 0.330"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if more := words.MoreOfRecord(r); !strings.HasPrefix(more, "trials, readings turn by turn") || !strings.HasSuffix(more, ": --full") {
		t.Error(more)
	}
	r.Judged.Found[going].Why = found.ErrFew
	for i := range r.Judged.Pairs {
		r.Judged.Pairs[i].Why = found.ErrFew
	}
	all = words.Answers(r)
	a := all[slices.Index(r.Trains(), r.Springs[going].Train)]
	wantOne(t, "not judged", a.Gives, words.Percent(sup.Unevenness)+": not judged")
	wantOne(t, "why", a.Notes, "spring C: "+found.ErrFew.Error())
	needs := r.Needs
	r.Needs = nil
	for i, a := range words.Answers(r) {
		n := r.Judged.Need(r.Trains()[i])
		if want := n.Train + " train needs " + words.Figure(n.Need.Used) + " N·m by the scenario"; a.Needs != want {
			t.Errorf("%q, want %q", a.Needs, want)
		}
	}
	r.Judged, r.Needs, r.Demands = nil, needs, nil
	for i, a := range words.Answers(r) {
		if len(a.Notes) > 0 || holds(a.Gives, ": ") || a.Needs != words.NeedHead(&needs[i]) {
			t.Errorf("%+v", a)
		}
	}
	r.Needs = nil
	for i, a := range words.Answers(r) {
		if want := r.Trains()[i] + " train: what it needs is not known"; a.Needs != want {
			t.Errorf("%q, want %q", a.Needs, want)
		}
	}
}
