package data

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"math"
	"strconv"
	"strings"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
	"evenpull/sim/study/cut"
)

func cutStudy(t testing.TB, name string, number int, o cut.Options, replace ...string) (*cut.Study, *scenario.Scenario) {
	t.Helper()
	s, _ := trial.Compile(t, name, replace...)
	if o.Large == 0 {
		o.Large = math.NaN()
	}
	o.Small = math.NaN()
	st, err := cut.Run(context.Background(), s, number, o)
	if err != nil {
		t.Fatal(err)
	}
	return st, s
}

// cutRuns are the first trains of a scenario, run down: as it is, with its set-up
// alone changed, and with the even cone asked for that has the large end (mm).
func cutRuns(t testing.TB, s *scenario.Scenario, setUp, cutSetUp, large float64) (now, other, even *sim.Result) {
	t.Helper()
	run := func(s *scenario.Scenario) *sim.Result {
		clock, err := sim.RunClock(s, sim.Options{})
		if err != nil {
			t.Fatal(err)
		}
		return &clock.Trains[0]
	}
	changed, asked := s.Clone(), s.Clone()
	changed.Trains[0].Barrel.SetUpTurns = setUp
	in := &asked.Trains[0]
	in.Barrel.SetUpTurns = cutSetUp
	in.Fusee.Profile, in.Fusee.DiametersMM, in.Fusee.LargeDiameterMM = scenario.Even, nil, large
	return run(s), run(changed), run(asked)
}

