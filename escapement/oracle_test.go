package escapement

import (
	"math"
	"testing"

	"github.com/golang/geo/s1"
)

// stepper is an independent integrator to check against: the classical fourth
// order Runge–Kutta step, events met by shortening the last step. With wide
// set, the restoring couple is K sin x; time is in 1/ω0.
type stepper struct {
	quality, step float64
	wide          bool
}

func (s stepper) accel(x, v, rest float64) float64 {
	if s.wide {
		x = math.Sin(x)
	}
	return rest - x - v/s.quality
}

func (s stepper) over(x, v, rest, h float64) (float64, float64) {
	a1 := s.accel(x, v, rest)
	v2 := v + h/2*a1
	a2 := s.accel(x+h/2*v, v2, rest)
	v3 := v + h/2*a2
	a3 := s.accel(x+h/2*v2, v3, rest)
	v4 := v + h*a3
	a4 := s.accel(x+h*v3, v4, rest)
	return x + h/6*(v+2*v2+2*v3+v4), v + h/6*(a1+2*a2+2*a3+a4)
}

// until steps to where x passes the target, or to the turning point.
func (s stepper) until(x, v, rest, target float64, turn bool) (x1, v1, t float64, ok bool) {
	left := func(x, v float64) float64 {
		if turn {
			return v
		}
		return target - x
	}
	for {
		nx, nv := s.over(x, v, rest, s.step)
		if left(nx, nv) <= 0 {
			break
		}
		if nv < 0 {
			return 0, 0, 0, false
		}
		x, v, t = nx, nv, t+s.step
	}
	lo, hi := 0.0, s.step
	for range 52 {
		mid := (lo + hi) / 2
		if left(s.over(x, v, rest, mid)) > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	x1, v1 = s.over(x, v, rest, hi)
	return x1, v1, t + hi, true
}

// swing goes from rest at −arc to the next turning point.
func (s stepper) swing(c *Clock, torque, arc float64) (float64, float64, bool) {
	rest := c.couple * torque / c.stiff
	x, v, t := -arc, 0.0, 0.0
	after := -rest
	if c.escapement.Kind == (DeadBeat{}) {
		var ok bool
		if x, v, t, ok = s.until(x, v, 0, c.late-c.gamma, false); !ok {
			return 0, 0, false
		}
		after = 0
	}
	x, v, dt, ok := s.until(x, v, rest, c.late+c.gamma, false)
	if !ok {
		return 0, 0, false
	}
	x, _, end, _ := s.until(x, v, after, 0, true)
	return x, t + dt + end, true
}

func oracleCases(t testing.TB, f func(name string, c *Clock, torque float64)) {
	for _, kind := range kinds {
		e, p := bracketClock(kind)
		if kind == (Verge{}) {
			e.Arc, e.Margin, p.Length = WholeDegrees(8), 0, 0.15
		}
		if kind == (DeadBeat{}) {
			e.Late, p.Quality = 0.4*s1.Degree, 300
		}
		c := mustNew(t, e, p)
		f(kind.String(), &c, 1.7*c.LeastTorque())
	}
}

// The stepper nears Beats as the fourth power of its step, in arc and time, on
// the way up and on the way down: Beats has no step, so the difference is all
// the stepper's.
func TestStepperNearsBeats(t *testing.T) {
	oracleCases(t, func(name string, c *Clock, torque float64) {
		a, _ := c.Amplitude(torque)
		for _, start := range []SemiArc{a * 0.9, a * 1.5} {
			b := mustBeat(t, c, torque, start)
			arc, seconds := float64(start), 0.0
			for range 7 {
				beat := b.Step()
				seconds += beat.Seconds
			}
			pulse := c.pendulum.Pulse()
			var arcBefore, timeBefore float64
			for _, n := range []float64{40, 80, 160} {
				s := stepper{quality: c.pendulum.Quality, step: 2 * math.Pi / n}
				x, time := arc, 0.0
				for range 7 {
					next, dt, ok := s.swing(c, torque, x)
					if !ok {
						t.Fatalf("%s: the stepper stops", name)
					}
					x, time = next, time+dt
				}
				arcOff, timeOff := math.Abs(x/float64(b.Arc())-1), math.Abs(time/(seconds*pulse)-1)
				if n > 40 && !(arcBefore/arcOff > 12 && timeBefore/timeOff > 12) {
					t.Errorf("%s, %g steps a period: arc off by %.3g after %.3g, time by %.3g after %.3g", name, n, arcOff, arcBefore, timeOff, timeBefore)
				}
				arcBefore, timeBefore = arcOff, timeOff
			}
			if !(arcBefore < 1e-6 && timeBefore < 1e-6) {
				t.Errorf("%s: off by %g in the arc, %g in time", name, arcBefore, timeBefore)
			}
		}
	})
}

// The whole rate, circular error kept in both, against the pendulum with
// K sin x: the bound set for this package is 0.5 %.
func TestWholeRateAgainstSine(t *testing.T) {
	oracleCases(t, func(name string, c *Clock, torque float64) {
		g := c.Going(torque)
		s := stepper{quality: c.pendulum.Quality, step: 2 * math.Pi / 100, wide: true}
		arc, time := float64(g.Amplitude), 0.0
		for range int(4 * c.pendulum.Quality) {
			next, dt, ok := s.swing(c, torque, arc)
			if !ok {
				t.Fatalf("%s: the stepper stops", name)
			}
			arc, time = next, dt
		}
		rate := math.Pi/time - 1
		t.Logf("%s: %.6g, by steps %.6g (circular %.3g, escapement %.3g, damping %.3g)", name, g.Rate.Total(), rate, g.Rate.Circular, g.Rate.Escapement, g.Rate.Damping)
		parts := math.Abs(g.Rate.Circular) + math.Abs(g.Rate.Escapement) + math.Abs(g.Rate.Damping)
		if off := math.Abs(g.Rate.Total() - rate); !(off < 0.005*math.Abs(rate)) {
			t.Errorf("%s: rate %.6g, by steps %.6g: off by %.3g %%, of its parts %.3g %%", name, g.Rate.Total(), rate, 100*math.Abs(off/rate), 100*off/parts)
		}
		if off := math.Abs(float64(g.Amplitude)/arc - 1); !(off < 0.01) {
			t.Errorf("%s: amplitude %g, by steps %g", name, float64(g.Amplitude), arc)
		}
	})
}
