package data

import (
	"io"
	"math"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/study/plan"
)

func TestPlanJSON(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	weak, _ := trial.Compile(t, "too-weak")
	const key = "going.mainspring.yield_mpa"
	for _, against := range []*plan.Other{nil, {Scenario: weak}} {
		o := plan.Options{Against: against, Error: 0.004, Power: math.NaN(), Law: plan.Usual()}
		if against == nil {
			o.Key = key
		} else {
			o.Error, o.Power = math.NaN(), 0.9
		}
		st, err := plan.Run(t.Context(), s, 0, o)
		if err != nil {
			t.Fatal(err)
		}
		said := written(t, func(w io.Writer) error { return Plan().JSON(w, Origin{}, st) })
		validate(t, written(t, func(w io.Writer) error { return Plan().Schema(w, "plan") }), said)
		doc := parsed(t, said)
		turns := doc["turns"].([]any)
		for i, turn := range st.Plan.Turns {
			if turns[i] != float64(turn) {
				t.Errorf("turns %v, want %v", turns, st.Plan.Turns)
			}
		}
		wants := map[string]any{
			"train": "going", "repeats": float64(st.Plan.Repeats), "repeats_needed": float64(st.Needed), "standard_error": st.Plan.StandardError, "from_meter": st.Plan.FromMeter,
			"whole_run_standard_error": st.Whole.StandardError, "scatter": 0.006, "offset": 0.004, "meter_relative": 0.01, "meter_resolution_nm": 0.0,
		}
		if against == nil {
			wants["for"], wants["against"], wants["value"], wants["unit"], wants["power"], wants["error_asked"], wants["power_asked"] = key, nil, 1620.0, "MPa", nil, 0.004, nil
		} else {
			wants["for"], wants["against"], wants["value"], wants["unit"], wants["power"], wants["error_asked"], wants["power_asked"] = nil, weak.Title, nil, nil, st.Plan.Power, nil, 0.9
		}
		for name, want := range wants {
			if got, there := doc[name]; got != want || !there {
				t.Errorf("%s: %v, want %v", name, got, want)
			}
		}
		if n := len(st.Choices) * len(st.Repeats); len(doc["choices"].([]any)) != n || len(doc["fusee_turns"].([]any)) != len(st.At) || len(doc["cautions"].([]any)) != 1 {
			t.Errorf("%d choices, want %d", len(doc["choices"].([]any)), n)
		}
		header, lines := sheet(t, func(w io.Writer) error { return Plan().CSV(w, Origin{}, st) })
		if len(lines) != len(st.At) || len(header) != 5 {
			t.Fatalf("%d lines of %v", len(lines), header)
		}
		for i, line := range lines {
			if at := &st.At[i]; line["torque_nm"] != cellOf(at.Torque) || line["slope_nm"] != cellOf(at.Slope) || line["alone_standard_error"] != cellOf(at.Alone) || (line["read"] == "true") != at.Read {
				t.Errorf("%v, want %+v", line, at)
			}
		}
	}
}
