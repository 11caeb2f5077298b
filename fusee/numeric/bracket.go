package numeric

import "math"

// Bisect narrows a bracket between in, where a condition is taken to hold, and
// out, where it is taken not to; neither is tried, and either may be the greater.
// It gives the ends of the bracket left: one on which the condition holds, or in
// itself, and one on which it does not, or out itself.
//
// Error: the two are no further apart than width, or next to each other where no
// number lies between; a width of 0 asks for that. Where the condition changes
// more than once, one of its changes is found. Work: a call for every halving, so
// log2(|out−in|/width); with a width of 0 some 53, and up to 1100 where the
// change is at 0.
func Bisect(in, out, width float64, holds func(x float64) bool) (float64, float64) {
	for math.Abs(out-in) > width {
		mid := in/2 + out/2
		if !between(mid, in, out) {
			break
		}
		if holds(mid) {
			in = mid
		} else {
			out = mid
		}
	}
	return in, out
}

func between(x, a, b float64) bool { return x > a && x < b || x > b && x < a }

// Root narrows the bracket of a function that is at most 0 at below and above 0
// at above, either of which may be the greater, and gives the ends of what is
// left: f is at most 0 at the first and above 0 at the second.
//
// It is T. R. Chandrupatla's mixture of inverse quadratic interpolation and
// halving (Advances in Engineering Software 28, 1997; from memory), so that a
// jump does no harm.
//
// Error: the two are no further apart than width, or a few rounding steps (1e-30
// for a root at 0) where that is more. Work: about ten calls where f is smooth,
// and some three for every halving at worst.
func Root(below, above, width float64, f func(x float64) float64) (float64, float64) {
	a, b, fa, fb := below, above, f(below), f(above)
	c, fc := a, fa // the point before b
	for t := 0.5; ; {
		x := a + t*(b-a)
		fx := f(x)
		if (fx > 0) == (fa > 0) {
			c, fc = a, fa
		} else {
			c, fc, b, fb = b, fb, a, fa
		}
		a, fa = x, fx
		gap := math.Abs(b - a)
		least := max(2e-16*max(math.Abs(a), math.Abs(b)), 1e-30, width/2)
		if !(gap > 2*least) {
			break
		}
		t = interpolated(a, b, c, fa, fb, fc)
		t = min(max(t, least/gap), 1-least/gap)
	}
	if fa > 0 {
		return b, a
	}
	return a, b
}

// interpolated is where between a and b, as a share of the way, the inverse
// parabola through three points has its root; ½ where that cannot be trusted, and between
// two of one sign, which have no root between them that anybody promised.
func interpolated(a, b, c, fa, fb, fc float64) float64 {
	if (fa > 0) == (fb > 0) {
		return 0.5
	}
	xi, phi := (a-b)/(c-b), (fa-fb)/(fc-fb)
	if phi*phi < xi && (1-phi)*(1-phi) < 1-xi {
		t := fa/(fb-fa)*fc/(fb-fc) + (c-a)/(b-a)*fa/(fc-fa)*fb/(fc-fb)
		if !math.IsNaN(t) { // as of values near the greatest there are
			return t
		}
	}
	return 0.5
}

// mostSteps ends Newton for a slope so wrong that its steps stay too short.
const mostSteps = 200

// Newton finds where a function that rises from lo to hi reaches a goal, from a
// start between them. f gives at x how much the function lacks of the goal and
// its slope. Newton's step is replaced by a halving of the bracket where it would
// leave it, so that a slope that is wrong or 0 does no harm.
//
// Error: the last step was within tol, so that what is left goes with its square,
// or is tol at most where that step was a halving; with a tol of 0 the step changed
// nothing, or no number is left between the ends. Where the goal is not between lo and
// hi the nearer end is found. Work: some three to six calls where f is smooth.
func Newton(lo, hi, start, tol float64, f func(x float64) (lacks, slope float64)) float64 {
	x := start
	for range mostSteps {
		lacks, slope := f(x)
		if lacks > 0 {
			lo = x
		} else {
			hi = x
		}
		next := x + lacks/slope
		if next == x {
			return x
		}
		if !between(next, lo, hi) {
			next = lo/2 + hi/2
		}
		if math.Abs(next-x) <= tol || !between(next, lo, hi) {
			return next
		}
		x = next
	}
	return x
}