func cutNear(t testing.TB, what string, got, want, share float64) {
	t.Helper()
	if !(math.Abs(got-want) <= share*math.Abs(want)+1e-9) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// Each cell against what stands in the scenario, or comes from a run of it and of one
// that asks for the even cone.
func TestCutCSV(t *testing.T) {
	st, s := cutStudy(t, "strike-quick", 0, cut.Options{})
	var b bytes.Buffer
	if err := Cut().CSV(&b, Origin{}, st); err != nil {
		t.Fatal(err)
	}
	lines, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(lines[0], " "); got != "fusee_turn along_mm from_great_wheel_mm diameter_mm over_lands_mm now_mm remove_mm now_fusee_torque_nm fusee_torque_nm free_span_mm fleet_angle_deg" {
		t.Fatal(got)
	}
	in := &s.Trains[0]
	now, _, even := cutRuns(t, s, st.Now.Spring.SetUp, st.After.Spring.SetUp, 26.7)
	wound, err := even.Train.Drive.Wind()
	if err != nil {
		t.Fatal(err)
	}
	if len(lines) != len(in.Fusee.DiametersMM)+1 {
		t.Fatalf("%d lines", len(lines))
	}
	for i, cells := range lines[1:] {
		var v [11]float64
		for k := range v {
			if v[k], err = strconv.ParseFloat(cells[k], 64); err != nil {
				t.Fatal(err)
			}
		}
		rho := wound.At(float64(i)).Radius // of the line's middle
		fleet := math.Atan(even.Rows[4*i].Fleet)
		barrel := (in.Barrel.OutsideDiameterMM + in.Line.ThicknessMM) / 2
		straight := math.Sqrt(in.Fusee.CentreDistanceMM*in.Fusee.CentreDistanceMM - (rho*1e3-barrel)*(rho*1e3-barrel))
		for k, want := range []float64{
			float64(i), in.Fusee.PitchMM * float64(i), 2.85 + in.Fusee.PitchMM*(in.Fusee.Turns-float64(i)), // a margin of 2 mm and half the groove
			2e3*rho - in.Line.ThicknessMM, 2e3 * rho, in.Fusee.DiametersMM[i], in.Fusee.DiametersMM[i] - 2e3*rho + in.Line.ThicknessMM,
			now.Rows[4*i].FuseeTorque, even.Rows[4*i].FuseeTorque, straight / math.Cos(fleet), fleet * 180 / math.Pi,
		} {
			if math.Abs(v[k]-want) > 2e-6*math.Max(1, math.Abs(want)) {
				t.Errorf("turn %d, %s: %v, want %v", i, lines[0][k], v[k], want)
			}
		}
	}
}

// What does not apply is empty: as it is the first turns cannot be wound.
func TestCutCSVWithoutTorque(t *testing.T) {
	st, _ := cutStudy(t, "too-strong", 0, cut.Options{Step: 0.5})
	var b bytes.Buffer
	if err := Cut().CSV(&b, Origin{}, st); err != nil {
		t.Fatal(err)
	}
	lines, err := csv.NewReader(&b).ReadAll()
	if err != nil || len(lines) != 34 || lines[33][0] != "16" || lines[33][1] != "35.2" || lines[1][7] != "" || lines[1][8] == "" || lines[33][7] == "" {
		t.Errorf("%v: %d lines, %q, %q", err, len(lines), lines[1], lines[33])
	}
}

// Lengths are written to 1e-9 mm, and no diameter to cut is above the present one.
func TestCutCSVIsRounded(t *testing.T) {
	for _, name := range []string{"eight-day", "too-weak", "too-strong", "strike-quick"} {
		st, _ := cutStudy(t, name, 0, cut.Options{Step: 0.15})
		var b bytes.Buffer
		if err := Cut().CSV(&b, Origin{}, st); err != nil {
			t.Fatal(err)
		}
		lines, err := csv.NewReader(&b).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		for _, cells := range lines[1:] {
			var v [7]float64
			for i := range v {
				if v[i], err = strconv.ParseFloat(cells[i], 64); err != nil {
					t.Fatal(err)
				}
				if _, places, _ := strings.Cut(cells[i], "."); len(places) > 9 && !strings.Contains(places, "e") {
					t.Errorf("%s: %s", name, cells[i])
				}
			}
			if v[3] > v[5] || v[6] < 0 {
				t.Errorf("%s: %v", name, cells)
			}
		}
	}
}

// cutDocument is the JSON of a study, and its values by their names with dots.
func cutDocument(t testing.TB, st *cut.Study) (doc map[string]any, at func(name string) float64) {
	t.Helper()
	var b bytes.Buffer
	if err := Cut().JSON(&b, Origin{}, st); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(b.Bytes(), &doc); err != nil {
		t.Fatal(err)
	}
	return doc, func(name string) float64 {
		var v any = doc
		for key := range strings.SplitSeq(name, ".") {
			m, _ := v.(map[string]any)
			if _, ok := m[key]; !ok {
				t.Fatalf("no %s", name)
			}
			v = m[key]
		}
		n, ok := v.(float64)
		if !ok {
			t.Errorf("%s is %v", name, v)
		}
		return n
	}
}

// Each run of the document against a run of its own, what comes off against the rows.
func TestCutJSON(t *testing.T) {
	st, s := cutStudy(t, "too-weak", 0, cut.Options{Step: 0.05})
	doc, at := cutDocument(t, st)
	large := st.Rows[len(st.Rows)-1].Diameter * 1e3
	now, other, even := cutRuns(t, s, 1.25, at("after.spring.set_up_turns"), large)
	for name, run := range map[string]*sim.Result{"now": now, "set_up": other, "after": even, "cut_least_metal": even} {
		share := 1e-12
		if run == even {
			share = 2e-5
		}
		cutNear(t, name, at(name+".fusee_torque_nm.mean"), run.Torque.Mean, share)
		cutNear(t, name, at(name+".fusee_torque_nm.min"), run.Torque.Min, share)
		cutNear(t, name, at(name+".reserve.mean"), run.Torque.Mean/0.33, share)
		cutNear(t, name, at(name+".spring.set_up_turns"), run.Spring.SetUp, 1e-12)
		cutNear(t, name, at(name+".line.on_fusee_mm"), run.Line.OnFusee*1e3, share)
		cutNear(t, name, at(name+".amplitude_deg.mean"), run.Swing.Amplitude.Mean*180/math.Pi, share)
		verdict, _ := doc[name].(map[string]any)["verdict"].(map[string]any)
		if verdict["code"] != run.Verdict.Code.String() {
			t.Errorf("%s: %v, by a run %v", name, verdict["code"], run.Verdict.Code)
		}
	}
	cutNear(t, "line_mm", at("line_mm"), even.Line.OnFusee*1e3, 2e-5)
	cutNear(t, "turns_lost", at("now.turns_lost"), 0, 0)
	cutNear(t, "cut_present_set_up", at("cut_present_set_up.spring.set_up_turns"), 0.5, 1e-12)
	var removed, share float64
	turns, _ := doc["turns"].([]any)
	figure := func(i int, key string) float64 { return turns[i].(map[string]any)[key].(float64) }
	area := func(i int) float64 {
		d, was := figure(i, "diameter_mm"), figure(i, "now_mm")
		return math.Pi / 4 * (was*was - d*d)
	}
	for i := range turns {
		share = math.Max(share, figure(i, "remove_mm")/figure(i, "now_mm"))
		if i > 0 {
			removed += (area(i) + area(i-1)) / 2 * (figure(i, "along_mm") - figure(i-1, "along_mm"))
		}
	}
	cutNear(t, "removed_mm3", at("after.removed_mm3"), removed, 1e-3)
	cutNear(t, "removed_mm3", at("cut_least_metal.removed_mm3"), removed, 1e-3)
	cutNear(t, "removed_share", at("after.removed_share"), share, 1e-3)
	if !(at("cut_present_set_up.removed_mm3") > 10*removed && at("cut_present_set_up.removed_share") > share) {
		t.Error("less comes off with the present set-up")
	}
	cutNear(t, "touches_at_turn", at("after.touches_at_turn"), 16, 1e-9)
	cutNear(t, "free_span_mm", at("free_span_mm"), figure(0, "free_span_mm"), 1e-9)
	cutNear(t, "unevenness_at_whole_turns", at("unevenness_at_whole_turns"), st.Whole, 1e-12)
	for key, want := range map[string]any{"train": "going", "from_blank": false, "suits": "with another set-up", "nothing_to_cut": false, "cutting_advised": false, "cannot_be_cut": nil} {
		if doc[key] != want {
			t.Errorf("%s: %v, want %v", key, doc[key], want)
		}
	}
	if list, _ := doc["cautions"].([]any); len(list) != 3 {
		t.Errorf("%v", doc["cautions"])
	}
}

// The cone held, a spring that is thinner gives less and one that is thicker more:
// the torque of a strip goes with more than the square of its thickness.
func TestCutThickness(t *testing.T) {
	st, _ := cutStudy(t, "eight-day", 0, cut.Options{KeepSetUp: true})
	_, at := cutDocument(t, st)
	cutNear(t, "by_mm", at("thickness.by_mm"), 0.01, 1e-12)
	mean := at("after.fusee_torque_nm.mean")
	for name, sign := range map[string]float64{"thinner": -1, "thicker": 1} {
		if power := math.Log(at("thickness."+name+".fusee_torque_nm.mean")/mean) / math.Log(1+sign*0.01/0.38); power < 2 || power > 3 {
			t.Errorf("%s: the torque goes with the power %v", name, power)
		}
	}
	// A round groove for 1.6 mm of gut at a pitch of 2.2 mm: a tenth of a millimetre
	// wider, half as deep as the line is thick.
	for key, want := range map[string]float64{"width_mm": 1.7, "depth_mm": 0.8, "land_mm": 0.5} {
		cutNear(t, key, at("groove."+key), want, 1e-9)
	}
}

// What does not apply is null.
func TestCutNulls(t *testing.T) {
	null := func(doc map[string]any, keys ...string) {
		t.Helper()
		for _, key := range keys {
			if v, ok := doc[key]; !ok || v != nil {
				t.Errorf("%s: %v", key, v)
			}
		}
	}
	blank, _ := cutStudy(t, "three-trains", 1, cut.Options{FromBlank: true})
	doc, _ := cutDocument(t, blank)
	null(doc, "cut_present_set_up", "cut_least_metal")
	null(doc["after"].(map[string]any), "removed_mm3", "touches_at_turn", "fault")
	if doc["from_blank"] != true || doc["train"] != "striking" {
		t.Errorf("%v, %v", doc["from_blank"], doc["train"])
	}
	none, _ := cutStudy(t, "eight-day", 0, cut.Options{}, "length_mm    = 1650.0", "length_mm    = 300.0")
	doc, _ = cutDocument(t, none)
	null(doc, "set_up", "after")
	present, _ := doc["cut_present_set_up"].(map[string]any)
	null(present, "verdict", "fusee_torque_nm", "removed_mm3", "removed_share", "touches_at_turn")
	fault, _ := present["fault"].(string)
	refused, _ := doc["cannot_be_cut"].(string)
	if !strings.Contains(fault, "mm at fusee turn") || !strings.Contains(refused, "want a spring with more turns than") || doc["suits"] != "no" {
		t.Errorf("%q, %q, %v", fault, refused, doc["suits"])
	}
}
