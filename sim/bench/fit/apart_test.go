package fit

import (
	"math"
	"testing"
)

// b0·b1·x tells of the product only.
func TestProduct(t *testing.T) {
	product := func(b []float64, x float64) float64 { return b[0]*b[1]*x + b[2] }
	r := mustSolve(t, Problem{Predict: over(lineX, product), Y: lineY, Start: []float64{1, 3, 1}})
	a, b, as, _, _, _ := Linear(lineX, lineY, nil)
	if r.Status != Singular || len(r.Apart) != 1 || r.Apart[0].I != 0 || r.Apart[0].J != 1 {
		t.Fatalf("%v, apart %v", r.Status, r.Apart)
	}
	closeTo(t, "product", r.B[0]*r.B[1], b, 1e-9)
	closeTo(t, "intercept", r.B[2], a, 1e-8)
	closeTo(t, "correlation", r.Apart[0].Correlation, -1, 1e-6)
	closeTo(t, "error of the intercept", r.StandardError[2], as*math.Sqrt(4.0/3), 1e-7) // a degree of freedom less
	if !math.IsNaN(r.StandardError[0]) || !math.IsNaN(r.StandardError[1]) || r.Correlation.At(0, 2) != 0 {
		t.Errorf("errors %v, correlation %v", r.StandardError, r.Correlation.At(0, 2))
	}
	// A sum likewise, with no bound to how far it may go.
	sum := func(b []float64, x float64) float64 { return b[0] + b[1] + b[2]*x }
	r = mustSolve(t, Problem{Predict: over(lineX, sum), Y: lineY, Start: []float64{1, 1, 1}})
	closeTo(t, "sum", r.B[0]+r.B[1], a, 1e-8)
	if r.Status != Singular || len(r.Apart) != 1 {
		t.Errorf("%v, apart %v", r.Status, r.Apart)
	}
	// A parameter that does nothing is open by itself.
	idle := func(b []float64, x float64) float64 { return b[0] * x }
	r = mustSolve(t, Problem{Predict: over(lineX, idle), Y: lineY, Start: []float64{1, 5}})
	if r.Status != Singular || len(r.Apart) != 0 || r.B[1] != 5 || !math.IsNaN(r.StandardError[1]) || math.IsNaN(r.StandardError[0]) {
		t.Errorf("%v at %v ± %v, apart %v", r.Status, r.B, r.StandardError, r.Apart)
	}
}

// Far from the readings intercept and slope go together: for x = 100, 101, 102 the
// correlation is −Σx/√(nΣx²) = −303/√(3·30605) (closed form).
func TestApart(t *testing.T) {
	r := mustSolve(t, Problem{Predict: over([]float64{100, 101, 102}, line), Y: []float64{1, 2.1, 2.9}, Start: []float64{0, 1}})
	if r.Status != Converged || len(r.Apart) != 1 {
		t.Fatalf("%v, apart %v", r.Status, r.Apart)
	}
	closeTo(t, "correlation", r.Apart[0].Correlation, -303/math.Sqrt(3*30605), 1e-10)
}

// For x = c − 1, c, c + 1 the correlation of intercept and slope is −c/√(c² + 2/3)
// (closed form), which passes 0.99 at c = 5.73.
func TestWhenApart(t *testing.T) {
	for _, c := range []float64{-9, -5.9, -5.6, -2, 2, 5.6, 5.9, 9} {
		r := mustSolve(t, Problem{Predict: over([]float64{c - 1, c, c + 1}, line), Y: []float64{1, 2.1, 2.9}, Start: []float64{0, 1}})
		want := -c / math.Sqrt(c*c+2.0/3)
		closeTo(t, "correlation", r.Correlation.At(0, 1), want, 1e-9)
		if apart := math.Abs(want) > 0.99; (len(r.Apart) == 1) != apart || apart && (r.Apart[0] != Pair{0, 1, r.Correlation.At(0, 1)}) {
			t.Errorf("c = %v: %v with a correlation of %v", c, r.Apart, want)
		}
	}
}
