package readings

import (
	"context"
	"errors"
	"math"
	"testing"

	"evenpull/sim/bench/fit"
	"evenpull/sim/internal/trial"
)

// Running down the torque is proportional to the coil efficiency, so that the fit is a line
// through the origin. Each run-down alone has a slope: the value is their mean, its
// standard error their standard deviation over √3, the interval that of Student's t
// with 2 degrees of freedom, √(2·0.95²/(1 − 0.95²)) (closed forms: any text on
// regression; JCGM 100:2008, 5.1.2 for the meter's part and the sum by squares).
func TestFitHasAClosedForm(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	const key = "going.mainspring.efficiency"
	before, err := s.Value(key)
	if err != nil {
		t.Fatal(err)
	}
	r := trial.RunOf(t, s, 0)
	k := 0
	q := read(r, "going", 3, false, func(v float64) float64 {
		k++
		return (0.95+0.004*float64(k/34))*v + 0.004*math.Sin(float64(5*k*k))
	})
	for _, bound := range []float64{0, 0.02} {
		q.MeterRelative = bound
		sp := springOf(q)
		e, err := Explain(t.Context(), sp, s, []string{key})
		if err != nil {
			t.Fatal(err)
		}
		xx, xy, yy := 0.0, 0.0, 0.0 // weighted, x the torque of an efficiency of 1
		slopes := make([]float64, 3)
		n := 0
		for i, p := range PointsOf(sp) {
			x := rowAt(r, float64(p.FuseeTurn)).FuseeTorque / *before
			w := 1 / (p.SD * p.SD)
			xx, xy, yy, n = xx+w*x*x, xy+w*x*p.Measured, yy+w*p.Measured*p.Measured, n+1
			for j := range slopes {
				slopes[j] += w * x * q.RunningDown[j][i]
			}
		}
		in := e.Inputs[0]
		slope := xy / xx
		chi := (yy - slope*slope*xx) / float64(n-1)
		spread := 0.0
		for _, v := range slopes {
			spread += (v/xx - slope) * (v/xx - slope) / 2 / 3
		}
		meter := slope * bound / math.Sqrt(3)
		half := math.Hypot(math.Sqrt(2*0.95*0.95/(1-0.95*0.95)*spread), 1.96*meter)
		closeTo(t, "value", in.Value, slope, 1e-8)
		closeTo(t, "χ²", e.ChiSquarePerDOF, chi, 1e-6)
		closeTo(t, "χ² of what is left", e.After.ChiSquarePerDOF, chi, 1e-6)
		closeTo(t, "the meter's part", in.FromMeter, meter, 1e-6)
		closeTo(t, "standard error", in.StandardError, math.Sqrt(spread+meter*meter), 1e-6)
		closeTo(t, "variance", e.Covariance[0][0], spread+meter*meter, 1e-6)
		closeTo(t, "lower end", in.Interval.Lo, slope-half, 1e-6)
		closeTo(t, "upper end", in.Interval.Hi, slope+half, 1e-6)
		closeTo(t, "the meter", e.After.Meter, bound/math.Sqrt(3), 1e-12)
		closeTo(t, "rms", e.RMS, e.After.RMS, 0)
		closeTo(t, "need", e.After.Reserve.Need, r.Need.Used, 1e-12)
		closeTo(t, "mean reserve", e.After.Reserve.Mean, sp.Mean.Value/r.Need.Used, 1e-12)
		if e.Freedom != 2 || !e.FromRuns {
			t.Errorf("%d degrees of freedom", e.Freedom)
		}
		if e.Status != fit.Converged || in.Before != *before || in.Key != key || e.Train != "going" || e.Spring != "S" || e.Winding || e.Fault != nil || len(e.Apart) != 0 || e.Correlation[0][0] != 1 {
			t.Errorf("%+v", e)
		}
	}
}

// As many readings as inputs are enough for the fit, but for no error of it.
func TestAsManyReadingsAsInputs(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	q := read(trial.RunOf(t, with(t, s, "going.mainspring.thickness_mm=0.39"), 0), "going", 1, false, same)
	q.RunningDown[0] = q.RunningDown[0][:1]
	q.MeterResolutionNM = 0.001
	e, err := Explain(t.Context(), springOf(q), s, []string{"going.mainspring.thickness_mm"})
	if err != nil {
		t.Fatal(err)
	}
	closeTo(t, "thickness", e.Inputs[0].Value, 0.39, 1e-6)
	if e.Status != fit.Converged || !math.IsNaN(e.Inputs[0].StandardError) || !math.IsNaN(e.Inputs[0].Interval.Lo) || e.Freedom != 0 || !math.IsNaN(e.ChiSquarePerDOF) || !(e.RMS < 1e-9) {
		t.Errorf("%+v", e)
	}
}

// One reading more than inputs is a degree of freedom: χ² of two readings of which
// one is 2 % too high and the other as much too low (closed form: the efficiency of
// the line through the origin).
func TestOneDegreeOfFreedom(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	k := 0
	q := read(trial.RunOf(t, with(t, s, "going.mainspring.efficiency=0.9"), 0), "going", 1, false, func(v float64) float64 { k++; return v * (1 + 0.02*float64(2*(k/2%2)-1)) })
	q.RunningDown[0] = q.RunningDown[0][:2]
	q.MeterResolutionNM = 0.01
	e, err := Explain(t.Context(), springOf(q), s, []string{"going.mainspring.efficiency"})
	if err != nil {
		t.Fatal(err)
	}
	a, b := q.RunningDown[0][0]/0.98, q.RunningDown[0][1]/1.02 // of the model
	share := (0.98*a*a + 1.02*b*b) / (a*a + b*b)
	left := math.Pow((0.98-share)*a, 2) + math.Pow((1.02-share)*b, 2)
	closeTo(t, "efficiency", e.Inputs[0].Value, 0.9*share, 1e-8)
	closeTo(t, "χ²", e.ChiSquarePerDOF, left*12/(0.01*0.01), 1e-6)
	closeTo(t, "rms", e.RMS, math.Sqrt(left/2), 1e-6)
}

