package fit

import (
	"math"
	"testing"
)

// BenchmarkSolve fits three parameters to 51 readings of a cheap model.
func BenchmarkSolve(b *testing.B) {
	x, y := make([]float64, 51), make([]float64, 51)
	decay := func(b []float64, x float64) float64 { return b[0] + b[1]*math.Exp(-b[2]*x) }
	for i := range x {
		x[i] = float64(i) / 10
		y[i] = decay([]float64{1, 2, 0.7}, x[i]) + 0.01*math.Sin(float64(37*i))
	}
	p := Problem{Predict: over(x, decay), Y: y, Start: []float64{0.5, 1, 1}}
	b.ReportAllocs()
	var r Result
	for b.Loop() {
		r = mustSolve(b, p)
	}
	b.ReportMetric(float64(r.Evaluations), "evaluations")
}
