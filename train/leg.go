package train

import "math"

// leg is an angle of the fly through which the couple on it is constant.
type leg struct {
	angle   float64 // ψ, rad
	power   float64 // k = 2cψ/J
	decay   float64 // e^(−k)
	fall    float64 // 1 − e^(−k)
	mean    float64 // (1 − e^(−k))/k
	span    float64 // 2ψ times mean: rad, from which times are computed
	push    float64 // span/J: what a couple of 1 adds to u
	drag    float64 // c
	inertia float64 // J
}

func newLeg(angle, drag, inertia float64) leg {
	k := 2 * drag * angle / inertia
	fall := -math.Expm1(-k)
	span := 2 * angle * (fall / k)
	return leg{angle: angle, power: k, decay: math.Exp(-k), fall: fall, mean: fall / k,
		span: span, push: span / inertia, drag: drag, inertia: inertia}
}

// gain is what a couple adds to u = ω² over the leg: (T/c)(1 − e^(−k)), which
// goes to 2Tψ/J without drag.
func (l *leg) gain(couple float64) float64 { return couple * l.push }

// after is u at the end of the leg; below 0 the fly does not get there.
func (l *leg) after(u, couple float64) float64 { return l.decay*u + l.gain(couple) }

// loss is the work (J) of the drag over the leg, ∫ c u dψ.
func (l *leg) loss(u, couple float64) float64 {
	return l.angle * (couple*(1-l.mean) + l.drag*u*l.mean)
}

// rest is the time (s) from a speed to a standstill against a couple below 0. It
// stays finite for one of 0, by which the drag alone never quite gets there.
func (l *leg) rest(couple, from float64) float64 {
	couple = min(couple, -1e-300)
	root := math.Sqrt(-l.drag * couple)
	return l.inertia / root * math.Atan(from*l.drag/root)
}

// bend is tanh(√s)/√s for s from 0, and tan(√−s)/√−s below 0: one
// function, 1 − s/3 + 2s²/15 − 17s³/315 + …, of which the next term is a rounding
// error for |s| up to 1e-4
func bend(s float64) float64 {
	switch {
	case math.Abs(s) < 1e-4:
		return 1 - s*(1./3-s*(2./15-s*(17./315)))
	case s < 0:
		z := math.Sqrt(-s)
		return math.Tan(z) / z
	}
	z := math.Sqrt(s)
	return math.Tanh(z) / z
}
