package fit

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
)

var (
	lineX  = []float64{0, 1, 2, 3, 4, 6}
	lineY  = []float64{1.1, 2.9, 5.2, 6.8, 9.1, 12.7}
	lineSD = []float64{0.1, 0.2, 0.1, 0.3, 0.2, 0.1}
)

// The weighted straight line in closed form (P. R. Bevington, Data Reduction and
// Error Analysis, from memory): with Δ = Σw Σwx² − (Σwx)², the intercept is
// (Σwx² Σwy − Σwx Σwxy)/Δ, the slope (Σw Σwxy − Σwx Σwy)/Δ, their variances
// Σwx²/Δ and Σw/Δ, and their covariance −Σwx/Δ.
func TestWeightedLine(t *testing.T) {
	var w, wx, wy, wxx, wxy, chi, rss float64
	for i, x := range lineX {
		u := 1 / (lineSD[i] * lineSD[i])
		w, wx, wy, wxx, wxy = w+u, wx+u*x, wy+u*lineY[i], wxx+u*x*x, wxy+u*x*lineY[i]
	}
	delta := w*wxx - wx*wx
	a, b := (wxx*wy-wx*wxy)/delta, (w*wxy-wx*wy)/delta
	for i, x := range lineX {
		d := lineY[i] - a - b*x
		rss, chi = rss+d*d, chi+d*d/(lineSD[i]*lineSD[i])
	}
	r := mustSolve(t, Problem{Predict: over(lineX, line), Y: lineY, SD: lineSD, Start: []float64{5, -3}})
	if r.Status != Converged || r.DegreesOfFreedom != 4 {
		t.Errorf("%v with %d degrees of freedom", r.Status, r.DegreesOfFreedom)
	}
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"intercept", r.B[0], a},
		{"slope", r.B[1], b},
		{"error of the intercept", r.StandardError[0], math.Sqrt(wxx / delta)},
		{"error of the slope", r.StandardError[1], math.Sqrt(w / delta)},
		{"covariance", r.Covariance.At(0, 1), -wx / delta},
		{"variance", r.Covariance.At(1, 1), w / delta},
		{"correlation", r.Correlation.At(0, 1), -wx / math.Sqrt(w*wxx)},
		{"correlation with itself", r.Correlation.At(1, 1), 1},
		{"chi square", r.ChiSquare, chi},
		{"chi square over 4", r.ChiSquarePerDOF, chi / 4},
		{"sum of squares", r.RSS, rss},
		{"residual deviation", r.ResidualSD, math.Sqrt(rss / 4)},
	} {
		closeTo(t, c.what, c.got, c.want, 1e-9)
	}
	// Weights known up to a factor give the errors of the residuals instead.
	weights := make([]float64, len(lineSD))
	for i, sd := range lineSD {
		weights[i] = 3 / (sd * sd)
	}
	la, lb, las, lbs, _, err := Linear(lineX, lineY, weights)
	if err != nil {
		t.Fatal(err)
	}
	closeTo(t, "intercept of the line", la, a, 1e-12)
	closeTo(t, "slope of the line", lb, b, 1e-12)
	closeTo(t, "its errors", las, math.Sqrt(wxx/delta*chi/4), 1e-12)
	closeTo(t, "its errors", lbs, math.Sqrt(w/delta*chi/4), 1e-12)
}

// A mean is the fit of a constant: its error is s/√n (closed form).
func TestMean(t *testing.T) {
	y := []float64{2, 4, 4, 4, 5, 5, 7, 9}
	constant := func(b, f []float64) error { fill(f, b[0]); return nil }
	r := mustSolve(t, Problem{Predict: constant, Y: y, Start: []float64{0}})
	closeTo(t, "mean", r.B[0], 5, 1e-10)
	closeTo(t, "standard deviation", r.ResidualSD, math.Sqrt(32.0/7), 1e-12)
	closeTo(t, "error of the mean", r.StandardError[0], math.Sqrt(32.0/7/8), 1e-9)
	closeTo(t, "chi square without deviations", r.ChiSquare, 32, 1e-12)
	// With deviations given the error is theirs, whatever the residuals.
	sd := make([]float64, len(y))
	fill(sd, 0.5)
	r = mustSolve(t, Problem{Predict: constant, Y: y, SD: sd, Start: []float64{0}})
	closeTo(t, "error from the deviations", r.StandardError[0], 0.5/math.Sqrt(8), 1e-9)
	closeTo(t, "chi square", r.ChiSquare, 128, 1e-12)
}

// dying is an oscillation that dies away, as of a pendulum left alone.
func dying(b []float64, x float64) float64 { return b[0]*math.Exp(-b[1]*x)*math.Cos(b[2]*x) + b[3] }

var dyingTruth = []float64{3, 0.2, 1.5, 0.7}

func dyingData(n int) (x, y []float64) {
	for i := range n {
		x = append(x, 10*float64(i)/float64(n-1))
		y = append(y, dying(dyingTruth, x[i]))
	}
	return x, y
}

