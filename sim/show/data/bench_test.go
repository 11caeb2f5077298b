package data

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/escapement"
	"evenpull/sim/bench/assign"
	"evenpull/sim/bench/measure"
	"evenpull/sim/bench/readings"
	"evenpull/sim/internal/trial"
	"evenpull/sim/internal/trial/bench"
	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/show/words"
	"evenpull/sim/study/beat"
)

// tableOf reads a CSV: its header, and each line by the names of the header.
func tableOf[T any](t *testing.T, d Document[T], st *T) (header []string, rows []map[string]string) {
	t.Helper()
	var b bytes.Buffer
	if err := d.CSV(&b, Origin{}, st); err != nil {
		t.Fatal(err)
	}
	lines, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, name := range lines[0] {
			row[name] = line[i]
		}
		rows = append(rows, row)
	}
	return lines[0], rows
}

// treeOf reads a document.
func treeOf[T any](t *testing.T, o Document[T], st *T) map[string]any {
	t.Helper()
	var b bytes.Buffer
	if err := o.JSON(&b, Origin{}, st); err != nil {
		t.Fatal(err)
	}
	var doc map[string]any
	if err := json.Unmarshal(b.Bytes(), &doc); err != nil {
		t.Fatal(err)
	}
	return doc
}

func items(v any) []any { list, _ := v.([]any); return list }

// leaves are the values of an object, by their dotted names.
func leaves(v any) map[string]any {
	into := map[string]any{}
	var walk func(at string, v any)
	walk = func(at string, v any) {
		if o, ok := v.(map[string]any); ok {
			for k := range o {
				walk(strings.TrimPrefix(at+"."+k, "."), o[k])
			}
			return
		}
		into[at] = v
	}
	walk("", v)
	return into
}

// wantRow compares a line of CSV, or what JSON has of it, with what each name is to
// hold: no name more or less. A number that is none is empty.
func wantRow(t *testing.T, what string, row map[string]string, want map[string]any) {
	t.Helper()
	if a, b := slices.Sorted(maps.Keys(row)), slices.Sorted(maps.Keys(want)); !slices.Equal(a, b) {
		t.Fatalf("%s: columns %v, want %v", what, a, b)
	}
	for name, v := range want {
		cell := fmt.Sprint(v)
		if x, ok := v.(float64); ok && (math.IsNaN(x) || math.IsInf(x, 0)) {
			cell = ""
		}
		if row[name] != cell {
			t.Errorf("%s, %s: %q, want %q", what, name, row[name], cell)
		}
	}
}

// wantLeaves compares an object of a document likewise; what is null is nil.
func wantLeaves(t *testing.T, what string, v any, want map[string]any) {
	t.Helper()
	got := leaves(v)
	for name, w := range want {
		g, ok := got[name]
		if x, isNumber := w.(float64); isNumber && (math.IsNaN(x) || math.IsInf(x, 0)) {
			w = nil
		} else if n, isInt := w.(int); isInt {
			w = float64(n)
		} else if w == "" {
			w = nil
		}
		if !ok || fmt.Sprint(g) != fmt.Sprint(w) {
			t.Errorf("%s, %s: %v (%v), want %v", what, name, g, ok, w)
		}
	}
}

func readingWant(r *readings.Reading) map[string]any {
	outlier := math.NaN()
	if r.Outlier != nil {
		outlier = r.Outlier.Value
	}
	return map[string]any{
		"fusee_turn": r.FuseeTurn, "n": r.N, "mean_nm": r.Mean, "sd_nm": r.SD, "half_width_95_nm": r.HalfWidth,
		"outlier_nm": outlier, "predicted_nm": r.Predicted, "residual_nm": r.Mean - r.Predicted,
	}
}

