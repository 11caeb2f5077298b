package measure

import (
	"math"

	"evenpull/fusee/numeric"
)

// StepCovariance is the covariance of the errors that a meter's step makes of two readings,
// each of a repeat of its own, of torques that lie so far apart (in the unit of the step).
// Each reading strays by the jitter (a standard deviation) about its torque, which may stand
// anywhere between two steps. At x its error is Σ (−1)^k step/(πk)·sin(2πkx/step), which gives
// Σ step²/(2π²k²)·exp(−(2πk·jitter/step)²)·cos(2πk·apart/step): without jitter step²/12 for
// torques that are alike (JCGM 100:2008, F.2.2.1), and next to nothing with a jitter of half
// a step and more, which makes every reading err by itself (derived by us from the series of
// a saw-tooth; W. F. Sheppard, Proc. Lond. Math. Soc. 29, 1898, has the variance of one).
func StepCovariance(step, jitter, apart float64) float64 {
	if step == 0 {
		return 0
	}
	along := math.Abs(apart) / step
	if jitter == 0 {
		f := along - math.Floor(along)
		return step * step * (1.0/12 - f*(1-f)/2) // the same sum in closed form
	}
	sum := 0.0
	for k := 1.0; k <= 2000; k++ {
		part := math.Exp(-math.Pow(2*math.Pi*k*jitter/step, 2))
		if part < 1e-12 {
			break
		}
		sum += part * math.Cos(2*math.Pi*k*along) / (k * k)
	}
	return math.Min(step*step/12, step*step/(2*math.Pi*math.Pi)*sum)
}

// Jitter is the standard deviation of readings about their torque, before the meter's step,
// of readings that vary by so much (a variance) as they were written down: what the step
// adds of its own is taken off.
func Jitter(step, variance float64) float64 {
	s := math.Sqrt(variance)
	if step == 0 || s == 0 {
		return s
	}
	lo, hi := numeric.Root(0, s, 1e-4*s, func(jitter float64) float64 {
		return jitter*jitter + step*step/12 - StepCovariance(step, jitter, 0) - variance
	})
	return (lo + hi) / 2
}
