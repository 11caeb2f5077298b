package fit

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

const (
	maxIterations = 200
	modelError    = 1e-12 // of a prediction, relative

	firstDamping = 1e-3  // of the squared length of a column of derivatives
	leastDamping = 1e-10 // below it there is none
	mostDamping  = 1e20  // above it the step is given up
	restDamping  = 1e-6  // damping that an undamped step begins again with
	lessDamping  = 10    // factors after a step that was foretold well,
	moreDamping  = 4     // badly, and once more after each that leads up

	// A fit has converged when a full step would lower the sum of squares by
	// less than this part: the parameters are within 1e-8 of their standard
	// errors times the root of the degrees of freedom (after D. M. Bates and
	// D. G. Watts, Nonlinear Regression Analysis and Its Applications, 1988, from
	// memory, whose limit is wider).
	goodOffset = 1e-16
	goodStep   = 1e-12 // or when it would move no parameter by more, relative
)

// Solve fits the model. It fails only for a problem that is malformed; how the fit
// ended stands in the Status. The same problem always gives the same result.
func Solve(p Problem) (Result, error) {
	if err := p.check(); err != nil {
		return Result{}, err
	}
	s := newSolver(p)
	return s.result(s.run()), nil
}

// run goes down until there is nothing lower.
func (s *solver) run() Status {
	s.rss = s.evaluate(s.b, s.f)
	if math.IsInf(s.rss, 1) {
		return Failed
	}
	damping := firstDamping
	for {
		if !s.linearise() {
			return Failed
		}
		full := s.straight()
		if full <= goodOffset*s.rss || s.still() {
			s.polish()
			return Converged
		}
		if s.iterations == maxIterations {
			return NotConverged
		}
		noise := s.noise()
		if !s.descend(&damping, noise) {
			if !(full <= noise) {
				return NotConverged
			}
			s.polish()
			return Converged
		}
		s.iterations++
	}
}

// polish takes the last steps, too small for the sum of squares to tell of them, while each
// is less than the one before. Their derivatives are taken over wider differences, in which
// rounding counts for less: where a fit ends hangs on them, and then it does so on a processor
// that rounds otherwise too.
func (s *solver) polish() {
	s.wide = true
	before := math.Inf(1)
	for range maxIterations {
		if !s.linearise() {
			return
		}
		s.step(0)
		way := floats.Norm(s.z, math.Inf(1))
		rss := s.evaluate(s.target, s.next)
		if !(way < before) || math.IsInf(rss, 1) || s.fall() < -s.noise() {
			return
		}
		s.accept(rss)
		if before = way; s.still() {
			return
		}
	}
}

// accept goes to the target.
func (s *solver) accept(rss float64) {
	s.b, s.target = s.target, s.b
	s.f, s.next = s.next, s.f
	s.rss = rss
}

// still tells whether the step moves nothing.
func (s *solver) still() bool {
	for k, z := range s.z {
		if !(math.Abs(z/s.norm[k]) <= goodStep*s.typical(k)) {
			return false
		}
	}
	return true
}

// noise is the change of the sum of squares that errors of the model, before a step
// and after it, can make.
func (s *solver) noise() float64 {
	sum := 0.0
	for i, f := range s.f {
		e := 2 * modelError * math.Abs(f) * s.root[i]
		sum += e * (2*math.Abs(s.residual(i, s.f)) + e)
	}
	return sum
}

// descend takes a step down, damped until it leads there, and sets the damping of
// the next one by how well the fall was foretold. A step to where the model
// cannot be evaluated counts as one that leads up. It gives up when all that is
// left to gain is noise.
func (s *solver) descend(damping *float64, noise float64) bool {
	for grow := float64(moreDamping); *damping < mostDamping; grow *= 2 {
		foretold := s.step(*damping)
		if foretold > 0 {
			rss := s.evaluate(s.target, s.next)
			if fall := s.fall(); !math.IsInf(rss, 1) && fall > 0 {
				s.accept(rss)
				*damping = nextDamping(*damping, fall/foretold)
				return true
			}
			if foretold <= noise {
				return false
			}
		} // else a bound turned the step uphill: damped, it follows the gradient
		*damping = grow * max(*damping, restDamping)
	}
	return false
}

// nextDamping follows a step that fell by a share of what was foretold.
func nextDamping(damping, share float64) float64 {
	switch {
	case share > 0.75:
		if damping /= lessDamping; damping < leastDamping {
			return 0
		}
	case share < 0.25:
		return moreDamping * max(damping, restDamping)
	}
	return damping
}

// fall is how far the sum of squares falls to the next predictions, without the
// rounding of a difference of two sums.
func (s *solver) fall() float64 {
	sum := 0.0
	for i := range s.f {
		sum += (s.next[i] - s.f[i]) * s.root[i] * (s.residual(i, s.f) + s.residual(i, s.next))
	}
	return sum
}