// Every cell of the readings is that of its name in the study.
func TestRecordCSV(t *testing.T) {
	st := bench.Record(t)
	header, rows := tableOf(t, Record(), st)
	if want := "train,spring,winding,fusee_turn,n,mean_nm,sd_nm,half_width_95_nm,outlier_nm,predicted_nm,residual_nm"; strings.Join(header, ",") != want {
		t.Errorf("%v", header)
	}
	at := 0
	for i := range st.Springs {
		for _, r := range slices.Concat(st.Readings(i, false), st.Readings(i, true)) {
			want := readingWant(&r)
			want["train"], want["spring"], want["winding"] = "going", st.Springs[i].Supply.Spring, r.Winding
			wantRow(t, fmt.Sprintf("line %d", at+2), rows[at], want)
			at++
		}
	}
	if at != len(rows) || at != 3*34 {
		t.Errorf("%d lines, %d readings", len(rows), at)
	}
}

// Every figure of the document is that of its name in the study.
func TestRecordJSON(t *testing.T) {
	st := bench.Record(t)
	up := &measure.UpDown{Step: 0.02, SD: 0.013, Coarse: true, N: 4}
	st.Needs[0].UpDown = up
	st.Springs[0].Turns[3].Outlier = &measure.Outlier{Repeat: 2, Value: 0.777}
	doc := treeOf(t, Record(), st)
	for i, v := range items(doc["supplies"]) {
		s, c := &st.Springs[i], st.Compared[i]
		wantLeaves(t, "supply", v, map[string]any{
			"train": "going", "spring": s.Supply.Spring, "fusee_torque_nm.mean": s.Mean.Value, "fusee_torque_nm.min": s.Min, "fusee_torque_nm.max": s.Max, "fusee_torque_nm.unevenness": s.Unevenness,
			"unevenness_of_scatter": s.ByScatter, "between_run_downs": s.Mean.Between, "degrees_of_freedom": 6,
			"half_width_95_nm": s.Mean.HalfWidth, "efficiency": s.Efficiency.Mean, "predicted.rms_nm": c.RMS, "predicted.chi2_per_dof": c.ChiSquarePerDOF,
			"predicted.measured_over_predicted": c.Ratio, "predicted.meter": c.Meter, "least_torque_nm.used": c.Reserve.Need, "reserve.mean": s.Mean.Value / c.Reserve.Need, "reserve.min": s.Min / c.Reserve.Need, "not_predicted": nil,
		})
		o := v.(map[string]any)
		all := slices.Concat(st.Readings(i, false), st.Readings(i, true))
		for k, r := range slices.Concat(items(o["turns"]), items(o["winding"])) {
			wantLeaves(t, "turn", r, readingWant(&all[k]))
		}
		if len(items(o["turns"])) != len(s.Turns) || len(items(o["winding"])) != len(s.Supply.Winding) {
			t.Error("turns are missing")
		}
	}
	for i, v := range items(doc["needs"]) {
		n := &st.Needs[i]
		want := map[string]any{"train": n.Train, "least_torque_nm": n.Bracket.Least, "standard_uncertainty_nm": n.Bracket.Uncertainty, "between": []any{n.Bracket.Between.Lo, n.Bracket.Between.Hi}}
		if i == 0 {
			want["up_and_down.step_nm"], want["up_and_down.sd_nm"], want["up_and_down.coarse"], want["up_and_down.n"] = up.Step, up.SD, up.Coarse, up.N
		} else {
			want["up_and_down"] = nil
		}
		if c := n.Cadence; c != nil {
			want["fly_law.slope_per_s2_nm"], want["fly_law.threshold_nm"], want["fly_law.r2"] = c.Slope, c.Threshold, c.R2
		}
		wantLeaves(t, "need", v, want)
		o := v.(map[string]any)
		if len(items(o["trials"])) != len(n.Trials) || len(items(o["wanted"])) != len(st.Paces[i]) {
			t.Errorf("%s: weights or intervals are missing", n.Train)
		}
		for k, trial := range items(o["trials"]) {
			q := n.Trials[k]
			wantLeaves(t, "trial", trial, map[string]any{"mass_g": q.Mass * 1e3, "torque_nm": q.Torque, "runs": q.Runs, "blow_interval_s": q.Interval})
		}
		for k, pace := range items(o["wanted"]) {
			q := st.Paces[i][k]
			how := map[measure.How]string{measure.Interpolated: "interpolated", measure.Extrapolated: "extrapolated"}[q.How]
			wantLeaves(t, "pace", pace, map[string]any{"blow_interval_s": q.Interval, "torque_nm": q.Torque, "how": how})
		}
	}
	e := st.Explained
	wantLeaves(t, "fit", doc["fit"], map[string]any{"train": "going", "spring": "C", "chi2_per_dof": e.ChiSquarePerDOF, "rms_nm": e.RMS, "status": "converged",
		"covariance": []any{[]any{e.Covariance[0][0], e.Covariance[0][1]}, []any{e.Covariance[1][0], e.Covariance[1][1]}}, "from_run_downs": true,
		"correlation": []any{[]any{1.0, e.Correlation[0][1]}, []any{e.Correlation[1][0], 1.0}}})
	for i, v := range items(doc["fit"].(map[string]any)["values"]) {
		in := e.Inputs[i]
		wantLeaves(t, "value", v, map[string]any{"key": in.Key, "unit": in.Unit, "before": in.Before, "value": in.Value, "standard_error": in.StandardError, "standard_error_from_meter": in.FromMeter,
			"interval_95": []any{in.Interval.Lo, in.Interval.Hi}, "degrees_of_freedom": 6})
	}
	// Without a scenario, or with one that lacks the train, what was read stands.
	other, _ := trial.Compile(t, "strike-quick")
	for why, st := range map[string]*readings.Study{"": readings.Of(st.Book, nil), words.Why(readings.Of(st.Book, other).Refused[0]): readings.Of(st.Book, other)} {
		s := items(treeOf(t, Record(), st)["supplies"])[0]
		wantLeaves(t, "alone", s, map[string]any{"predicted": nil, "reserve": nil, "least_torque_nm": nil, "not_predicted": why, "fusee_torque_nm.mean": st.Springs[0].Mean.Value})
	}
}