// Exact readings give the exact parameters, also where there are no more of them
// than parameters; then nothing can be said of their scatter.
func TestExact(t *testing.T) {
	for _, n := range []int{4, 5, 40} {
		x, y := dyingData(n)
		r := mustSolve(t, Problem{Predict: over(x, dying), Y: y, Start: []float64{2.7, 0.25, 1.45, 0.5}})
		if r.Status != Converged {
			t.Errorf("%d readings: %v", n, r.Status)
		}
		for k, want := range dyingTruth {
			closeTo(t, "parameter", r.B[k], want, 1e-10)
		}
		if unknown := n == 4; math.IsNaN(r.StandardError[0]) != unknown || math.IsNaN(r.ChiSquarePerDOF) != unknown || math.IsNaN(r.ResidualSD) != unknown {
			t.Errorf("%d readings: errors %v, chi square over degrees of freedom %v", n, r.StandardError, r.ChiSquarePerDOF)
		}
		if math.IsNaN(r.Correlation.At(0, 1)) {
			t.Errorf("%d readings: no correlation", n)
		}
	}
	// With deviations given there are errors without a degree of freedom.
	r := mustSolve(t, Problem{Predict: over(lineX[:2], line), Y: lineY[:2], SD: lineSD[:2], Start: []float64{0, 0}})
	closeTo(t, "intercept", r.B[0], 1.1, 1e-9)
	closeTo(t, "its error", r.StandardError[0], 0.1, 1e-9)
	if r.DegreesOfFreedom != 0 || !math.IsNaN(r.ChiSquarePerDOF) {
		t.Errorf("%+v", r)
	}
}

func noisy(seed uint64, n int, sd float64) (x, y []float64) {
	x, y = dyingData(n)
	random := rand.New(rand.NewPCG(seed, 1))
	for i := range y {
		y[i] += sd * random.NormFloat64()
	}
	return x, y
}

// In other units the fit takes the same way: powers of 2 change nothing at all.
func TestUnits(t *testing.T) {
	x, y := noisy(1, 30, 0.1)
	start := []float64{2.7, 0.25, 1.45, 0.5}
	want := mustSolve(t, Problem{Predict: over(x, dying), Y: y, Start: start})
	for _, unit := range []float64{1 << 20, 1.0 / (1 << 30)} {
		scaled := make([]float64, len(y))
		for i := range y {
			scaled[i] = y[i] * unit
		}
		f := func(b []float64, x float64) float64 {
			return unit * dying([]float64{b[0] / unit, b[1] * unit, b[2], b[3]}, x)
		}
		r := mustSolve(t, Problem{Predict: over(x, f), Y: scaled, Start: []float64{start[0] * unit, start[1] / unit, start[2], start[3]}})
		for k, u := range []float64{unit, 1 / unit, 1, 1} {
			if r.B[k] != want.B[k]*u || r.StandardError[k] != want.StandardError[k]*u {
				t.Errorf("unit %g: parameter %d is %v ± %v, want %v ± %v", unit, k+1, r.B[k], r.StandardError[k], want.B[k]*u, want.StandardError[k]*u)
			}
		}
		if r.Iterations != want.Iterations || r.Evaluations != want.Evaluations || r.ChiSquare != want.ChiSquare*unit*unit {
			t.Errorf("unit %g: %+v, want %+v", unit, r, want)
		}
	}
}

// The order of readings does not matter, and the same problem gives the same bits.
func TestOrder(t *testing.T) {
	x, y := noisy(2, 30, 0.1)
	p := Problem{Predict: over(x, dying), Y: y, Start: []float64{2.7, 0.25, 1.45, 0.5}}
	want := mustSolve(t, p)
	if again := mustSolve(t, p); !slices.Equal(want.B, again.B) || !mat.Equal(want.Covariance, again.Covariance) || want.Evaluations != again.Evaluations {
		t.Errorf("%+v, then %+v", want, again)
	}
	rand.New(rand.NewPCG(3, 3)).Shuffle(len(x), func(i, j int) { x[i], x[j], y[i], y[j] = x[j], x[i], y[j], y[i] })
	r := mustSolve(t, p)
	for k := range want.B {
		closeTo(t, "parameter", r.B[k], want.B[k], 1e-9)
		closeTo(t, "error", r.StandardError[k], want.StandardError[k], 1e-7)
	}
}

// Derivatives given agree with differences, and save the calls for these.
func TestJacobian(t *testing.T) {
	p := Problem{Predict: over(misraX, misra1a), Y: misraY, Start: []float64{250, 0.0005}}
	plain := mustSolve(t, p)
	p.Jacobian = func(b []float64, j *mat.Dense) error {
		for i, x := range misraX {
			j.Set(i, 0, -math.Expm1(-b[1]*x))
			j.Set(i, 1, b[0]*x*math.Exp(-b[1]*x))
		}
		return nil
	}
	r := mustSolve(t, p)
	closeTo(t, "parameter", r.B[0], certified[0].b[0], 1e-9)
	closeTo(t, "error", r.StandardError[0], certified[0].se[0], 1e-9)
	if r.Evaluations >= plain.Evaluations/2 {
		t.Errorf("%d evaluations, %d with differences", r.Evaluations, plain.Evaluations)
	}
}
