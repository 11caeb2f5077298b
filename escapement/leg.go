package escapement

import "math"

// Time below is in units of 1/ω0, so that a leg under a constant couple is
//
//	ÿ + ẏ/Q + y = 0,  y = x − couple/K
//
// with the solution, for ζ = 1/(2Q) and w = √(1−ζ²),
//
//	y(t) = y (C + ζS) + v S,  v(t) = v (C − ζS) − y S
//	C = e^(−ζt) cos wt,       S = e^(−ζt) sin(wt)/w

// swinger is what of the pendulum the legs need.
type swinger struct {
	zeta, w float64
}

func newSwinger(quality float64) swinger {
	z := 1 / (2 * quality)
	return swinger{z, math.Sqrt((1 - z) * (1 + z))}
}

// propagator takes a state over the time t.
type propagator struct {
	t, c, s float64
}

func (p swinger) over(t float64) propagator {
	sin, cos := math.Sincos(p.w * t)
	e := math.Exp(-p.zeta * t)
	return propagator{t, e * cos, e * sin / p.w}
}

func (p swinger) apply(m *propagator, y, v float64) (float64, float64) {
	zs := p.zeta * m.s
	return y*(m.c+zs) + v*m.s, v*(m.c-zs) - y*m.s
}

// stretch is one leg of a swing to the right: under which couple, and where it
// ends. It remembers how long it took last time: the next is nearly as long,
// so what is left to solve is a small step.
type stretch struct {
	propagator
	rest   float64 // where the couple would hold the pendulum: couple/K
	target float64 // ends where x passes this …
	turns  bool    // … or at the turning point
	step   float64 // by which the last missed the remembered time
}

// run goes from the state (x, v) to the end of the stretch; ok is false when
// the pendulum turns back before.
func (p swinger) run(l *stretch, x, v float64) (x1, v1, t float64, ok bool) {
	y, w := p.apply(&l.propagator, x-l.rest, v)
	fall := -y - 2*p.zeta*w
	jerk := -w - 2*p.zeta*fall
	if l.turns {
		if dt, ok := quick(-w, fall, jerk, jerk*-2*p.zeta-fall); ok {
			return y + l.rest + dt*(w+dt*(fall/2+dt*jerk/6)), 0, l.t + dt, true
		}
	} else if dt, ok := quick(l.target-l.rest-y, w, fall, jerk); ok && w > 0 {
		return l.target, w + dt*(fall+dt*(jerk/2+dt*(jerk*-2*p.zeta-fall)/6)), l.t + dt, true
	}
	return p.runNear(l, x-l.rest, v, y, w)
}

// quick solves gap = a t + b t²/2 + c t³/6 for t by the inverse series; ok is
// false when t is not so small that what is left out is a rounding error.
func quick(gap, a, b, c float64) (t float64, ok bool) {
	const small = 1e-4 // its square's square is a rounding error
	per := 1 / a
	h := gap * per
	b, c = b*per, c*per
	t = h * (1 - h*(b/2-h*(b*b/2-c/6)))
	return t, math.Abs(h) < small && math.Abs(b*h) < small
}
