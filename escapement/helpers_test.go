package escapement

import (
	"math"
	"testing"
)

const standardGravity = 9.80665 // m/s², CGPM 1901

func closeTo(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*math.Max(1e-300, math.Abs(want))) {
		t.Errorf("%s = %.12g, want %.12g (off by %.2g, allowed %.2g)", what, got, want, got/want-1, tol)
	}
}

// bracketClock is an invented bracket clock.
func bracketClock(kind Kind) (Escapement, Pendulum) {
	return Escapement{Kind: kind, Teeth: 30, Arc: WholeDegrees(5), Drop: 0.15, Efficiency: 0.8, Margin: SemiDegrees(0.5)},
		Pendulum{Length: 0.2, Mass: 0.5, Gravity: standardGravity, Quality: 120}
}

func mustNew(t testing.TB, e Escapement, p Pendulum) Clock {
	t.Helper()
	c, err := New(e, p)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func mustBeat(t testing.TB, c *Clock, torque float64, start SemiArc) Beats {
	t.Helper()
	b, err := c.Beats(torque, start)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// settled swings a clock from its averaged amplitude until it is steady.
func settled(t testing.TB, c *Clock, torque float64) Settled {
	t.Helper()
	a, s := c.Amplitude(torque)
	if !s.Goes() {
		t.Fatalf("%v by the average", s)
	}
	b := mustBeat(t, c, torque, a)
	return b.Settle(1 << 30)
}

// finite fails on a NaN or an infinity.
func finite(t testing.TB, what string, values ...float64) {
	t.Helper()
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Errorf("%s: %v", what, values)
			return
		}
	}
}
