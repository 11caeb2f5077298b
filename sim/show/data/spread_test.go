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
	"evenpull/sim/study/shares"
	"evenpull/sim/study/spread"
	"evenpull/sim/vary"
)

// spreads is a study in which some runs cannot be built, of results one of which no
// run has.
func spreads(t testing.TB, shares bool) *spread.Study {
	t.Helper()
	s, _ := trial.Compile(t, "eight-day")
	s.Tolerances = []scenario.Tolerance{
		{Key: "going.barrel.set_up_turns", PlusMinus: 8, Percent: math.NaN(), Shape: scenario.Uniform}, {Key: "going.line.efficiency", PlusMinus: 0.04, Percent: math.NaN(), Shape: scenario.Normal},
	}
	if err := s.Check(); err != nil {
		t.Fatal(err)
	}
	of, err := outcome.Several(outcome.MeanTorque, "blow_interval_s.mean", outcome.Unevenness)
	if err != nil {
		t.Fatal(err)
	}
	st, err := spread.Run(context.Background(), s, 0, spread.Options{Runs: 20_000, Seed: -7, Of: of, Hold: vary.Fill, Shares: shares})
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
		"p05": d.Quantile(0.05), "p25": d.Quantile(0.25), "p50": d.Quantile(0.5), "p75": d.Quantile(0.75), "p95": d.Quantile(0.95), "p025": d.Quantile(0.025), "p975": d.Quantile(0.975),
	}
}

func TestSpreadCSV(t *testing.T) {
	st := spreads(t, false)
	header, lines := sheet(t, func(w io.Writer) error { return Spread().CSV(w, Origin{}, st) })
	if want := strings.Fields("result own n mean sd min p05 p25 p50 p75 p95 max percentile_error p025 p975"); !slices.Equal(header, want) || len(lines) != 3 {
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
	st := spreads(t, true)
	doc := document(t, func(w io.Writer) error { return Spread().JSON(w, Origin{}, st) })
	for name, want := range map[string]any{
		"train": "going", "runs": 20_000.0, "runs_asked": 20_001.0, "stopped": true, "seed": -7.0, "hold": "fill", "failed": float64(st.Failed),
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
	if math.Abs(sum-1) > 1e-12 || len(verdicts) != 6 || len(results) != 3 || len(inputs) != len(st.Inputs) || len(failures) != len(st.Failures) || !strings.Contains(doc["cautions"].([]any)[0].(string), "eye protection") {
		t.Fatalf("%v, %v, %d inputs, %d failures", verdicts, doc["cautions"], len(inputs), len(failures))
	}
	for i := range st.Inputs {
		in, got := &st.Inputs[i], inputs[i].(map[string]any)
		e, value := in.Parts[0].Error, in.Parts[0].Value
		lo, hi := e.Around(value)
		if got["key"] != in.Key || got["unit"] != textOrNull(in.Unit) || got["values"] != float64(len(in.Parts)) || got["value"] != value || got["from"] != lo || got["to"] != hi || got["plus_minus"] != (hi-lo)/2 ||
			got["shape"] != map[bool]string{true: "uniform", false: "normal"}[e.Even()] || got["tolerance"] != in.Tolerated || got["assumed"] != in.Assumed {
			t.Errorf("%v, want %+v", got, in)
		}
		if got["first_order_share"] != in.Share.First.Value || got["first_order_error"] != in.Share.First.Error || got["total_order_share"] != in.Share.Total.Value || got["total_order_error"] != in.Share.Total.Error {
			t.Errorf("%v, want %+v", got, in.Share)
		}
	}
	wantInteraction(t, doc["interaction"], st.Shares)
	for i, f := range st.Failures {
		if got := failures[i].(map[string]any); got["key"] != f.Key || got["why"] != f.Why || got["runs"] != float64(f.Runs) {
			t.Errorf("%v, want %+v", got, f)
		}
	}
	// Where none can be built no verdict has a share, and shares that were not estimated are null.
	st.Shares, st.Inputs[0].Share = nil, shares.Unknown()
	st.Failed, st.Verdicts = st.Runs, nil
	doc = document(t, func(w io.Writer) error { return Spread().JSON(w, Origin{}, st) })
	if doc["interaction"] != nil || doc["inputs"].([]any)[0].(map[string]any)["total_order_share"] != nil {
		t.Errorf("%v", doc["interaction"])
	}
	if v := doc["verdicts"].(map[string]any); v["suits"] != nil || len(v) != 6 {
		t.Errorf("%v", v)
	}
}
