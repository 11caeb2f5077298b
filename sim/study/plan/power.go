package plan

import (
	"math"

	"evenpull/sim/bench/measure"

	"gonum.org/v1/gonum/stat/distuv"
)

// power is the share of experiments in which a figure that is 1 is found to differ from 0
// at 5 %: its 95 % interval, of run-downs that scatter, with their degrees of freedom, and
// of a meter whose part is known, lies clear of 0, as measure.HalfWidth makes it. Both are
// standard errors. Without the meter that is the noncentral t; it is worked out as the mean
// over what the run-downs may look to scatter, since the meter's part has no table. NaN
// without a degree of freedom.
func power(runs, meter float64, freedom int) float64 {
	if freedom < 1 {
		return math.NaN()
	}
	const parts = 400
	looks := distuv.ChiSquared{K: float64(freedom)}
	errs := distuv.Normal{Mu: 1, Sigma: math.Hypot(runs, meter)}
	if errs.Sigma == 0 {
		return 1
	}
	sum, student, ofMeter := 0.0, measure.HalfWidth(1, freedom, 0), measure.HalfWidth(0, freedom, meter)
	for i := range parts {
		s := runs * math.Sqrt(looks.Quantile((float64(i)+0.5)/parts)/float64(freedom))
		half := math.Hypot(student*s, ofMeter)
		sum += errs.CDF(-half) + errs.Survival(half)
	}
	return sum / parts
}
