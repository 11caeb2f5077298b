package fit

import (
	"errors"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"
)

var inf = math.Inf(1)

// fenced fails the test when a model is asked outside its bounds.
func fenced(t testing.TB, p Problem) Problem {
	predict := p.Predict
	p.Predict = func(b, f []float64) error {
		for k, x := range b {
			if lo, hi := p.bounds(k); !(lo <= x && x <= hi) {
				t.Errorf("parameter %d asked at %v, outside %v to %v", k+1, x, lo, hi)
			}
		}
		return predict(b, f)
	}
	return p
}

// With the slope of a line held at a bound, the intercept is ȳ − slope·x̄ and its
// error s/√n (closed form).
func TestBounds(t *testing.T) {
	n, sumX, sumY := float64(len(lineX)), 0.0, 0.0
	for i := range lineX {
		sumX, sumY = sumX+lineX[i], sumY+lineY[i]
	}
	for _, c := range []struct {
		lo, hi, start, ends float64
	}{
		{-inf, 1.5, 0, 1.5}, {-inf, 1.5, 1.5, 1.5}, {1.5 - 1e-13, 1.5, 1.5, 1.5}, {2.5, inf, 4, 2.5}, {2.5, 3, 2.5, 2.5}, {2.5, 3, 3, 2.5},
	} {
		r := mustSolve(t, fenced(t, Problem{
			Predict: over(lineX, line), Y: lineY, Start: []float64{3, c.start}, Lo: []float64{-inf, c.lo}, Hi: []float64{inf, c.hi},
		}))
		if r.Status != AtBound || r.B[1] != c.ends || !math.IsNaN(r.StandardError[1]) || !math.IsNaN(r.Covariance.At(0, 1)) {
			t.Errorf("%+v: %v, %v ± %v", c, r.Status, r.B, r.StandardError)
		}
		closeTo(t, "intercept", r.B[0], sumY/n-c.ends*sumX/n, 1e-9)
		closeTo(t, "its error", r.StandardError[0], math.Sqrt(r.ChiSquarePerDOF/n), 1e-8)
	}
	// Bounds that the optimum keeps to change nothing, wherever it begins.
	free := mustSolve(t, Problem{Predict: over(lineX, line), Y: lineY, Start: []float64{3, 0}})
	for _, start := range [][]float64{{0, 0}, {0, 3}, {4, 0}, {4, 3}} {
		r := mustSolve(t, fenced(t, Problem{Predict: over(lineX, line), Y: lineY, Start: start, Lo: []float64{0, 0}, Hi: []float64{4, 3}}))
		if r.Status != Converged {
			t.Errorf("from %v: %v", start, r.Status)
		}
		closeTo(t, "slope", r.B[1], free.B[1], 1e-9)
		closeTo(t, "its error", r.StandardError[1], free.StandardError[1], 1e-7)
	}
	// Both on their bounds.
	r := mustSolve(t, fenced(t, Problem{Predict: over(lineX, line), Y: lineY, Start: []float64{0, 0}, Hi: []float64{0.5, 0.5}}))
	if r.Status != AtBound || r.B[0] != 0.5 || r.B[1] != 0.5 {
		t.Errorf("%v at %v", r.Status, r.B)
	}
}

var errRegion = errors.New("not there")

// A step to where the model cannot be evaluated is shortened: ln(b0 + x) from a
// start that a full step would leave for b0 < 0; without an error, as NaN, too.
func TestRegion(t *testing.T) {
	x, y := []float64{0, 1, 2, 3, 4}, make([]float64, 5)
	for i := range x {
		y[i] = math.Log(0.01 + x[i])
	}
	refused := 0
	f := over(x, func(b []float64, x float64) float64 { return math.Log(b[0] + x) })
	for _, predict := range []func(b, f []float64) error{f, func(b, y []float64) error {
		if b[0] <= 0 {
			refused++
			return errRegion
		}
		return f(b, y)
	}} {
		r := mustSolve(t, Problem{Predict: predict, Y: y, Start: []float64{30}})
		if r.Status != Converged {
			t.Errorf("%v", r.Status)
		}
		closeTo(t, "parameter", r.B[0], 0.01, 1e-9)
	}
	if refused == 0 {
		t.Error("no step went where the model cannot be evaluated")
	}
	// Beside the edge the differences go to one side.
	edge := func(side float64) func(b, f []float64) error {
		return func(b, f []float64) error {
			if side*(b[0]-2) < 0 {
				return errRegion
			}
			return over(x, func(b []float64, x float64) float64 { return math.Exp(b[0] * x / 4) })(b, f)
		}
	}
	for i := range y {
		y[i] = math.Exp(2 * x[i] / 4)
	}
	for _, side := range []float64{-1, 1} {
		r := mustSolve(t, Problem{Predict: edge(side), Y: y, SD: []float64{1, 1, 1, 1, 1}, Start: []float64{2}})
		sum := 0.0
		for _, x := range x {
			sum += math.Pow(x/4*math.Exp(x/2), 2)
		}
		if r.Status != Converged {
			t.Errorf("side %v: %v, %v", side, r.Status, r.Fault)
		}
		closeTo(t, "error from one-sided differences", r.StandardError[0], 1/math.Sqrt(sum), 1e-6)
	}
}

