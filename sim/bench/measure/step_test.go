package measure

import (
	"math"
	"math/rand/v2"
	"testing"
)

// What the step's errors of two readings have in common is what drawn ones have: alike, a
// little and half a step apart, with little jitter and with much.
func TestStepCovarianceOfDraws(t *testing.T) {
	random := rand.New(rand.NewPCG(8, 8))
	const step, n = 2.0, 300_000
	for _, jitter := range []float64{0, 0.1, 0.3, 0.6, 1} {
		for _, apart := range []float64{0, 0.3, -0.5, 1, 1.7, 2, 6.5} {
			sum := 0.0
			for range n {
				truth := step * random.Float64()
				r := func(x float64) float64 { return step*math.Round(x/step) - x }
				sum += r(truth+jitter*random.NormFloat64()) * r(truth+apart+jitter*random.NormFloat64()) / n
			}
			if got := StepCovariance(step, jitter, apart); math.Abs(got-sum) > 0.004 {
				t.Errorf("jitter %v, %v apart: %v, drawn %v", jitter, apart, got, sum)
			}
		}
	}
}

// Limits: q²/12 of readings that do not stray (JCGM 100:2008, F.2.2.1), −q²/24 of such half
// a step apart (closed form), nothing of readings that stray widely, or without a step. The
// series and its closed form meet.
func TestStepCovarianceLimits(t *testing.T) {
	for _, c := range []struct{ step, jitter, apart, want float64 }{
		{3, 0, 0, 0.75}, {3, 0, 3, 0.75}, {3, 0, -6, 0.75}, {3, 0, 1.5, -0.375}, {3, 0, 4.5, -0.375}, {3, 30, 0, 0}, {3, 30, 1, 0}, {0, 0, 1, 0}, {0, 1, 0, 0}, {1, 0.5, 0, math.Exp(-math.Pi*math.Pi) / (2 * math.Pi * math.Pi)},
	} {
		if got := StepCovariance(c.step, c.jitter, c.apart); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%+v: %v", c, got)
		}
	}
	for _, apart := range []float64{0, 0.1, 0.25, 0.5, 0.9} {
		if series, closed := StepCovariance(1, 1e-4, apart), StepCovariance(1, 0, apart); math.Abs(series-closed) > 2e-4 {
			t.Errorf("%v apart: %v, in closed form %v", apart, series, closed)
		}
	}
}

// Readings that are drawn about a torque that may stand anywhere, and written down to the
// step, tell by how they vary how far they stray.
func TestJitterOfDraws(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 9))
	const step, n = 1.0, 300_000
	for _, jitter := range []float64{0.05, 0.2, 0.5, 1.5} {
		variance := 0.0
		for range n {
			truth := random.Float64()
			r := func() float64 { return step * math.Round((truth+jitter*random.NormFloat64())/step) }
			d := r() - r()
			variance += d * d / 2 / n
		}
		if got := Jitter(step, variance); math.Abs(got/jitter-1) > 0.02 {
			t.Errorf("%v, want %v", got, jitter)
		}
	}
	if Jitter(1, 0) != 0 || Jitter(0, 4) != 2 {
		t.Errorf("%v of none, %v without a step", Jitter(1, 0), Jitter(0, 4))
	}
}
