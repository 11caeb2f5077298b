package plan

import "math"

// Law is how readings of torque err: run-downs differ as wholes, and readings from turn to
// turn within them, by so much of the mean torque (standard deviations); the meter is out
// by anything up to its bound, all readings alike, and reads in steps.
type Law struct {
	Scatter         float64 // share, of one reading within its run-down
	Offset          float64 // share, of a run-down as a whole
	MeterRelative   float64 // bound of the meter, a share
	MeterResolution float64 // N·m
}

// Usual is how a meter at the winding square errs (common practice, no source). Its step is
// left out, as it differs from meter to meter.
func Usual() Law { return Law{Scatter: 0.006, Offset: 0.004, MeterRelative: 0.01} }

// rounding is the variance of what a step makes of readings (in units of it, squared): what
// each repeat has of its own, and what all repeats have in common, since they round alike
// where they differ by little. Jitter is the standard deviation of a reading about the true
// torque. A reading that may stand anywhere between two steps has the error
// Σ (−1)^k step/(πk)·sin(2πkx/step), and what two repeats have in common of it is
// Σ step²/(2π²k²)·exp(−(2πk·jitter/step)²): all 1/12 without jitter (derived by us from
// the series of a saw-tooth).
func rounding(step, jitter float64) (own, common float64) {
	if step == 0 {
		return 0, 0
	}
	all := step * step / 12
	if jitter == 0 {
		return 0, all
	}
	for k := 1.0; k <= 2000; k++ {
		part := math.Exp(-math.Pow(2*math.Pi*k*jitter/step, 2))
		if part < 1e-12 {
			break
		}
		common += step * step / (2 * math.Pi * math.Pi * k * k) * part
	}
	common = math.Min(common, all)
	return all - common, common
}
