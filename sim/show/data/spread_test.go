package data

import (
	"context"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/study/spread"
	"evenpull/sim/vary"
)

// spreads is a study in which some runs cannot be built, of results one of which no
// run has.
func spreads(t testing.TB) *spread.Study {
	t.Helper()
	s, _ := trial.Compile(t, "eight-day")
	s.Tolerances = []scenario.Tolerance{
		{Key: thickness, PlusMinus: 0.2, Percent: math.NaN(), Shape: scenario.Uniform}, {Key: "going.line.efficiency", PlusMinus: 0.04, Percent: math.NaN(), Shape: scenario.Normal},
	}
	if err := s.Check(); err != nil {
		t.Fatal(err)
	}
	of, err := outcome.Several(outcome.MeanTorque, "blow_interval_s.mean", outcome.Unevenness)
	if err != nil {
		t.Fatal(err)
	}
	st, err := spread.Run(context.Background(), s, 0, spread.Options{Runs: 20_000, Seed: -7, Of: of, Hold: vary.Fill})
	if err != nil || st.Failed == 0 {
		t.Fatalf("%v, %d failed", err, st.Failed)
	}
	st.Asked++
	return st
}

// figuresOf are the figures of a result by the names of the contract.
func figuresOf(d *spread.Distribution) map[string]float64 {
	lo, hi := d.Range()
	return map[string]float64{
		"own": d.Own, "n": float64(d.N()), "mean": d.Mean(), "sd": d.SD(), "min": lo, "max": hi, "percentile_error": d.Fineness(),
		"p05": d.Quantile(0.05), "p25": d.Quantile(0.25), "p50": d.Quantile(0.5), "p75": d.Quantile(0.75), "p95": d.Quantile(0.95),
	}
}

func TestSpreadCSV(t *testing.T) {
	st := spreads(t)
	header, lines := sheet(t, func(w io.Writer) error { return Spread().CSV(w, st) })
	if want := strings.Fields("result own n mean sd min p05 p25 p50 p75 p95 max percentile_error"); !slices.Equal(header, want) || len(lines) != 3 {
		t.Fatalf("%d lines of %v", len(lines), header)
	}
	for i, line := range lines {
		d := &st.Results[i]
		if line["result"] != d.Of.Name {
			t.Errorf("%s in place of %s", line["result"], d.Of.Name)
		}
		for name, v := range figuresOf(d) {
			if line[name] != cellOf(v) {
				t.Errorf("%s, %s: %s, want %v", d.Of.Name, name, line[name], v)
			}
		}
	}
}

func TestSpreadJSON(t *testing.T) {
	st := spreads(t)
	doc := document(t, func(w io.Writer) error { return Spread().JSON(w, st) })
	for name, want := range map[string]any{
		"train": "going", "runs": 20_000.0, "runs_asked": 20_001.0, "stopped": true, "seed": -7.0, "hold": "fill", "failed": float64(st.Failed), "delta_sd": st.DeltaSD,
	} {
		if doc[name] != want {
			t.Errorf("%s: %v, want %v", name, doc[name], want)
		}
	}
	wantRunJSON(t, doc["own"].(map[string]any), &st.Own)
	results := doc["results"].(map[string]any)
	for i := range st.Results {
		d := &st.Results[i]
		got := results[d.Of.Name].(map[string]any)
		for name, v := range figuresOf(d) {
			if math.IsNaN(v) && got[name] != nil || !math.IsNaN(v) && got[name] != v || len(got) != len(figuresOf(d)) {
				t.Errorf("%s, %s: %v, want %v", d.Of.Name, name, got[name], v)
			}
		}
	}
	sum := 0.0
	verdicts := doc["verdicts"].(map[string]any)
	for name, c := range map[string]rules.Code{"unjudged": rules.Unjudged, "stops": rules.Stops, "thin": rules.Thin, "suits": rules.Suits, "strong": rules.Strong, "overdriven": rules.Overdriven} {
		share := float64(st.Verdicts[c]) / float64(st.Runs-st.Failed)
		if verdicts[name] != share {
			t.Errorf("%s in %v of the runs, want %v", name, verdicts[name], share)
		}
		sum += share
	}
	inputs, failures := doc["inputs"].([]any), doc["failures"].([]any)
	if math.Abs(sum-1) > 1e-12 || len(verdicts) != 6 || len(results) != 3 || len(inputs) != 2 || len(failures) != len(st.Failures) || !strings.Contains(doc["cautions"].([]any)[0].(string), "eye protection") {
		t.Fatalf("%v, %v, %d inputs, %d failures", verdicts, doc["cautions"], len(inputs), len(failures))
	}
	for i := range st.Inputs {
		in, got := &st.Inputs[i], inputs[i].(map[string]any)
		if got["key"] != in.Quantity.Key || got["unit"] != textOrNull(in.Quantity.Unit) || got["value"] != in.Value || got["plus_minus"] != in.PlusMinus || got["shape"] != in.Shape || got["share_of_variance"] != in.Share {
			t.Errorf("%v, want %+v", got, in)
		}
	}
	for i, f := range st.Failures {
		if got := failures[i].(map[string]any); got["key"] != f.Key || got["why"] != f.Why || got["runs"] != float64(f.Runs) {
			t.Errorf("%v, want %+v", got, f)
		}
	}
	// Where none can be built no verdict has a share.
	st.Failed, st.Verdicts = st.Runs, nil
	doc = document(t, func(w io.Writer) error { return Spread().JSON(w, st) })
	if v := doc["verdicts"].(map[string]any); v["suits"] != nil || len(v) != 6 {
		t.Errorf("%v", v)
	}
}
