package escapement

import (
	"fmt"
	"math"
	"testing"

	"github.com/golang/geo/s1"
)

// testCase is a clock of the grid.
type testCase struct {
	kind    Kind
	quality float64
	arc     float64 // whole, degrees
	times   float64 // the least torque
	margin  float64 // degrees
}

func (g testCase) String() string {
	return fmt.Sprintf("%v, Q %g, arc %g°, %g × the least torque", g.kind, g.quality, g.arc, g.times)
}

func (g testCase) clock(t testing.TB) (Clock, float64) {
	t.Helper()
	e, p := bracketClock(g.kind)
	e.Arc, e.Margin, p.Quality = WholeDegrees(g.arc), SemiDegrees(g.margin), g.quality
	c := mustNew(t, e, p)
	return c, g.times * c.LeastTorque()
}

// grid goes over the clocks that the averaged formulas are meant for.
func grid(f func(testCase)) {
	for _, kind := range kinds {
		for _, q := range []float64{40, 80, 150, 600, 5000} {
			for _, arc := range []float64{1.5, 3, 5, 8} {
				for _, times := range []float64{1.05, 1.5, 2.2, 4} {
					f(testCase{kind, q, arc, times, 0})
				}
			}
		}
	}
}

// The average against exact beats, without a margin: four times the least torque
// is then A = 2γ. A margin that is wide for the arc makes for a larger A/γ, and
// so for a larger error: see TestTurningAgainstBeats. The two share nothing but
// the data. The bounds are those set for this package: amplitude within 1 % from
// a Q of 80 and 2 % at 40; the linear rate of a recoil escapement within 0.5 %.
func TestAverageAgainstBeats(t *testing.T) {
	worstArc, worstRate := map[string]float64{}, map[string]float64{}
	cases := 0
	grid(func(g testCase) {
		cases++
		c, torque := g.clock(t)
		average, exact := c.Going(torque), settled(t, &c, torque)
		if !average.Status.Goes() || exact.Status != average.Status {
			t.Errorf("%v: %v, %v by beats", g, average.Status, exact.Status)
		}
		off := math.Abs(float64(average.Amplitude/exact.Amplitude) - 1)
		allowed := 0.01
		if g.quality < 80 {
			allowed = 0.02
		}
		if !(off < allowed) {
			t.Errorf("%v: amplitude %v, %v by beats: off by %.2g %%", g, average.Amplitude, exact.Amplitude, 100*off)
		}
		row := fmt.Sprintf("%v at Q %g", g.kind, g.quality)
		worstArc[row] = max(worstArc[row], off)

		got, want := average.Rate.Linear(), exact.Rate
		if g.kind != (DeadBeat{}) {
			off = math.Abs(got/want - 1)
			if !(off < 0.005) {
				t.Errorf("%v: rate %.6g, %.6g by beats: off by %.2g %%", g, got, want, 100*off)
			}
		} else if off = math.Abs(got-want) * g.quality * g.quality; !(off < 0.0005) {
			// A dead beat's rate can be nil, so it is measured in its own unit,
			// 1/Q²; a free pendulum loses 0.125 of it.
			t.Errorf("%v: rate %.6g, %.6g by beats", g, got, want)
		}
		worstRate[row] = max(worstRate[row], off)
	})
	if cases < 60 {
		t.Errorf("only %d cases", cases)
	}
	for row, off := range worstArc {
		t.Logf("%-22s amplitude off by %.4f %%, rate by %.2g", row, 100*off, worstRate[row])
	}
}

// What the average leaves out of the amplitude goes with 1/Q (recoil) or 1/Q²
// (a centred dead beat, whose first order is odd about the dead point).
func TestAverageNearsBeats(t *testing.T) {
	for _, kind := range kinds {
		before := 0.0
		for _, q := range []float64{80, 160, 320, 640, 1280} {
			c, torque := testCase{kind, q, 5, 4, 0.5}.clock(t)
			a, _ := c.Amplitude(torque)
			off := math.Abs(float64(a/settled(t, &c, torque).Amplitude) - 1)
			want := 2.0
			if kind == (DeadBeat{}) {
				want = 4
			}
			if before > 0 && math.Abs(before/off-want) > 0.03*want {
				t.Errorf("%v at Q %g: off by %.3g after %.3g, want %g times less", kind, q, off, before, want)
			}
			before = off
		}
	}
}

// Turning adds the next order, so it is within 1.5/Q² over the whole grid, margin
// or not: with 0.5° on an arc of 1.5°, A = 3.3γ and the plain average is off by
// 1.1 % at a Q of 80.
func TestTurningAgainstBeats(t *testing.T) {
	worst := 0.0
	grid(func(g testCase) {
		for _, g.margin = range []float64{0, 0.2, 0.5} {
			c, torque := g.clock(t)
			a, _ := c.Amplitude(torque)
			exact := settled(t, &c, torque).Amplitude
			off := math.Abs(float64(c.Turning(a)/exact) - 1)
			worst = max(worst, off*g.quality*g.quality)
			plain := math.Abs(float64(a/exact)-1) * g.quality
			if most := 0.29 * float64(a) / c.gamma; !(plain < most) {
				t.Errorf("%v, margin %g°: the average is off by %.3g/Q", g, g.margin, plain)
			}
		}
	})
	t.Logf("off by %.3g/Q² at most", worst)
	if !(worst < 1.5) {
		t.Errorf("off by %.3g/Q²", worst)
	}
}

// An impulse off the dead point: the first order of both, and what is left out
// falls one power of Q faster.
func TestLateImpulseAgainstBeats(t *testing.T) {
	for _, late := range []float64{-1, -0.4, 0.3, 0.8} {
		var arcBefore, rateBefore float64
		for _, q := range []float64{100, 200, 400, 800} {
			e, p := bracketClock(DeadBeat{})
			e.Late, p.Quality = s1.Angle(late)*s1.Degree, q
			c := mustNew(t, e, p)
			torque := 1.8 * c.LeastTorque()
			average, exact := c.Going(torque), settled(t, &c, torque)
			arc := math.Abs(float64(c.Turning(average.Amplitude)/exact.Amplitude) - 1)
			rate := math.Abs(average.Rate.Linear() - exact.Rate)
			if late*average.Rate.Escapement > 0 {
				t.Errorf("late by %g°: gains %g", late, average.Rate.Escapement)
			}
			t.Logf("late %g° Q %g: arc %.2g rate %.4g exact %.4g", late, q, arc, average.Rate.Linear(), exact.Rate)
			if arcBefore > 0 && !(arcBefore/arc > 3.7 && rateBefore/rate > 3.7) {
				t.Errorf("late by %g°, Q %g: amplitude off by %.3g after %.3g, rate by %.3g after %.3g", late, q, arc, arcBefore, rate, rateBefore)
			}
			arcBefore, rateBefore = arc, rate
		}
	}
}
