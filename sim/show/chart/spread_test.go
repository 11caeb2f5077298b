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
	"evenpull/sim/show/canvas/seen"
	"evenpull/sim/study/shares"
	"evenpull/sim/study/spread"

	"gonum.org/v1/plot/vg/draw"
)

func spreadOf(t testing.TB, runs int, names ...string) *spread.Study {
	t.Helper()
	s, _ := trial.Compile(t, "eight-day")
	of, err := outcome.Several(names...)
	if err != nil {
		t.Fatal(err)
	}
	st, err := spread.Run(context.Background(), s, 0, spread.Options{Runs: runs, Seed: 1, Of: of, Shares: runs == 10_000})
	if err != nil {
		t.Fatal(err)
	}
	return st
}

func spreadDrawn(st *spread.Study) func(io.Writer, string) error {
	return usual(Spread, st)
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
	for _, b := range h.layers[:20] {
		if len(b.points) > 0 { // else nothing came up
			sum += b.points[2].Y
		}
	}
	steps := c.layers[0].points
	last := steps[len(steps)-1]
	if len(h.layers) != 24 || math.Abs(sum-100) > 1e-9 || h.layers[0].points[0].X != 100*lo || math.Abs(h.layers[19].points[1].X-100*hi) > 1e-9 || h.xs != ext(100*lo, 100*hi) || c.xs != h.xs ||
		steps[0].X != 100*lo || last.X != 100*hi || last.Y != 100 || len(h.stripes) != 0 || c.layers[1].points[0].Y != 50 || c.height != lowPlot || h.height != 0 || !h.floor {
		t.Errorf("%+v, %+v", h, c)
	}
	for i, want := range []float64{d.Quantile(0.025), d.Quantile(0.975), d.Own} {
		if u := h.layers[20+i]; u.points[0].X != 100*want || (u.label == "") != (i == 1) || u.line.Width != []draw.LineStyle{limits[0], nowLine}[i/2].Width {
			t.Errorf("%+v, want %v", u, want)
		}
	}
	d = &st.Results[0]
	lo, hi = d.Range()
	if s := histogram(st, d).stripes; len(s) != 3 || s[0] != judged(rules.Stops, -inf, 1) || s[1] != judged(rules.Thin, 1, 1.15) || s[2].Interval != ext(1.15, inf) || s[2].tint != tints[rules.Suits] {
		t.Errorf("from %v to %v: %+v", lo, hi, s)
	}
	for name, want := range map[string]bool{"stops": true, "thin": true, "strong": false, "enough": true} {
		there := slices.ContainsFunc(labels(t, histogram(st, d)), func(w seen.Label) bool { return w.Words == name })
		if there != want || lo >= 1 {
			t.Errorf("%s is named: %v; least reserves from %v", name, there, lo)
		}
	}
	st.Own.Standard.Basis = rules.ByBand
	if s := histogram(st, d).stripes; len(s) != 0 {
		t.Errorf("judged by the torques liked: %+v", s)
	}
}

// The shares are drawn in the order of the inputs, in percent, alone above and in all
// below; what has none is left out, and nothing is drawn where there are none.
func TestSpreadShares(t *testing.T) {
	st := spreadOf(t, 50, outcome.LeastReserve)
	if st.Shares != nil || strings.Contains(string(trial.Picture(t, "svg", spreadDrawn(st))), "what varies") {
		t.Error("shares that were not asked for")
	}
	st.Shares = new(shares.Result)
	st.Inputs = st.Inputs[:3]
	for i, total := range []float64{0.6, 0.3, 0.0049} {
		st.Inputs[i].Share.First.Value, st.Inputs[i].Share.Total.Value = total-0.35, total
	}
	p := shared(st)
	if p.finding != "going train: what varies the least reserve" || p.x != "share of how far it may be off, %" || len(p.rows) != 2 || p.rows[0].Label != "width of the mainspring ±\u00a00.1\u00a0mm" || p.rows[1].Label != "thickness of the mainspring ±\u00a00.01\u00a0mm" {
		t.Fatalf("%+v", p)
	}
	for i, want := range [][2]float64{{25, 60}, {0, 30}} { // behind the two entries of the legend
		for side, v := range want {
			if got := p.layers[2+2*i+side].points[1].X; math.Abs(got-v) > 1e-9 {
				t.Errorf("bar %d, side %d: %v, want %v", i, side, got, v)
			}
		}
	}
	wantInPicture(t, spreadDrawn(st), "what varies the least reserve")
}
