package fit

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// alike is the singular value, relative to the greatest, below which a
// combination of parameters does nothing that differences could show.
const alike = 1e-7

// press finds the parameters on a bound that the gradient presses on.
func (s *solver) press() {
	last := len(s.b)
	for k, b := range s.b {
		down := 0.0
		for i := range k + 1 {
			down += s.factor.At(i, k) * s.factor.At(i, last)
		}
		s.pressed[k] = b <= s.lo[k] && down <= 0 || b >= s.hi[k] && down >= 0
	}
}

// straight finds the step to the least sum of squares were the model straight and
// no bound in the way but those pressed on, and how far it would fall: nothing at
// a least sum within the bounds.
func (s *solver) straight() float64 {
	copy(s.held, s.pressed)
	clear(s.z)
	s.free(0)
	return s.gain()
}

// step finds the damped step within the bounds and how far the sum of squares
// would fall were the model straight. A parameter that would leave its bounds goes
// to the bound, and the others follow.
func (s *solver) step(damping float64) float64 {
	copy(s.held, s.pressed)
	copy(s.target, s.b)
	clear(s.z)
	for s.free(damping); s.clip(); { // each time one more is held
		s.free(damping)
	}
	return s.gain()
}

// free solves for the parameters that are not held.
func (s *solver) free(damping float64) {
	m := len(s.b)
	s.reduce(damping)
	for i := range m {
		s.side[i] = s.factor.At(i, m)
		for k := i; k < m; k++ {
			if s.held[k] {
				s.side[i] -= s.factor.At(i, k) * s.z[k]
			}
		}
	}
	for k := range m {
		if !s.held[k] {
			s.z[k] = 0
		}
	}
	for l, sigma := range s.sigma {
		if sigma <= alike*s.sigma[0] {
			break
		}
		along := 0.0
		for i := range m {
			along += s.u.At(i, l) * s.side[i]
		}
		for k := range m {
			if !s.held[k] {
				s.z[k] += s.v.At(k, l) * along / sigma
			}
		}
	}
}

// reduce takes the singular values of the triangle, without the columns of what is
// held, above the damping: that of Marquardt, by the lengths of the columns.
func (s *solver) reduce(damping float64) {
	m := len(s.b)
	s.damped.Zero()
	for k := range m {
		if s.held[k] {
			continue
		}
		for i := range k + 1 {
			s.damped.Set(i, k, s.factor.At(i, k))
		}
		s.damped.Set(m+k, k, math.Sqrt(damping)*s.memory[k]/s.norm[k])
	}
	if !s.svd.Factorize(s.damped, mat.SVDThin) {
		fill(s.sigma, math.NaN()) // no step; not seen with finite numbers
		return
	}
	s.svd.Values(s.sigma)
	s.svd.UTo(s.u)
	s.svd.VTo(s.v)
}

// clip holds what would leave its bounds, and tells whether anything did.
func (s *solver) clip() bool {
	clipped := false
	for k, b := range s.b {
		if s.held[k] {
			continue
		}
		to := b + s.z[k]/s.norm[k]
		if inside := min(max(to, s.lo[k]), s.hi[k]); inside != to {
			to, clipped = inside, true
			s.held[k], s.z[k] = true, (to-b)*s.norm[k]
		}
		s.target[k] = to
	}
	return clipped
}

// gain is |c|² − |c − Rz|² for the triangle R and the turned residuals c.
func (s *solver) gain() float64 {
	m, sum := len(s.b), 0.0
	for i := range m {
		rz := 0.0
		for k := i; k < m; k++ {
			rz += s.factor.At(i, k) * s.z[k]
		}
		sum += rz * (2*s.factor.At(i, m) - rz)
	}
	return sum
}
