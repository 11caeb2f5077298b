package plan

import "evenpull/sim/bench/measure"

// Law is how readings of torque err: run-downs differ as wholes, and readings from turn to
// turn within them, by so much of the mean torque (standard deviations); the meter is out
// by anything up to its bound, all readings alike, and reads in steps.
type Law struct {
	Scatter         float64 // share, of one reading within its run-down
	Offset          float64 // share, of a run-down as a whole
	MeterRelative   float64 // bound of the meter's error, a share of the reading
	MeterResolution float64 // N·m
}

// Usual is how a meter at the winding square errs (common practice, no source). Its step is
// left out, as it differs from meter to meter.
func Usual() Law { return Law{Scatter: 0.006, Offset: 0.004, MeterRelative: 0.01} }

// rounding is the variance of what a step makes of readings (in units of it, squared): what
// each repeat has of its own, and what all repeats have in common, since they round alike
// where they differ by little. Jitter is the standard deviation of a reading about the true
// torque.
func rounding(step, jitter float64) (own, common float64) {
	common = measure.StepCovariance(step, jitter, 0)
	return step*step/12 - common, common
}
