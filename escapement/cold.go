package escapement

import (
	"math"

	"evenpull/fusee/numeric"
)

// turning is the time to the turning point of a swing to the right (v not below
// 0), in closed form.
func (p swinger) turning(y, v float64) float64 {
	return math.Atan2(p.w*v, y+p.zeta*v) / p.w
}

// runCold is run without a remembered time; y is counted from the rest.
func (p swinger) runCold(l *stretch, y, v float64) (x1, v1, t float64, ok bool) {
	goal := l.target - l.rest
	if !l.turns && y >= goal { // there already
		return y + l.rest, v, 0, true
	}
	t = p.turning(y, v)
	m := p.over(t)
	top, _ := p.apply(&m, y, v)
	switch {
	case l.turns:
		l.propagator = m
		return top + l.rest, 0, t, true
	case !(top > goal):
		return 0, 0, 0, false
	}
	t = p.rising(y, v, goal, t)
	l.propagator = p.over(t)
	_, v1 = p.apply(&l.propagator, y, v)
	return l.target, v1, t, true
}

// rising is when y passes the goal on its way up, which it does between 0 and
// the time of the turning point.
func (p swinger) rising(y, v, goal, turn float64) float64 {
	start := p.guess(y, v, goal)
	if !(start > 0 && start < turn) {
		start = turn / 2
	}
	return numeric.Newton(0, turn, start, 0, func(t float64) (lacks, slope float64) {
		m := p.over(t)
		yt, vt := p.apply(&m, y, v)
		return goal - yt, vt
	})
}

// guess is the time to the goal without damping.
func (p swinger) guess(y, v, goal float64) float64 {
	r := math.Hypot(y, v)
	return math.Pi/2 + math.Asin(min(max(goal/r, -1), 1)) - math.Atan2(v, -y)
}
