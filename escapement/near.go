package escapement

import "math"

// near is how far from an event the series of drift is used.
const near = 1.0 / 32

// drift is the solution after a time of at most near either way, by its Taylor
// series: the first term left out is below 3e-17.
func (p swinger) drift(y, v, t float64) (float64, float64) {
	k := -2 * p.zeta
	d2 := k*v - y
	d3 := k*d2 - v
	d4 := k*d3 - d2
	d5 := k*d4 - d3
	d6 := k*d5 - d4
	d7 := k*d6 - d5
	d8 := k*d7 - d6
	yt := y + t*(v+t*(d2/2+t*(d3/6+t*(d4/24+t*(d5/120+t*(d6/720+t*(d7/5040)))))))
	vt := v + t*(d2+t*(d3/2+t*(d4/6+t*(d5/24+t*(d6/120+t*(d7/720+t*(d8/5040)))))))
	return yt, vt
}

// runNear is run for a stretch whose time differs from the one remembered by more
// than quick can make good: from (y0, v0), counted from the rest, that time would lead to (y, v).
func (p swinger) runNear(l *stretch, y0, v0, y, v float64) (x1, v1, t float64, ok bool) {
	dt := 0.0
	if l.turns {
		dt, y, v = p.toTurn(y, v)
	} else {
		dt, y, v = p.toGoal(y, v, l.target-l.rest)
	}
	if !(math.Abs(dt) < near) {
		return p.runCold(l, y0, v0)
	}
	t = l.t + dt
	// A new memory costs more than the step while the swing still changes.
	if math.Abs(dt) > near/2 || math.Abs(dt-l.step) < 2e-5 {
		l.propagator = p.over(t)
		dt = 0
	}
	l.step = dt
	return y + l.rest, v, t, true
}

// fine is the step after which a quadratic root finder has no more to find.
const fine = 1e-9

// far is a step that tells runNear to start anew.
const far = 1.0

// toGoal is the step from a state nearby to where y passes the goal upwards,
// and the state there; far when it is not near. It is Newton's method without a
// bracket, since the series gives a root to start from that one step betters to
// the last digit.
func (p swinger) toGoal(y0, v0, goal float64) (t, y, v float64) {
	if !(v0 > 0) {
		return far, y0, v0
	}
	fall := -y0 - 2*p.zeta*v0
	t, _ = quick(goal-y0, v0, fall, -v0-2*p.zeta*fall)
	for range 6 {
		if !(math.Abs(t) < near) {
			break
		}
		y, v = p.drift(y0, v0, t)
		if !(v > 0) {
			break
		}
		step := (goal - y) / v
		t += step
		if math.Abs(step) < fine {
			return t, goal, v - step*(y+2*p.zeta*v)
		}
	}
	return far, y0, v0
}

// toTurn is the step from a state nearby to the turning point on the right.
func (p swinger) toTurn(y0, v0 float64) (t, y, v float64) {
	fall := y0 + 2*p.zeta*v0
	jerk := 2*p.zeta*fall - v0
	t, _ = quick(-v0, -fall, jerk, fall-2*p.zeta*jerk)
	for range 6 {
		if !(math.Abs(t) < near && fall > 0) {
			break
		}
		y, v = p.drift(y0, v0, t)
		fall = y + 2*p.zeta*v
		step := v / fall
		t += step
		if math.Abs(step) < fine {
			return t, y + v*step/2, 0
		}
	}
	return far, y0, v0
}