// Every cell of the pairs is that of its name: of the study, or, of a run, in the
// table of results; and JSON has the same.
func TestAssign(t *testing.T) {
	st := bench.Assign(t, bench.Book(t), bench.Scenario(t))
	_, rows := tableOf(t, Assign(), st)
	doc := treeOf(t, Assign(), st)
	pairs := items(doc["pairs"])
	if len(rows) != 9 || len(pairs) != 9 {
		t.Fatalf("%d lines, %d pairs", len(rows), len(pairs))
	}
	for i := range st.Pairs {
		p := &st.Pairs[i]
		want := map[string]any{
			"spring": p.Label, "train": p.Train, "read_in": "going", "carried_over": p.Train != "going", "not_judged": "", "off_middle": p.Off, "best": p.Chosen,
			"verdict.code": p.Verdict.Code.String(), "verdict.loads_off": p.Verdict.LoadsOff.String(), "verdict.reasons": strings.Join(words.Reasons(&p.Digest), "; "),
			"verdict.faults": strings.Join(words.Faults(&p.Digest), "; "), "verdict.notes": strings.Join(words.Notes(&p.Digest), "; "),
		}
		for name, v := range sureness(&p.Digest) {
			want[name] = v
		}
		for _, f := range outcome.All() {
			want[f.Name] = f.Of(&p.Digest)
		}
		// By hand what a reader looks at first.
		for name, v := range map[string]float64{
			"fusee_torque_nm.mean": p.Torque.Mean, "fusee_torque_nm.min": p.Torque.Min, "fusee_torque_nm.max": p.Torque.Max, "fusee_torque_nm.unevenness": p.Torque.Unevenness,
			"reserve.mean": p.Torque.Mean / p.Need.Used, "reserve.min": p.Torque.Min / p.Need.Used, "turns_lost": p.TurnsLost, "least_torque_nm.used": p.Need.Used, "spring.turns_left": p.Left(),
		} {
			if want[name] != v {
				t.Errorf("%s: %v, want %v", name, want[name], v)
			}
		}
		wantRow(t, p.Label+" in "+p.Train, rows[i], want)
		for name := range want { // in JSON reasons, faults and notes are lists
			if label, ok := strings.CutPrefix(name, "spring."); ok {
				want["spring_in_train."+label] = want[name]
				delete(want, name)
			}
		}
		for _, name := range []string{"verdict.reasons", "verdict.faults", "verdict.notes", "verdict.decides_with"} {
			delete(want, name)
		}
		wantLeaves(t, p.Label+" in "+p.Train, pairs[i], want)
	}
	for name, choice := range map[string][]int{"best": st.Best, "second": st.Second} {
		for k, v := range items(doc[name]) {
			p := &st.Pairs[choice[k]]
			wantLeaves(t, name, v, map[string]any{"spring": p.Label, "train": p.Train, "suits": p.Verdict.Code == rules.Suits && p.Faults == 0})
		}
	}
	// In the second B would come to the striking train, where it might bind: it is left out.
	if len(items(doc["best"])) != 3 || len(items(doc["second"])) != 2 || !slices.ContainsFunc(st.Pairs, func(p assign.Pair) bool { return p.Label == "B" && p.Train == "striking" && p.Risky }) {
		t.Errorf("%v, %v, %v", doc["best"], doc["second"], doc["near_tie"])
	}
}

