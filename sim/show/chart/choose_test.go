package chart

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
	"evenpull/sim/stock"
	"evenpull/sim/study/choose"

	"gonum.org/v1/plot/plotter"
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
	trial.Golden(t, "choose", usual(Choose, st))
}

// The target is drawn as far as the run goes and no farther, since the names of the
// bands stand beyond it; and it is the mean that is aimed at.
func TestTargetLeavesTheNames(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := chosen(t, s, math.NaN())
	p, err := leaders(st)
	if err != nil || !strings.Contains(p.finding, "nothing needs to be ordered; A1 SUITS") {
		t.Fatalf("%v: %+v", err, p)
	}
	if need := p.layers[len(p.layers)-1]; need.points[0].Y != 0.33 || !need.always {
		t.Errorf("the need: %+v", need)
	}
	target := p.layers[0]
	if want := (plotter.XYs{{X: 0, Y: st.Target.Mean}, {X: 16, Y: st.Target.Mean}}); !slices.Equal(target.points, want) || target.label != "mean aimed at" {
		t.Errorf("the target: %+v, want %v", target, want)
	}
	// A target far from the lines is left out.
	if p, err = leaders(chosen(t, s, 50)); err != nil || p.layers[0].label != "the present spring" {
		t.Errorf("%v, %d layers", err, len(p.layers))
	}
	s.Trains[0].Line.BreakingN = 100
	if p, err = leaders(chosen(t, s, math.NaN())); err != nil || !strings.Contains(p.finding, "by its torque, but") {
		t.Errorf("%v: %s", err, p.finding)
	}
}
