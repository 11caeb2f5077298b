package numeric

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/integrate/quad"
)

// Gauss is a Gauss–Legendre rule: points and weights of an interval, from gonum.
// It is a constant table that no method changes.
type Gauss struct{ at, weight []float64 } // of 0 to 1

// NewGauss is the rule of so many points, 1 or more: it is exact for polynomials
// up to the degree 2n−1.
func NewGauss(points int) Gauss {
	points = max(points, 1)
	g := Gauss{make([]float64, points), make([]float64, points)}
	quad.Legendre{}.FixedLocations(g.at, g.weight, 0, 1)
	slices.Reverse(g.at) // to rise; the weights are the same from both ends
	return g
}

// Over is ∫f from a to b, below 0 where f is above it and b is below a. Work: a
// call for every point.
func (g Gauss) Over(a, b float64, f func(x float64) float64) float64 {
	sum := 0.0
	for i, at := range g.at {
		sum += g.weight[i] * f(a+(b-a)*at)
	}
	return sum * (b - a)
}

// Pair are the two points of the rule of two on the way from 0 to 1, each of which
// weighs a half: for loops that cannot afford a call through a function value.
func Pair() [2]float64 {
	g := NewGauss(2)
	return [2]float64{g.at[0], g.at[1]}
}

// Panels is Over on each of so many equal parts of the way from a to b. Error: it
// falls with the number of panels to the power 2n where f is smooth in each. With
// no panel it is 0.
func (g Gauss) Panels(a, b float64, panels int, f func(x float64) float64) float64 {
	sum, width := 0.0, (b-a)/float64(max(panels, 1))
	for i := range panels {
		for j, at := range g.at {
			sum += g.weight[j] * f(a+(float64(i)+at)*width)
		}
	}
	return sum * width
}

// deepest is how often Adaptive halves an interval at most.
const deepest = 30

// Adaptive is ∫f from a to b, b not below a, with ten points: an interval is
// halved until it and its halves agree to tol. It is slow, and independent of any
// closed form. A kink close to an end of an interval can hide beyond the outermost
// point: name the kinks that are known, in rising order, and the integral is split
// there.
func Adaptive(a, b, tol float64, f func(x float64) float64, kinks ...float64) float64 {
	h := halver{NewGauss(10), f, tol}
	sum, lo := 0.0, a
	for i := range len(kinks) + 1 {
		hi := b
		if i < len(kinks) {
			hi = math.Min(kinks[i], b)
		}
		if hi > lo {
			sum += h.refine(lo, hi, h.rule.Over(lo, hi, f), deepest)
			lo = hi
		}
	}
	return sum
}

type halver struct {
	rule Gauss
	f    func(float64) float64
	tol  float64
}

// refine betters whole, the rule's value from a to b. The tolerance is not shared
// out among the halves: an interval with a kink in it would be halved for rounding
// errors alone.
func (h *halver) refine(a, b, whole float64, depth int) float64 {
	mid := a/2 + b/2
	if !between(mid, a, b) {
		return whole
	}
	left, right := h.rule.Over(a, mid, h.f), h.rule.Over(mid, b, h.f)
	rounding := 1e-15 * (math.Abs(left) + math.Abs(right))
	if depth == 0 || !(math.Abs(left+right-whole) > h.tol+rounding) { // NaN ends it too
		return left + right
	}
	return h.refine(a, mid, left, depth-1) + h.refine(mid, b, right, depth-1)
}