// A fit that cannot begin, as the run lacks a turn that was read, tells why and
// claims nothing.
func TestTurnMissing(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	lost := with(t, s, "going.mainspring.thickness_mm=0.475")
	q := read(trial.RunOf(t, s, 0), "going", 2, false, same)
	q.MeterRelative = 0.01
	e, err := Explain(t.Context(), springOf(q), lost, []string{"going.mainspring.efficiency"})
	if err != nil {
		t.Fatal(err)
	}
	if in := e.Inputs[0]; e.Status != fit.Failed || !errors.Is(e.Fault, errTurn) || !math.IsNaN(e.RMS) || !math.IsNaN(e.ChiSquarePerDOF) || e.After != nil || !math.IsNaN(in.StandardError) || in.Value != in.Before || !math.IsNaN(in.FromMeter) || !math.IsNaN(in.Interval.Hi) || !math.IsNaN(e.Covariance[0][0]) || !math.IsNaN(e.Correlation[0][0]) {
		t.Errorf("%+v", e)
	}
}

// An input that lies on its bound has no standard error, but the meter's part of it
// is that of a fit with greater readings.
func TestOnItsBound(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	q := read(trial.RunOf(t, with(t, s, "going.mainspring.efficiency=1"), 0), "going", 2, false, func(v float64) float64 { return 1.001 * v })
	q.MeterRelative = 0.01
	e, err := Explain(t.Context(), springOf(q), s, []string{"going.mainspring.efficiency", "going.mainspring.thickness_mm"})
	if err != nil {
		t.Fatal(err)
	}
	thick := e.Inputs[1]
	if len(e.Correlation) != 2 || e.Inputs[0].Value > 1 || !(thick.FromMeter > 0) || thick.StandardError < thick.FromMeter {
		t.Errorf("%+v", e)
	}
}

// Two inputs: the correlation is of one with the other, and the same both ways.
func TestCorrelation(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	k := 0
	q := read(trial.RunOf(t, s, 0), "going", 3, true, func(v float64) float64 { k++; return v + 0.004*math.Sin(float64(5*k*k)) })
	thickness, efficiency := "going.mainspring.thickness_mm", "going.mainspring.efficiency"
	one, err := Explain(t.Context(), springOf(q), s, []string{thickness, efficiency})
	if err != nil {
		t.Fatal(err)
	}
	other, err := Explain(t.Context(), springOf(q), s, []string{efficiency, thickness})
	if err != nil {
		t.Fatal(err)
	}
	c := one.Correlation
	if c[0][0] != 1 || c[1][1] != 1 || c[0][1] != c[1][0] || !(math.Abs(c[0][1]) < 1) {
		t.Errorf("%v", c)
	}
	closeTo(t, "correlation in the other order", other.Correlation[0][1], c[0][1], 1e-5)
	for i := range 2 {
		closeTo(t, "value in the other order", other.Inputs[1-i].Value, one.Inputs[i].Value, 1e-7)
		closeTo(t, "standard error in the other order", other.Inputs[1-i].StandardError, one.Inputs[i].StandardError, 1e-4)
	}
}

// The starting values are those of the scenario, also one of 0, and four inputs may
// be fitted at once.
func TestFourInputsFromZero(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	keys := []string{"going.barrel.set_up_turns", "going.mainspring.thickness_mm", "going.mainspring.efficiency", "going.barrel.arbor_diameter_mm"}
	slack := with(t, s, "going.barrel.set_up_turns=0")
	q := read(trial.RunOf(t, with(t, s, "going.barrel.set_up_turns=0.5"), 0), "going", 2, true, same)
	e, err := Explain(t.Context(), springOf(q), slack, keys)
	if err != nil || e.Status == fit.Failed || e.Inputs[0].Before != 0 || len(e.Inputs) != 4 {
		t.Fatalf("%+v, %v", e, err)
	}
	closeTo(t, "set-up", e.Inputs[0].Value, 0.5, 1e-4)
	alone, err := Explain(t.Context(), springOf(q), slack, keys[:1])
	if err != nil || alone.Status != fit.Converged {
		t.Fatalf("%+v, %v", alone, err)
	}
	closeTo(t, "set-up alone", alone.Inputs[0].Value, 0.5, 1e-7)
}

// A fit that is ended on its way tells of that and of nothing else.
func TestEndedOnTheWay(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	sp := springOf(read(trial.RunOf(t, s, 0), "going", 2, false, same))
	x, err := newExplainer(with(t, s, "going.mainspring.thickness_mm=0.4"), 0, []string{"going.mainspring.thickness_mm"})
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	if _, err := x.explain(ctx, sp); err != nil {
		t.Fatal(err)
	}
	cancel()
	if e, err := x.explain(ctx, sp); e != nil || !errors.Is(err, context.Canceled) {
		t.Errorf("%+v, %v", e, err)
	}
}
