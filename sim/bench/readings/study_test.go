package readings

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/bench/book"
	"evenpull/sim/bench/measure"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"

	"github.com/golang/geo/r1"
)

func sampleStudy(t testing.TB) *Study {
	t.Helper()
	text, _ := scenarios.BenchText(scenarios.DefaultBench)
	b, err := book.Read(strings.NewReader(text), "sample", nil)
	if err != nil {
		t.Fatal(err)
	}
	s, _ := trial.Compile(t, "three-trains")
	return Of(b, s)
}

// A spring is found by its label, by the train it was read in, or by both, where
// that leaves one.
func TestFindSeveral(t *testing.T) {
	var st Study
	for _, of := range [][2]string{{"A", "going"}, {"B", "going"}, {"A", "striking"}, {"C", "quarters"}} {
		st.Springs = append(st.Springs, Spring{Supply: &measure.Supply{Spring: of[0], Train: of[1]}})
	}
	for of, want := range map[[2]string]int{
		{"A", "going"}: 0, {"B", "going"}: 1, {"A", "striking"}: 2, {"B", ""}: 1, {"C", ""}: 3, {"", "striking"}: 2, {"", "quarters"}: 3,
		{"A", ""}: -1, {"", "going"}: -1, {"", ""}: -1, {"B", "striking"}: -1, {"D", ""}: -1, {"", "chimes"}: -1,
	} {
		got := st.Find(of[0], of[1])
		if want < 0 && got != nil || want >= 0 && got != &st.Springs[want] {
			t.Errorf("%q: %+v, want the spring of place %d", of, got, want)
		}
	}
	st.Springs = st.Springs[:1]
	if st.Find("", "") != &st.Springs[0] {
		t.Error("the only spring is not found without a label")
	}
}

// Title and gravity are the scenario's; a train that it does not have is told in
// place of a comparison, and the others are compared.
func TestStudyBesideAScenario(t *testing.T) {
	st := sampleStudy(t)
	s, _ := trial.Compile(t, "three-trains")
	s.Place.GravityMS2 = 9.6
	b := *st.Book
	b.Torques = append([]book.Torque{{Train: "chimes", Spring: "A", RunningDown: [][]float64{{0.5}}}}, b.Torques...)
	beside := Of(&b, s)
	if beside.Scenario != s.Title || beside.Gravity != 9.6 || len(beside.Springs) != len(b.Torques) {
		t.Errorf("%+v", beside)
	}
	closeTo(t, "the pull of a weight", beside.Needs[0].Trials[0].Torque, st.Needs[0].Trials[0].Torque/st.Gravity*9.6, 1e-12)
	var none *scenario.NoTrainError
	if beside.Compared[0] != nil || beside.Trains[0] != nil || !errors.As(beside.Refused[0], &none) || beside.Compared[1] == nil || beside.Refused[1] != nil || beside.Trains[1] == nil {
		t.Errorf("%v", beside.Refused)
	}
	if beside.Stored() != st.Stored() {
		t.Errorf("%v J", beside.Stored())
	}
	if sp := beside.Springs[1]; sp.MeterRelative != b.Torques[1].MeterRelative || sp.MeterResolution != b.Torques[1].MeterResolutionNM || sp.MeterRelative == sp.MeterResolution {
		t.Errorf("%+v", sp)
	}
	if none := Of(&b, nil); none.Gravity != 9.80665 || none.Scenario != "" || none.Compared[1] != nil || none.Refused[0] != nil { // CGPM (1901)
		t.Errorf("%+v", none)
	}
}

func TestFind(t *testing.T) {
	st := sampleStudy(t)
	if st.Find("", "going") != nil || st.Find("A", "") == nil || st.Find("A", "striking") != nil || st.Find("D", "") != nil {
		t.Error("the wrong spring was found")
	}
}

// What a striking train takes for the cadence wanted: the scenario's, or what a
// scenario that says nothing wants.
func TestWanted(t *testing.T) {
	st := sampleStudy(t)
	if p := st.Paces[1]; st.Paces[0] != nil || len(p) != 2 || p[0].Interval != 1.6 || p[1].Interval != 0.9 || !(p[0].Torque < p[1].Torque) || p[0].How != measure.Interpolated {
		t.Errorf("%+v", st.Paces)
	}
	quiet, _ := trial.Compile(t, "strike-quick", "blow_interval_s = [ 1.15, 1.75 ]", "")
	if r := quiet.Trains[0].Demand.BlowIntervalS; Wanted(nil, "striking") != (r1.Interval{Lo: r.Lo, Hi: r.Hi}) || Wanted(quiet, "chimes") != Wanted(nil, "") {
		t.Errorf("%v, in a scenario that says nothing %v", Wanted(nil, "striking"), r)
	}
}

// Readings stand beside what is predicted at their own turn, and the strongest
// spring is the one that the cautions are about.
func TestReadings(t *testing.T) {
	st := sampleStudy(t)
	list := slices.Concat(st.Readings(2, false), st.Readings(2, true))
	if len(list) != 34 || list[16].Winding || !list[17].Winding || list[17].FuseeTurn != 0 {
		t.Fatalf("%+v", list)
	}
	most := 0.0
	for i := range st.Springs {
		most = max(most, st.Trains[i].Spring.Stored)
	}
	if st.Stored() != most {
		t.Errorf("%v J, the strongest has %v", st.Stored(), most)
	}
	for i, r := range list {
		row := rowAt(st.Trains[2], float64(r.FuseeTurn))
		want := row.FuseeTorque
		if i >= 17 {
			want = row.WindingTorque
		}
		if r.Predicted != want || r.Residual() != r.Mean-want {
			t.Errorf("turn %g: %v, in the run %v", r.FuseeTurn, r.Predicted, want)
		}
	}
	c := Comparison{Points: []Point{{Predicted: 0.5}, {Predicted: math.NaN()}, {Predicted: 0}, {Predicted: math.NaN()}}}
	if c.Lost() != 2 {
		t.Errorf("%d of two points are lost", c.Lost())
	}
	none := Of(st.Book, nil)
	if r := none.Readings(0, false); !math.IsNaN(r[0].Predicted) || !math.IsNaN(none.Stored()) {
		t.Errorf("without a scenario: %+v", r[0])
	}
}
