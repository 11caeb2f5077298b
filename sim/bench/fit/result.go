package fit

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// open is the share of a parameter, squared, in what the readings leave open from
// which it is open itself.
const open = 1e-8

// result gathers what was found at the parameters reached.
func (s *solver) result(status Status) Result {
	n, m := len(s.f), len(s.b)
	r := Result{
		B: s.b, StandardError: make([]float64, m), Covariance: unknown(m), Correlation: unknown(m),
		ChiSquare: s.rss, DegreesOfFreedom: n - m, Status: status, Iterations: s.iterations, Evaluations: s.evaluations,
	}
	for i, f := range s.f {
		r.RSS += (s.p.Y[i] - f) * (s.p.Y[i] - f)
	}
	if math.IsInf(s.rss, 1) {
		r.ChiSquare, r.RSS = math.NaN(), math.NaN()
	}
	r.ChiSquarePerDOF, r.ResidualSD = perDOF(r.ChiSquare, n-m), math.Sqrt(perDOF(r.RSS, n-m))
	if status == Failed {
		r.Fault = s.fault
		fill(r.StandardError, math.NaN())
		return r
	}
	singular := s.spread(&r)
	r.Response = s.response(r.Covariance)
	if s.p.SD == nil {
		r.Covariance.ScaleSym(r.ChiSquarePerDOF, r.Covariance)
	}
	for k := range m {
		r.StandardError[k] = math.Sqrt(r.Covariance.At(k, k))
	}
	if status == Converged {
		r.Status = s.kind(singular)
	}
	return r
}

// kind tells apart the ways to converge.
func (s *solver) kind(singular bool) Status {
	if singular {
		return Singular
	}
	for k := range s.b {
		if s.onBound(k) {
			return AtBound
		}
	}
	return Converged
}

func (s *solver) onBound(k int) bool { return s.b[k] == s.lo[k] || s.b[k] == s.hi[k] }

// spread fills covariance, that of readings whose standard deviations are known, and
// correlation from the singular values of the derivatives, and tells whether the readings leave a parameter open. The
// correlation of two that are open together is the limit of what it would be if
// they could just be told apart.
func (s *solver) spread(r *Result) (singular bool) {
	m := len(s.b)
	for k := range s.held {
		s.held[k] = s.onBound(k)
	}
	s.reduce(0)
	for i := range m {
		for j := i; j < m; j++ {
			if s.held[i] || s.held[j] {
				continue
			}
			vi, li := s.between(i, i)
			vj, lj := s.between(j, j)
			known, left := s.between(i, j)
			openI, openJ := li > open, lj > open
			switch {
			case openI && openJ:
				r.Correlation.SetSym(i, j, left/math.Sqrt(li*lj))
			case openI || openJ:
				r.Correlation.SetSym(i, j, 0)
			default:
				r.Correlation.SetSym(i, j, known/math.Sqrt(vi*vj))
				r.Covariance.SetSym(i, j, known/s.norm[i]/s.norm[j])
			}
			singular = singular || openI
			if c := r.Correlation.At(i, j); i != j && math.Abs(c) > MaxCorrelation {
				r.Apart = append(r.Apart, Pair{i, j, c})
			}
		}
	}
	return singular
}

// response is covariance × derivatives × weights; parameters without a variance have
// no part in that of the others.
func (s *solver) response(covariance *mat.SymDense) *mat.Dense {
	response := mat.NewDense(len(s.b), len(s.f), nil)
	for k := range s.b {
		for i, root := range s.root {
			sum := covariance.At(k, k) * s.jacobian.At(i, k)
			for l := range s.b {
				if c := covariance.At(k, l); l != k && !math.IsNaN(c) {
					sum += c * s.jacobian.At(i, l)
				}
			}
			response.Set(k, i, sum*root*root)
		}
	}
	return response
}

// between is what two parameters have in common, in units of 1/norm: the
// covariance in what the readings tell, and the part in what they leave open.
func (s *solver) between(i, j int) (known, left float64) {
	for l, sigma := range s.sigma {
		vv := s.v.At(i, l) * s.v.At(j, l)
		if sigma > alike*s.sigma[0] {
			known += vv / (sigma * sigma)
		} else {
			left += vv
		}
	}
	return known, left
}

// unknown is a matrix of which nothing is known.
func unknown(m int) *mat.SymDense {
	a := make([]float64, m*m)
	fill(a, math.NaN())
	return mat.NewSymDense(m, a)
}

func fill(list []float64, x float64) {
	for i := range list {
		list[i] = x
	}
}
