package chart

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
	"evenpull/sim/study/spread"
)

func spreadOf(t testing.TB, runs int, names ...string) *spread.Study {
	t.Helper()
	s, _ := trial.Compile(t, "eight-day")
	of, err := outcome.Several(names...)
	if err != nil {
		t.Fatal(err)
	}
	st, err := spread.Run(context.Background(), s, 0, spread.Options{Runs: runs, Seed: 1, Of: of})
	if err != nil {
		t.Fatal(err)
	}
	return st
}

func spreadDrawn(st *spread.Study) func(io.Writer, string) error {
	return func(w io.Writer, format string) error { return Spread(w, format, st) }
}

func TestGoldenSpread(t *testing.T) {
	trial.Golden(t, "spread", spreadDrawn(spreadOf(t, 10_000)))
}

// What is asked for is drawn; a result of one value only, and one that no run has.
func TestSpreadPictures(t *testing.T) {
	few := string(trial.Picture(t, "svg", spreadDrawn(spreadOf(t, 50, outcome.Unevenness, "runtime_h", "blow_interval_s.mean"))))
	if !strings.Contains(few, "unevenness") || !strings.Contains(few, "running time, h") || strings.Contains(few, "blow to blow") || strings.Contains(few, "NaN") {
		t.Error("a wrong picture")
	}
	wantInPicture(t, spreadDrawn(spreadOf(t, 50, "blow_interval_s.mean")), "no run has any of the results")
	many := string(trial.Picture(t, "svg", spreadDrawn(spreadOf(t, 50, outcome.Unevenness, "runtime_h", outcome.MostTorque, outcome.MeanTorque, outcome.LeastReserve))))
	if strings.Contains(many, "unevenness") || !strings.Contains(many, "mean torque") || !strings.Contains(many, "least reserve") {
		t.Error("of many results others are drawn than the main ones")
	}
}

// Twice the cube root of the runs, from 8 to 60.
func TestBarsFor(t *testing.T) {
	for runs, want := range map[int]int{1: 8, 64: 8, 125: 10, 1000: 20, 27_000: 60, 1_000_000: 60} {
		if got := barsFor(runs); got != want {
			t.Errorf("%d bars for %d runs, want %d", got, runs, want)
		}
	}
}

// Of a share all is in percent; the least reserve is shaded by the bands of the
// scenario, from its least value to its greatest.
func TestSpreadGraphs(t *testing.T) {
	st := spreadOf(t, 1000, outcome.LeastReserve, outcome.Unevenness)
	d := &st.Results[1]
	h, c := histogram(st, d), cumulative(st, d)
	lo, hi := d.Range()
	sum := 0.0
	for _, b := range h.Bars {
		sum += b.Height
	}
	last := c.Lines[0].Points[len(c.Lines[0].Points)-1]
	if len(h.Bars) != 20 || math.Abs(sum-100) > 1e-9 || h.Bars[0].From != 100*lo || math.Abs(h.Bars[19].To-100*hi) > 1e-9 || h.From != 100*lo || h.To != 100*hi || c.To != h.To ||
		c.Lines[0].Points[0].X != 100*lo || last.X != 100*hi || last.Y != 100 || len(h.Stripes) != 0 || c.Levels[0].At != 50 || !c.Low || h.Low {
		t.Errorf("%+v, %+v", h, c)
	}
	if u := h.Uprights; len(u) != 3 || u[0].At != 100*d.Quantile(0.05) || u[1].At != 100*d.Quantile(0.95) || u[2].At != 100*d.Own || u[1].Label != "" {
		t.Errorf("%+v", u)
	}
	d = &st.Results[0]
	lo, hi = d.Range()
	if s := histogram(st, d).Stripes; len(s) != 3 || s[0] != (Shade{From: -inf, To: 1, Code: rules.Stops}) || s[1] != (Shade{From: 1, To: 1.15, Code: rules.Thin}) || s[2] != (Shade{From: 1.15, To: inf, Code: rules.Suits, Name: "enough"}) {
		t.Errorf("from %v to %v: %+v", lo, hi, s)
	}
	for name, want := range map[string]bool{"stops": false, "thin": true, "enough": true} { // from 1 on nothing stops
		there := slices.ContainsFunc(levelTexts(t, histogram(st, d)), func(w word) bool { return w.text == name })
		if there != want || lo <= 1 {
			t.Errorf("%s is named: %v; least reserves from %v", name, there, lo)
		}
	}
	st.Own.Standard.Basis = rules.ByBand
	if s := histogram(st, d).Stripes; len(s) != 0 {
		t.Errorf("judged by the torques liked: %+v", s)
	}
}
