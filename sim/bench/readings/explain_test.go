package readings

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"evenpull/sim/bench/fit"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
)

// What cannot be told apart is told, and so is an end of a range.
func TestExplainWarns(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	r := trial.RunOf(t, s, 0)
	down, both := springOf(read(r, "going", 2, false, same)), springOf(read(r, "going", 2, true, same))
	explained := func(sp Spring, keys ...string) *Explanation {
		t.Helper()
		e, err := Explain(t.Context(), sp, s, keys)
		if err != nil {
			t.Fatal(err)
		}
		return e
	}
	if e := explained(down, "going.mainspring.width_mm", "going.mainspring.efficiency"); e.Winding || e.Status == fit.Converged && !(math.Abs(e.Correlation[0][1]) > 0.999) {
		t.Errorf("%+v", e)
	}
	if e := explained(both, "going.mainspring.width_mm"); !e.Winding {
		t.Error("winding was read")
	}
	if e := explained(down, "going.mainspring.width_mm", "going.mainspring.thickness_mm"); len(e.Apart) != 1 {
		t.Errorf("width and thickness: %+v", e)
	}
	// Twice the torque cannot come from an efficiency.
	twice := springOf(read(r, "going", 2, false, func(v float64) float64 { return 2 * v }))
	if e := explained(twice, "going.mainspring.efficiency"); e.Status != fit.AtBound || e.Inputs[0].Value != 1 || !math.IsNaN(e.Inputs[0].StandardError) {
		t.Errorf("%+v", e)
	}
	// What the torque does not depend on stays open.
	if e := explained(down, "going.pendulum.mass_g"); e.Status != fit.Singular || !math.IsNaN(e.Inputs[0].StandardError) {
		t.Errorf("%v", e.Status)
	}
	rough := read(r, "going", 3, false, same)
	for i := range rough.RunningDown {
		for k := range rough.RunningDown[i] {
			rough.RunningDown[i][k] += 0.002*float64(i) + 0.001*math.Cos(float64(7*i*k)) + 0.03*math.Sin(float64(k))
		}
	}
	if e := explained(springOf(rough), "going.mainspring.thickness_mm"); !(e.ChiSquarePerDOF > 4) {
		t.Errorf("χ² %v", e.ChiSquarePerDOF)
	}
}

// A fit ends with its context.
func TestEndEarly(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	sp := springOf(read(trial.RunOf(t, s, 0), "going", 2, false, same))
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := Explain(ctx, sp, s, []string{"going.mainspring.thickness_mm"}); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

func TestExplainRefuses(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	sp := springOf(read(trial.RunOf(t, s, 0), "going", 2, false, same))
	thickness := "going.mainspring.thickness_mm"
	for _, c := range []struct {
		keys []string
		want error
	}{
		{nil, ErrInputs}, {[]string{thickness, thickness}, ErrInputs}, {make([]string, 5), ErrInputs},
	} {
		if _, err := Explain(t.Context(), sp, s, c.keys); !errors.Is(err, c.want) {
			t.Errorf("%v: %v", c.keys, err)
		}
	}
	var f scenario.Fault
	if _, err := Explain(t.Context(), sp, s, []string{"going.mainspring.thicknes_mm"}); !errors.As(err, &f) {
		t.Errorf("%v", err)
	}
	few := read(trial.RunOf(t, s, 0), "going", 1, false, same)
	few.RunningDown[0] = few.RunningDown[0][:1]
	if _, err := Explain(t.Context(), springOf(few), s, []string{thickness, "going.mainspring.efficiency"}); !errors.Is(err, ErrFew) {
		t.Errorf("%v", err)
	}
	lost := sp
	supply := *sp.Supply
	lost.Supply = &supply
	lost.Train = "chimes"
	var none *scenario.NoTrainError
	if e, err := Explain(t.Context(), lost, s, []string{thickness}); e != nil || !errors.As(err, &none) {
		t.Errorf("%v, %v", e, err)
	}
	broken := with(t, s)
	broken.Trains[0].Barrel.ArborDiameterMM = broken.Trains[0].Barrel.InsideDiameterMM - 1
	if e, err := Explain(t.Context(), sp, broken, []string{thickness}); e != nil || err == nil {
		t.Errorf("%v, %v", e, err)
	}
	if c, err := Compare(sp, broken); c != nil || err == nil {
		t.Errorf("%v, %v", c, err)
	}
	three, _ := trial.Compile(t, "three-trains")
	if _, err := Explain(t.Context(), sp, three, []string{"striking.mainspring.thickness_mm"}); !errors.Is(err, ErrInputs) || !strings.Contains(err.Error(), "no quantity of the train going") {
		t.Errorf("%v", err)
	}
	// One repeat without a meter's step: the standard error comes from the residuals.
	one := read(trial.RunOf(t, s, 0), "going", 1, false, func(v float64) float64 { return math.Round(v*100) / 100 })
	e, err := Explain(t.Context(), springOf(one), s, []string{thickness})
	if err != nil || !(e.Inputs[0].StandardError > 0) || !math.IsNaN(e.ChiSquarePerDOF) {
		t.Errorf("%+v, %v", e, err)
	}
}

// BenchmarkExplain is three inputs fitted to 17 turns of three repeats, a meter's
// bound with them.
func BenchmarkExplain(b *testing.B) {
	s, _ := trial.Compile(b, "eight-day")
	k := 0
	q := read(trial.RunOf(b, s, 0), "going", 3, false, func(v float64) float64 { k++; return v * (1 + 0.003*math.Sin(float64(7*k))) })
	q.MeterRelative = 0.01
	sp := springOf(q)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Explain(b.Context(), sp, s, []string{"going.mainspring.thickness_mm", "going.mainspring.efficiency", "going.barrel.set_up_turns"}); err != nil {
			b.Fatal(err)
		}
	}
}
