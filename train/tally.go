package train

import "math"

// tally adds up how long a leg takes, time after time, under one couple.
//
// For T above 0 and x, y the speeds at end and start in units of √(T/c) a leg
// takes J/√(cT) (artanh x − artanh y), or arcoth of both. The difference is
// artanh z, and since x² = 1 − e^(−k)(1 − y²) the terms that nearly vanish close
// to x = 1 cancel:
//
//	z = (1 − e^(−k))(1 + xy)/((x + y)(1 + e^(−k) y²))
//	1 − z² = e^(−k) (1 + xy)²/(1 + e^(−k) y²)²
//
// All terms are positive. The second gives the logarithm where z nears 1. For T
// below 0 it is J/√(−cT) arctan z, with units of √(−T/c) and
//
//	z = (1 − e^(−k))(1 + y²)/((x + y)(1 + xy))
//
// In both, z is √|cT|/J times a time that stays finite as T or c goes to 0.
//
// Logarithms and arctangents are taken of the product of many legs at once:
// one of (1 + z)/(1 − z), and one of the complex 1 + iz. A single one costs as
// much as all else in a leg.
type tally struct {
	leg    *leg
	couple float64 // T
	root   float64 // √|cT|
	unit   float64 // √|cT|/J
	scale  float64 // of a/b = z
	plain  float64 // s
	top    float64 // product of 1 + z = b + a …
	bottom float64 // … over that of 1 − z = b − a
	powers float64 // k of those where z is near 1
	re, im float64 // product of 1 + iz, in the first quarter of the plane
	turned float64 // quarters it was turned back by
}

func (l *leg) tally(couple float64) tally {
	root := math.Sqrt(l.drag * math.Abs(couple))
	unit := root / l.inertia
	return tally{leg: l, couple: couple, root: root, unit: unit, scale: unit * l.span, top: 1, bottom: 1, re: 1}
}

// add counts in a leg between two speeds (rad/s), the latter that of after. One
// of them at least is above 0, and the latter is where T is not.
func (t *tally) add(from, to float64) {
	l := t.leg
	c := l.drag
	if t.couple <= 0 {
		t.addSlowing(c*from*from-t.couple, (from+to)*(c*from*to-t.couple))
		return
	}
	start, end := t.couple+c*l.decay*from*from, t.couple+c*from*to
	// z = a/b, kept apart so that a leg costs no division.
	a, b := t.scale*end, (from+to)*start
	switch {
	case a < 1e-2*b:
		z := a / b
		t.plain += l.span * end / b * series(z*z)
	case a < 0.5*b:
		t.top *= b + a
		t.bottom *= b - a
	default:
		t.addNear(start/end + l.fall*t.root/(c*(from+to)))
	}
	if !moderate(t.bottom, t.top) {
		t.flush()
	}
}

// moderate tells whether products are far from vanishing and from overflow.
func moderate(least, most float64) bool { return least > 1e-100 && most < 1e100 }

// addNear counts in a leg whose z is near 1, for which artanh z is k/2 + ln m.
func (t *tally) addNear(m float64) {
	if m < 0.5 { // far from above the terminal speed: the product would lose digits
		t.plain += (t.leg.power/2 + math.Log(m)) / t.unit
		return
	}
	t.top *= m * m
	t.powers += t.leg.power
}

// addSlowing counts in a leg against the couple, with z = scale × loss/b.
func (t *tally) addSlowing(loss, b float64) {
	a := t.scale * loss
	if a < 1e-2*b {
		z := a / b
		t.plain += t.leg.span * loss / b * series(-z*z)
		return
	}
	re, im := t.re*b-t.im*a, t.im*b+t.re*a
	if re < 0 {
		re, im = im, -re
		t.turned++
	}
	if size := re + im; !moderate(size, size) {
		re, im = re/size, im/size // only their ratio counts
	}
	t.re, t.im = re, im
}

// series is artanh(√s)/√s, which below 0 is arctan(√−s)/√−s, for |s| up to
// 1e-4: the first term left out, s⁴/9, is a rounding error.
func series(s float64) float64 { return 1 + s*(1./3+s*(1./5+s/7)) }

// flush turns the products into seconds.
func (t *tally) flush() {
	if t.top != t.bottom || t.powers != 0 {
		t.plain += (math.Log1p((t.top-t.bottom)/t.bottom) + t.powers) / (2 * t.unit)
	}
	if t.im != 0 || t.turned != 0 {
		t.plain += (math.Atan(t.im/t.re) + t.turned*math.Pi/2) / t.unit
	}
	t.top, t.bottom, t.powers, t.re, t.im, t.turned = 1, 1, 0, 1, 0, 0
}

// seconds is the time of all the legs.
func (t *tally) seconds() float64 {
	t.flush()
	return t.plain
}
