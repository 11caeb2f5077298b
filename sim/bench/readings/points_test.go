package readings

import (
	"math"
	"testing"

	"evenpull/sim"
	"evenpull/sim/bench/book"
	"evenpull/sim/bench/measure"
	"evenpull/sim/internal/trial"
)

// The variances of the turns are pooled by their degrees of freedom (closed form:
// any text on the analysis of variance), and a mean of n readings has the root of n
// of their scatter beside the meter's step, which is rectangular (JCGM 100:2008,
// 4.3.7: half width over √3).
func TestPooled(t *testing.T) {
	nan := math.NaN()
	turns := []measure.Turn{{N: 2, SD: 0.3}, {N: 1, SD: nan}, {N: 4, SD: 0.1}, {N: 3, SD: 0.2}}
	closeTo(t, "pooled", pooled(turns), math.Sqrt((1*0.09+3*0.01+2*0.04)/6), 1e-12)
	if v := pooled([]measure.Turn{{N: 1, SD: nan}, {N: 1, SD: nan}}); !math.IsNaN(v) {
		t.Errorf("%v from single readings", v)
	}
	b := &book.Torque{RunningDown: [][]float64{{0.5, 0.61, 0.7}, {0.52, 0.6}}, WindingUp: [][]float64{{0.8, nan, 0.9}}}
	down := math.Sqrt((0.02*0.02/2 + 0.01*0.01/2) / 2) // of two readings s² is half the square of their difference
	for _, step := range []float64{0, 0.01} {
		b.MeterResolutionNM = step
		half := step / 2 / math.Sqrt(3)
		alone := half
		if step == 0 {
			alone = nan // one reading, no step: nothing tells
		}
		points := pointsOf(springOf(b))
		want := []Point{
			{0, false, 0.51, math.Hypot(down/math.Sqrt2, half), nan}, {1, false, 0.605, math.Hypot(down/math.Sqrt2, half), nan}, {2, false, 0.7, math.Hypot(down, half), nan},
			{0, true, 0.8, alone, nan}, {2, true, 0.9, alone, nan},
		}
		if len(points) != len(want) {
			t.Fatalf("%+v", points)
		}
		for i, w := range want {
			p := points[i]
			if p.FuseeTurn != w.FuseeTurn || p.Winding != w.Winding || !math.IsNaN(p.Predicted) || math.IsNaN(p.SD) != math.IsNaN(w.SD) {
				t.Errorf("%+v, want %+v", p, w)
			}
			closeTo(t, "mean", p.Measured, w.Measured, 1e-12)
			if !math.IsNaN(w.SD) {
				closeTo(t, "its uncertainty", p.SD, w.SD, 1e-12)
			}
		}
	}
}

// What is said of the residuals is of the points that have a prediction (closed
// forms).
func TestSum(t *testing.T) {
	nan := math.NaN()
	c := &Comparison{Points: []Point{{Measured: 0.5, SD: 0.1, Predicted: 0.4}, {Measured: 0.9, SD: 0.1, Predicted: nan}, {Measured: 0.6, SD: 0.2, Predicted: 0.9}}}
	c.sum()
	closeTo(t, "rms", c.RMS, math.Sqrt((0.01+0.09)/2), 1e-12)
	closeTo(t, "χ²", c.ChiSquarePerDOF, (1+2.25)/2, 1e-12)
	closeTo(t, "ratio", c.Ratio, 1.1/1.3, 1e-12)
	for _, c := range []*Comparison{{}, {Points: []Point{{Measured: 0.9, SD: 0.1, Predicted: nan}}}} {
		if c.sum(); !math.IsNaN(c.RMS) || !math.IsNaN(c.ChiSquarePerDOF) || !math.IsNaN(c.Ratio) {
			t.Errorf("%+v of nothing", c)
		}
	}
}

func TestReserve(t *testing.T) {
	b := &book.Torque{RunningDown: [][]float64{{0.6, 0.4, 0.5}}, WindingUp: [][]float64{{0.1}}}
	r := reserveOf(springOf(b).Supply, 0.25)
	closeTo(t, "need", r.Need, 0.25, 0)
	closeTo(t, "mean", r.Mean, (0.6/2+0.4+0.5/2)/2/0.25, 1e-12)
	closeTo(t, "least", r.Min, 0.4/0.25, 1e-12)
	if r := reserveOf(springOf(b).Supply, math.NaN()); !math.IsNaN(r.Mean) || !math.IsNaN(r.Min) {
		t.Errorf("%+v over a need not known", r)
	}
}

// A row is found at its own turn, up to rounding, and at no other.
func TestRowAt(t *testing.T) {
	r := &sim.Result{Rows: []sim.Row{{FuseeTurn: 0.6}, {FuseeTurn: 0.75}, {FuseeTurn: 1 + 1e-9}, {FuseeTurn: 1.25}, {FuseeTurn: 3 - 1e-9}}}
	for turn, want := range map[float64]int{0.6: 0, 1: 2, 1.25: 3, 3: 4, 0: -1, 0.5: -1, 2: -1, 4: -1, 1.251: -1, 1.249: -1} {
		got := rowAt(r, turn)
		if want < 0 && got != nil || want >= 0 && got != &r.Rows[want] {
			t.Errorf("turn %v: %+v, want row %d", turn, got, want)
		}
	}
	if rowAt(new(sim.Result), 0) != nil {
		t.Error("a row of no run")
	}
}

// Beside a scenario readings have the need that it judges by, and both ways their
// own prediction.
func TestCompareBothWays(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	r := runOf(t, s, 0)
	b := read(r, "going", 2, true, func(v float64) float64 { return 0.9 * v })
	sp := springOf(b)
	c, err := Compare(sp, s)
	if err != nil {
		t.Fatal(err)
	}
	for i := range c.Points {
		p := &c.Points[i]
		row := rowAt(r, float64(p.FuseeTurn))
		want := row.FuseeTorque
		if p.Winding {
			want = row.WindingTorque
		}
		if p.Winding != (i >= len(c.Points)/2) || p.Predicted != want || p.Residual() != p.Measured-want {
			t.Errorf("%+v, predicted %v", p, want)
		}
	}
	closeTo(t, "need", c.Reserve.Need, r.Need.Used, 1e-15)
	closeTo(t, "mean reserve", c.Reserve.Mean, sp.Mean.Value/r.Need.Used, 1e-12)
	closeTo(t, "ratio", c.Ratio, 0.9, 1e-12)
	if c.Meter != 0 {
		t.Errorf("a meter without a bound is off by %v", c.Meter)
	}
}