// What cannot be evaluated or differentiated, or does not end, says so.
func TestNoFit(t *testing.T) {
	bad := func([]float64, []float64) error { return errRegion }
	nan := func(_, f []float64) error { fill(f, math.NaN()); return nil }
	huge := func(_, f []float64) error { fill(f, 1e200); return nil }
	point := func(b, f []float64) error {
		if b[0] != 1 {
			return errRegion
		}
		return nil
	}
	y := []float64{1, 2, 3}
	for what, c := range map[string]struct {
		Problem
		fault string
	}{
		"error":          {Problem{Predict: bad}, "not there"},
		"NaN":            {Problem{Predict: nan}, "the prediction of reading 1 is NaN"},
		"overflow":       {Problem{Predict: huge}, "the sum of squares is +Inf"},
		"a point":        {Problem{Predict: point}, "not there"},
		"no room":        {Problem{Predict: over(y, line), Lo: []float64{1, 0}, Hi: []float64{1 + 0x1p-52, 2}}, "parameter 1 cannot be changed from 1"},
		"derivative":     {Problem{Predict: over(y, line), Jacobian: func([]float64, *mat.Dense) error { return errRegion }}, "not there"},
		"NaN derivative": {Problem{Predict: over(y, line), Jacobian: func(_ []float64, j *mat.Dense) error { j.Set(1, 1, math.NaN()); return nil }}, "the derivatives by parameter 2 have the length NaN"},
	} {
		p := c.Problem
		p.Y, p.Start = y, []float64{1, 1}
		r := mustSolve(t, p)
		if r.Status != Failed || r.Fault == nil || !strings.Contains(r.Fault.Error(), c.fault) || !math.IsNaN(r.StandardError[0]) || !math.IsNaN(r.Correlation.At(0, 1)) || r.B[0] != 1 {
			t.Errorf("%s: %+v", what, r)
		}
		if began := what != "error" && what != "NaN" && what != "overflow"; math.IsNaN(r.RSS) == began || math.IsNaN(r.ChiSquare) == began {
			t.Errorf("%s: sums of squares %v and %v", what, r.RSS, r.ChiSquare)
		}
	}
	// e^(−b) comes ever nearer to 0.
	r := mustSolve(t, Problem{Predict: over([]float64{1}, func(b []float64, x float64) float64 { return math.Exp(-b[0] * x) }), Y: []float64{0}, Start: []float64{1}})
	if r.Status != NotConverged || r.Iterations != maxIterations {
		t.Errorf("%v after %d steps", r.Status, r.Iterations)
	}
	// Derivatives of the wrong sign lead up.
	r = mustSolve(t, Problem{Predict: over(y, func(b []float64, x float64) float64 { return b[0] * x }), Y: []float64{2, 3, 4}, Start: []float64{1},
		Jacobian: func(_ []float64, j *mat.Dense) error { j.SetCol(0, []float64{-1, -2, -3}); return nil }})
	if r.Status != NotConverged || r.B[0] != 1 || r.Iterations != 0 {
		t.Errorf("%v at %v after %d steps", r.Status, r.B, r.Iterations)
	}
	// The error is that of the straight model all the same: the residuals are 1 each,
	// and s² is 3/2, over Σx² = 14 (closed form).
	closeTo(t, "its error", r.StandardError[0], math.Sqrt(1.5/14), 1e-12)
	// Beyond what a step can reach there is no number.
	r = mustSolve(t, Problem{Predict: over([]float64{1}, func(b []float64, x float64) float64 { return 1e-300 * b[0] }), Y: []float64{1e100}, Start: []float64{1}})
	if r.Status == Converged {
		t.Errorf("%v at %v", r.Status, r.B)
	}
}
