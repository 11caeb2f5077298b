package measure

import (
	"math"

	"evenpull/sim/bench/fit"

	"gonum.org/v1/gonum/stat/distuv"
)

// leastMoved is the share of the mean below which a difference between repeats
// is rounding.
const leastMoved = 1e-12

// Drift is the straight line through the means of the repeats against their
// number. P is the chance of a slope so far from 0 without drift, by the t-test
// of the slope with n − 2 degrees of freedom (any text on regression).
type Drift struct {
	Slope float64 // N·m a repeat; NaN with fewer than 2 repeats
	P     float64 // NaN with fewer than 3
	Found bool    // P is below 5 %
}

func driftOf(repeats []Repeat) Drift {
	d := Drift{math.NaN(), math.NaN(), false}
	number, mean := make([]float64, len(repeats)), make([]float64, len(repeats))
	size := 0.0
	for i := range repeats {
		number[i], mean[i] = float64(i+1), repeats[i].Mean
		size = max(size, math.Abs(mean[i]))
	}
	_, slope, _, slopeSE, _, err := fit.Linear(number, mean, nil)
	if err != nil {
		return d
	}
	if d.Slope = slope; len(repeats) < 3 {
		return d
	}
	switch {
	case math.Abs(slope) <= leastMoved*size:
		d.P = 1
	case slopeSE <= leastMoved*size:
		d.P = 0
	default:
		t := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(len(repeats) - 2)}
		d.P = 2 * t.Survival(math.Abs(slope)/slopeSE)
	}
	d.Found = d.P < alpha
	return d
}
