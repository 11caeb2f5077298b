package fit

import (
	"cmp"
	"fmt"
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat"
)

// Linear fits the straight line y = intercept + slope·x by least squares. The
// weights w are 1 over the variances up to a common factor, nil: all alike. The
// standard errors come from the residuals, whose standard deviation is that of a
// reading of the mean weight; they are NaN with two readings (closed form: any
// text on regression).
func Linear(x, y, w []float64) (intercept, slope, interceptSE, slopeSE, residualSD float64, err error) {
	u, err := weights(x, y, w, 2)
	if err != nil {
		return 0, 0, 0, 0, 0, err
	}
	if floats.Min(x) == floats.Max(x) {
		return 0, 0, 0, 0, 0, fmt.Errorf("all %d readings stand at x = %.6g: %w", len(x), x[0], ErrFew)
	}
	intercept, slope = stat.LinearRegression(x, y, u, false)
	total, mean := floats.Sum(u), stat.Mean(x, u)
	spread, rss := 0.0, 0.0
	for i, xi := range x {
		spread += u[i] * (xi - mean) * (xi - mean)
		r := y[i] - intercept - slope*xi
		rss += u[i] * r * r
	}
	residualSD = math.Sqrt(perDOF(rss, len(x)-2))
	slopeSE = residualSD / math.Sqrt(spread)
	interceptSE = residualSD * math.Sqrt(1/total+mean*mean/spread)
	return intercept, slope, interceptSE, slopeSE, residualSD, nil
}

// Through fits y = slope·x, the line through the origin, with weights as Linear
// has them. R2 is the share of the squares of y, not of their spread, that the
// line takes up. The standard error is NaN with one reading.
func Through(x, y, w []float64) (slope, slopeSE, r2 float64, err error) {
	u, err := weights(x, y, w, 1)
	if err != nil {
		return 0, 0, 0, err
	}
	xx, rss := 0.0, 0.0
	for i, xi := range x {
		xx += u[i] * xi * xi
	}
	if !positive(xx) {
		return 0, 0, 0, fmt.Errorf("all %d readings stand at x = 0: %w", len(x), ErrFew)
	}
	_, slope = stat.LinearRegression(x, y, u, true)
	yy := 0.0
	for i, xi := range x {
		r := y[i] - slope*xi
		rss += u[i] * r * r
		yy += u[i] * y[i] * y[i]
	}
	return slope, math.Sqrt(perDOF(rss, len(x)-1) / xx), 1 - rss/yy, nil
}

// perDOF is a mean square; NaN without a degree of freedom.
func perDOF(rss float64, dof int) float64 {
	if dof == 0 {
		return math.NaN()
	}
	return rss / float64(dof)
}

// weights checks readings and makes their weights 1 in the mean; the least number
// of readings is that of the parameters.
func weights(x, y, w []float64, least int) ([]float64, error) {
	if len(x) != len(y) || w != nil && len(w) != len(y) {
		return nil, fmt.Errorf("%d x, %d y, %d weights: %w", len(x), len(y), len(w), ErrLengths)
	}
	if len(x) < least {
		return nil, fmt.Errorf("%d readings, %d parameters: %w", len(x), least, ErrFew)
	}
	u := make([]float64, len(x))
	fill(u, 1)
	if w == nil {
		w = u
	}
	if err := cmp.Or(each("x", x, finite, ErrNumber), each("y", y, finite, ErrNumber), each("weight", w, positive, ErrWeight)); err != nil {
		return nil, err
	}
	mean := floats.Sum(w) / float64(len(w))
	for i := range u {
		u[i] = w[i] / mean
	}
	return u, nil
}
