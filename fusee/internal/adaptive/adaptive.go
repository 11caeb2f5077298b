// Package adaptive integrates by halving: the slow, independent reference that
// the closed forms of the drive are tested against.
package adaptive

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
)

// Integrate is ∫f from a to b with gonum's Gauss–Legendre rule of ten points:
// an interval is halved until it and its halves agree to tol. A kink close to
// an end of the interval can hide beyond the outermost point: name the kinks
// that are known, in rising order, and the integral is split there.
func Integrate(f func(float64) float64, a, b, tol float64, kinks ...float64) float64 {
	sum, lo := 0.0, a
	for _, hi := range append(kinks, b) {
		if hi = math.Min(hi, b); hi > lo {
			sum += halve(f, lo, hi, rule(f, lo, hi), tol, 30)
			lo = hi
		}
	}
	return sum
}

// halve refines whole, the rule's value from a to b. The tolerance is not
// shared out among the halves: an interval with a kink in it would chase
// rounding errors for ever, and the others pass at once.
func halve(f func(float64) float64, a, b, whole, tol float64, depth int) float64 {
	mid := (a + b) / 2
	if mid <= a || mid >= b {
		return whole
	}
	left, right := rule(f, a, mid), rule(f, mid, b)
	if depth == 0 || math.Abs(left+right-whole) <= tol {
		return left + right
	}
	return halve(f, a, mid, left, tol, depth-1) + halve(f, mid, b, right, tol, depth-1)
}

// rule is quad.Fixed without its goroutine for every point.
func rule(f func(float64) float64, a, b float64) float64 {
	var x, w [10]float64
	quad.Legendre{}.FixedLocations(x[:], w[:], a, b)
	sum := 0.0
	for i := range x {
		sum += w[i] * f(x[i])
	}
	return sum
}
