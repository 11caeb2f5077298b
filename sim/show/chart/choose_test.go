package chart

import (
	"context"
	"io"
	"math"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
	"evenpull/sim/stock"
	"evenpull/sim/study/choose"
)

func chosen(t testing.TB, s *scenario.Scenario, reserve float64) *choose.Study {
	t.Helper()
	drawer, _ := scenarios.StockText(scenarios.DefaultStock)
	list, err := stock.Read(strings.NewReader(drawer), "drawer")
	if err != nil {
		t.Fatal(err)
	}
	st, err := choose.Run(context.Background(), s, 0, list, choose.Options{Reserve: reserve, EndShake: math.NaN()})
	if err != nil {
		t.Fatal(err)
	}
	return st
}

func TestGoldenChoose(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := chosen(t, s, math.NaN())
	trial.Golden(t, "choose", func(w io.Writer, format string) error { return Choose(w, format, st) })
}

// The target is drawn as far as the run goes and no farther, since the names of the
// bands stand beyond it; and it lies about the mean that is aimed at.
func TestTargetLeavesTheNames(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := chosen(t, s, math.NaN())
	p, err := leaders(st)
	if err != nil || len(p.layers) != 1+leading+1 || !strings.HasSuffix(p.title, "A1 suits") {
		t.Fatalf("%v: %+v", err, p)
	}
	if need := p.layers[leading+1]; need.points[0].Y != 0.33 || !need.always {
		t.Errorf("the need: %+v", need)
	}
	target := runs(p.layers[0].points)
	if len(target) != 1 || len(target[0]) != 4 {
		t.Fatalf("the target: %v", target)
	}
	for i, at := range target[0] {
		above := target[0][3-i]
		if at.X != 16*float64(i%2) && i < 2 || above.X != at.X || math.Abs((at.Y+above.Y)/2-st.Target.Mean) > 1e-12 {
			t.Errorf("from %v to %v", at, above)
		}
	}
	// A target far from the lines is left out.
	if p, err = leaders(chosen(t, s, 50)); err != nil || len(p.layers) != leading+1 {
		t.Errorf("%v, %d layers", err, len(p.layers))
	}
	s.Trains[0].Line.BreakingN = 100
	if p, err = leaders(chosen(t, s, math.NaN())); err != nil || !strings.HasSuffix(p.title, "suits by its torque, but is not to be ordered") {
		t.Errorf("%v: %s", err, p.title)
	}
}