// Of readings that stand as they were read only torque, need and verdict are known.
func TestAssignAsRead(t *testing.T) {
	st := bench.Assign(t, bench.Book(t), nil)
	for i, v := range items(treeOf(t, Assign(), st)["pairs"]) {
		p := &st.Pairs[i]
		wantLeaves(t, "as read", v, map[string]any{
			"fusee_torque_nm.mean": p.Torque.Mean, "fusee_torque_nm.min": p.Torque.Min, "reserve.min": p.Torque.Min / p.Need.Used, "turns_lost": 0, "verdict.code": p.Verdict.Code.String(),
			"runtime_h": nil, "spring_in_train.turns_available": nil, "line_tension_n.max": nil, "fusee_torque_nm.cv": nil,
		})
	}
}

// Every figure of a swing is that of its name.
func TestBeat(t *testing.T) {
	r := bench.Beat(t, beat.Options{FuseeTurn: 4})
	s, a := &r.Settled, &r.Averaged
	doc := treeOf(t, Beat(), r)
	wantLeaves(t, "beat", doc, map[string]any{
		"train": "going", "fusee_turn": 4, "escape_torque_nm": r.Torque, "start_deg": r.Start.Degrees(), "energy_gap": r.Gap,
		"beats.status": s.Status.String(), "beats.amplitude_deg": s.Amplitude.Degrees(), "beats.period_s": s.Period, "beats.rate_s_per_day": s.Rate * 86400, "beats.periods": s.Periods,
		"averaged.status": a.Status.String(), "averaged.amplitude_deg": a.Amplitude.Degrees(), "averaged.rate_s_per_day": (a.Rate.Circular + a.Rate.Escapement + a.Rate.Damping) * 86400,
		"averaged.circular_s_per_day": a.Rate.Circular * 86400, "averaged.escapement_s_per_day": a.Rate.Escapement * 86400, "averaged.damping_s_per_day": a.Rate.Damping * 86400,
	})
	_, rows := tableOf(t, Beat(), r)
	if len(rows) != len(r.Approach) || len(items(doc["approach"])) != len(rows) {
		t.Fatalf("%d lines, %d arcs", len(rows), len(r.Approach))
	}
	for i, arc := range r.Approach {
		want := map[string]any{"period": arc.Period, "amplitude_deg": arc.Arc.Degrees()}
		wantRow(t, "arc", rows[i], want)
		wantLeaves(t, "arc", items(doc["approach"])[i], want)
	}
	stands := bench.Beat(t, beat.Options{Start: escapement.SemiDegrees(1)}, "going.pendulum.mass_g=700")
	wantLeaves(t, "stands", treeOf(t, Beat(), stands), map[string]any{"beats.period_s": nil, "beats.rate_s_per_day": nil, "averaged.rate_s_per_day": nil, "averaged.damping_s_per_day": nil})
}
