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
	g, err := chooseGraph(st)
	if err != nil || len(g.Areas) != 1 || len(g.Lines) != leading || len(g.Levels) != 1 || g.Levels[0].At != 0.33 || !strings.HasSuffix(g.Title, "A1 suits") {
		t.Fatalf("%v: %+v", err, g)
	}
	for i, at := range g.Areas[0].Lower {
		if above := g.Areas[0].Upper[i]; at.X < 0 || at.X > 16 || above.X != at.X || math.Abs((at.Y+above.Y)/2-st.Target.Mean) > 1e-12 {
			t.Errorf("from %v to %v", at, above)
		}
	}
	// A target far from the lines is left out.
	if g, err = chooseGraph(chosen(t, s, 50)); err != nil || len(g.Areas) > 0 {
		t.Errorf("%v, %d areas", err, len(g.Areas))
	}
	s.Trains[0].Line.BreakingN = 100
	if g, err = chooseGraph(chosen(t, s, math.NaN())); err != nil || !strings.HasSuffix(g.Title, "suits by its torque, but is not to be ordered") {
		t.Errorf("%v: %s", err, g.Title)
	}
}
