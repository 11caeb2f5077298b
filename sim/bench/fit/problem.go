// Package fit finds the parameters of a model from readings by weighted least squares, with
// their standard errors, and tells where readings do not suffice.
//
// With y the readings, f(b) what the model foretells with the parameters b, and sd the standard
// deviations, the sum of ((y − f(b))/sd)² is made least. Errors are to first order about the
// best fit: right where the model is nearly straight over them. Units are those of readings
// and parameters.
//
// The method is that of Levenberg and Marquardt (D. W. Marquardt, J. SIAM 11, 1963) on
// orthogonal factors of the derivatives. Newton's method of gonum's optimize, tried on Misra1a
// of the tests, comes as near, but it knows no bounds, squares the condition of the
// derivatives, and ends in a line search that finds nothing lower and calls that a failure.
package fit

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// Problem is a model to fit: the sum of ((y_i − f_i(b))/sd_i)² is to be least.
type Problem struct {
	// Predict fills f with what the model foretells of the readings with the
	// parameters b, which it must neither change nor keep. An error, or a number
	// that is not finite, means that these parameters cannot be. It is never
	// called outside the bounds.
	Predict func(b, f []float64) error

	Y  []float64 // readings
	SD []float64 // their standard deviations, in the same units; nil: alike, and estimated from the residuals

	Start  []float64 // parameters to begin with, within the bounds
	Lo, Hi []float64 // bounds, ±Inf for none; nil: none at all

	// Scale is the typical change of each parameter, over which the model is
	// smooth; nil: the parameter's own size. It sets the steps of the
	// differences, which are made for a model good to 1e-12 of itself.
	Scale []float64

	// Jacobian fills j with the derivatives of f, a row for each reading and a
	// column for each parameter; nil: central differences.
	Jacobian func(b []float64, j *mat.Dense) error
}

// Status tells how a fit ended.
type Status uint8

const (
	Converged    Status = iota // at a least sum of squares
	AtBound                    // likewise, with a parameter on its bound
	NotConverged               // too many steps, or none that leads down
	Singular                   // at a least sum, but the readings leave some parameter open
	Failed                     // the model cannot be evaluated at the start, or not differentiated
)

var statusWords = [...]string{
	"converged",
	"ended on a bound",
	"not converged",
	"parameters cannot be told apart",
	"the model cannot be evaluated",
}

// String says it in plain words.
func (s Status) String() string { return statusWords[min(int(s), len(statusWords)-1)] }

// Result is what a fit found. What cannot be known is NaN.
type Result struct {
	B []float64 // parameters

	// StandardError of each parameter: from the standard deviations of the
	// readings alone where they are given, else from the residuals. NaN for a
	// parameter that the readings leave open, and for one on its bound, which is
	// held there for the errors of the others.
	StandardError []float64
	Covariance    *mat.SymDense // NaN likewise
	Correlation   *mat.SymDense // of parameters that cannot be told apart ±1, the limit; NaN for one on its bound

	// Response is how far each parameter moves, a row, when each reading moves by
	// 1, a column, to first order: errors of readings of any law, times it, are
	// errors of the parameters. NaN likewise; nil where the model failed.
	Response *mat.Dense

	ChiSquare        float64 // sum of squared residuals over squared standard deviations, or RSS without these
	DegreesOfFreedom int     // readings less parameters, those open or on a bound counted too
	ChiSquarePerDOF  float64 // NaN without a degree of freedom
	RSS              float64 // sum of squared residuals, unweighted
	ResidualSD       float64 // √(RSS/DegreesOfFreedom), in the units of the readings

	Status      Status
	Iterations  int    // steps taken
	Evaluations int    // calls of Predict
	Apart       []Pair // parameters that can hardly be told apart
	Fault       error  // what was wrong with the model, where Status is Failed
}

// Pair is two parameters, I < J, that can hardly be told apart: the magnitude of
// their correlation is above MaxCorrelation.
type Pair struct {
	I, J        int     // places of the two in B
	Correlation float64 // of their errors, −1 to 1
}

// MaxCorrelation is the correlation above which two parameters can hardly be told
// apart from the readings (common practice, no source).
const MaxCorrelation = 0.99

// What is wrong with a problem; the errors of Solve, Linear and Through say where.
var (
	ErrLengths = errors.New("the lengths do not agree")
	ErrFew     = errors.New("too few readings for the parameters")
	ErrNumber  = errors.New("want a finite number")
	ErrWeight  = errors.New("want a positive, finite number")
	ErrBounds  = errors.New("want a lower bound, a start not below it and an upper bound not below that, with room between the bounds")
	ErrModel   = errors.New("there is no model to fit, or no parameter")
)

// check tells what is wrong with the problem; readings and parameters count from 1.
func (p *Problem) check() error {
	n, m := len(p.Y), len(p.Start)
	if p.Predict == nil || m == 0 {
		return ErrModel
	}
	for _, l := range []struct {
		what string
		have []float64
		want int
		of   string
	}{
		{"standard deviations", p.SD, n, "readings"},
		{"lower bounds", p.Lo, m, "parameters"},
		{"upper bounds", p.Hi, m, "parameters"},
		{"scales", p.Scale, m, "parameters"},
	} {
		if l.have != nil && len(l.have) != l.want {
			return fmt.Errorf("%d %s for %d %s: %w", len(l.have), l.what, l.want, l.of, ErrLengths)
		}
	}
	if n < m {
		return fmt.Errorf("%d readings, %d parameters: %w", n, m, ErrFew)
	}
	return cmp.Or(
		each("reading", p.Y, finite, ErrNumber), each("standard deviation", p.SD, positive, ErrWeight),
		each("start of parameter", p.Start, finite, ErrNumber), each("scale of parameter", p.Scale, positive, ErrWeight),
		p.checkBounds())
}

func (p *Problem) checkBounds() error {
	for k, b := range p.Start {
		lo, hi := p.bounds(k)
		if !(lo <= b && b <= hi && lo < hi) {
			return fmt.Errorf("parameter %d from %.6g to %.6g, start %.6g: %w", k+1, lo, hi, b, ErrBounds)
		}
	}
	return nil
}

// bounds are those of a parameter.
func (p *Problem) bounds(k int) (lo, hi float64) {
	lo, hi = math.Inf(-1), math.Inf(1)
	if p.Lo != nil {
		lo = p.Lo[k]
	}
	if p.Hi != nil {
		hi = p.Hi[k]
	}
	return lo, hi
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

func positive(x float64) bool { return x > 0 && !math.IsInf(x, 1) }

// each finds the first number that is not good.
func each(what string, list []float64, good func(float64) bool, bad error) error {
	for i, x := range list {
		if !good(x) {
			return fmt.Errorf("%s %d is %.6g: %w", what, i+1, x, bad)
		}
	}
	return nil
}
