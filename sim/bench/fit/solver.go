package fit

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// solver is a fit under way. All its memory is taken at the beginning, but for
// what gonum takes for a factorization.
type solver struct {
	p      Problem
	lo, hi []float64
	root   []float64 // 1 over the standard deviation of each reading

	b, f    []float64 // parameters and predictions reached
	rss     float64   // weighted sum of squares there
	next    []float64 // predictions at the target
	probe   []float64 // parameters and predictions for differences
	up, up2 []float64

	jacobian *mat.Dense
	system   *mat.Dense // weighted derivatives, each column of length 1, and the residuals
	qr       mat.QR
	factor   *mat.Dense // triangular
	norm     []float64  // lengths of the columns, weighted
	memory   []float64  // the same, falling by halves at most

	pressed, held []bool    // parameters on a bound that the gradient or the step presses on
	z, target     []float64 // step, in units of 1/norm, and where it leads
	damped        *mat.Dense
	svd           mat.SVD
	u, v          *mat.Dense
	sigma, side   []float64

	wide                    bool // derivatives over wider differences
	iterations, evaluations int
	fault                   error
}

func newSolver(p Problem) *solver {
	n, m := len(p.Y), len(p.Start)
	rows := max(n, m+1) // a row of zeros where there are as many readings as parameters
	s := &solver{
		p: p, lo: make([]float64, m), hi: make([]float64, m), root: make([]float64, n),
		b: slices.Clone(p.Start), f: make([]float64, n), next: make([]float64, n),
		probe: make([]float64, m), up: make([]float64, n), up2: make([]float64, n),
		jacobian: mat.NewDense(n, m, nil), system: mat.NewDense(rows, m+1, nil), factor: mat.NewDense(rows, m+1, nil),
		norm: make([]float64, m), memory: make([]float64, m),
		pressed: make([]bool, m), held: make([]bool, m), z: make([]float64, m), target: make([]float64, m),
		damped: mat.NewDense(2*m, m, nil), u: mat.NewDense(2*m, m, nil), v: mat.NewDense(m, m, nil),
		sigma: make([]float64, m), side: make([]float64, m),
	}
	for k := range s.lo {
		s.lo[k], s.hi[k] = p.bounds(k)
	}
	for i := range s.root {
		s.root[i] = 1
		if p.SD != nil {
			s.root[i] = 1 / p.SD[i]
		}
	}
	return s
}

// evaluate predicts and gives the weighted sum of squares; +Inf where the model
// cannot be evaluated.
func (s *solver) evaluate(b, f []float64) float64 {
	for k, x := range b {
		if !finite(x) {
			return s.blame(fmt.Errorf("parameter %d comes to %.6g: %w", k+1, x, ErrNumber))
		}
	}
	s.evaluations++
	if err := s.p.Predict(b, f); err != nil {
		return s.blame(err)
	}
	sum := 0.0
	for i := range f {
		if !finite(f[i]) {
			return s.blame(fmt.Errorf("the prediction of reading %d is %.6g: %w", i+1, f[i], ErrNumber))
		}
		r := s.residual(i, f)
		sum += r * r
	}
	if !finite(sum) {
		return s.blame(fmt.Errorf("the sum of squares is %.6g: %w", sum, ErrNumber))
	}
	return sum
}

// blame notes what was wrong with the model last.
func (s *solver) blame(err error) float64 {
	s.fault = err
	return math.Inf(1)
}

// residual is that of a reading, weighted.
func (s *solver) residual(i int, f []float64) float64 { return (s.p.Y[i] - f[i]) * s.root[i] }

// typical is a change of the parameter over which the model is smooth: a
// hundredth of the start at least, should the parameter come to 0.
func (s *solver) typical(k int) float64 {
	if s.p.Scale != nil {
		return s.p.Scale[k]
	}
	if t := max(math.Abs(s.b[k]), math.Abs(s.p.Start[k])/100); t > 0 {
		return t
	}
	return 1
}
