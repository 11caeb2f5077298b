package readings

import (
	"math"
	"testing"

	"evenpull/sim"
	"evenpull/sim/bench/book"
	"evenpull/sim/internal/trial"
)

// Scatter is clear of how repeats differ as wholes (closed form: of two repeats it is
// that of their differences, over √2), and a mean of n readings has the root of n of it
// beside the meter's step, which is rectangular (JCGM 100:2008, 4.3.7: half width
// over √3).
func TestPointsOf(t *testing.T) {
	nan := math.NaN()
	b := &book.Torque{RunningDown: [][]float64{{0.5, 0.61}, {0.52, 0.6}}, WindingUp: [][]float64{{0.8, nan, 0.9}, {0.82, 0.85}, {0.84}}}
	down := math.Sqrt((0.015*0.015 + 0.015*0.015) / 2) // differences −0.02 and 0.01, less their mean
	for _, step := range []float64{0, 0.01} {
		b.MeterResolutionNM = step
		half := step / 2 / math.Sqrt(3)
		exact := half
		if step == 0 {
			exact = nan // no scatter, no step: nothing tells
		}
		points := PointsOf(springOf(b))
		want := []Point{
			{FuseeTurn: 0, Measured: 0.51, SD: math.Hypot(down/math.Sqrt2, half), along: 0, level: 0.5575},
			{FuseeTurn: 1, Measured: 0.605, SD: math.Hypot(down/math.Sqrt2, half), along: 1, level: 0.5575},
			// Winding the repeats read −0.02, 0 and 0.02 off their mean.
			{FuseeTurn: 0, Winding: true, Measured: 0.82, SD: exact, along: 0, level: 0.86},
			{FuseeTurn: 1, Winding: true, Measured: 0.85, SD: exact, along: 0.5, level: 0.86},
			{FuseeTurn: 2, Winding: true, Measured: 0.92, SD: exact, along: 1, level: 0.86},
		}
		if len(points) != len(want) {
			t.Fatalf("%+v", points)
		}
		for i, w := range want {
			p := points[i]
			if p.FuseeTurn != w.FuseeTurn || p.Winding != w.Winding || !math.IsNaN(p.Predicted) || math.IsNaN(p.SD) != math.IsNaN(w.SD) || p.along != w.along {
				t.Errorf("%+v, want %+v", p, w)
			}
			closeTo(t, "mean", p.Measured, w.Measured, 1e-9)
			closeTo(t, "level", p.level, w.level, 1e-9)
			if !math.IsNaN(w.SD) {
				closeTo(t, "its uncertainty", p.SD, w.SD, 1e-9)
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

// With a share common to all readings of a way χ² is dᵀV⁻¹d of their full covariance,
// which is SD² in the diagonal and (u·level)² in all places (closed form: of two
// residuals d and e with the variance s and the covariance c, (s(d² + e²) − 2cde)/(s² −
// c²)). Winding has a share of its own.
func TestCommonShare(t *testing.T) {
	c := &Comparison{common: [2]float64{0.2, 0.1}, Points: []Point{
		{Measured: 0.5, SD: 0.1, Predicted: 0.4, level: 0.5}, {Measured: 0.7, SD: 0.1, Predicted: 0.4, level: 0.5},
		{Winding: true, Measured: 0.8, SD: 0.2, Predicted: 0.7, level: 3}, {Winding: true, Measured: 0.7, SD: 0.2, Predicted: 0.9, level: 3},
	}}
	chi := func(d, e, sd, common float64) float64 {
		s, c := sd*sd+common*common, common*common
		return (s*(d*d+e*e) - 2*c*d*e) / (s*s - c*c)
	}
	c.sum()
	closeTo(t, "χ²", c.ChiSquarePerDOF, (chi(0.1, 0.3, 0.1, 0.2*0.5)+chi(0.1, -0.2, 0.2, 0.1*3))/4, 1e-12)
	// It is what run-downs differ by over the root of their number.
	s, _ := trial.Compile(t, "eight-day")
	k := 0
	sp := springOf(read(trial.RunOf(t, s, 0), "going", 4, false, func(v float64) float64 { k++; return v * (1 + 0.01*float64((k-1)/34)) }))
	read, err := Compare(sp, s)
	if err != nil {
		t.Fatal(err)
	}
	closeTo(t, "running down", read.common[0], sp.Mean.Between/2, 1e-12)
	closeTo(t, "winding, which was not read", read.common[1], sp.Mean.Between, 1e-12)
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
	r := trial.RunOf(t, s, 0)
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

// rowAt is the row of a run at a turn; nil where it has none there.
func rowAt(r *sim.Result, turn float64) *sim.Row {
	a, b, _ := rowsAt(r, turn)
	if a != b {
		return nil
	}
	return a
}
