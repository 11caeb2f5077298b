package train

import (
	"math"
	"math/rand/v2"
	"testing"
)

// The times against the inverse hyperbolic and circular functions of the speeds
// themselves (Abramowitz and Stegun, Handbook of Mathematical Functions, 4.6 and
// 4.4; from memory), where those lose no digits.
func TestLegTimes(t *testing.T) {
	rnd := rand.New(rand.NewPCG(31, 32))
	const drag, inertia = 3e-7, 4e-7
	kinds := map[string]int{}
	for range 3000 {
		l := newLeg(math.Pow(10, 2*rnd.Float64()-1), drag, inertia)
		size := math.Pow(10, -6*rnd.Float64())
		couple, y := size, 3*rnd.Float64()
		kind, measure := "below terminal speed", math.Atanh
		switch {
		case rnd.IntN(3) == 0:
			couple, kind, measure = -size, "driven back", func(x float64) float64 { return -math.Atan(x) }
			y *= 30
		case y > 1:
			kind, measure = "above terminal speed", func(x float64) float64 { return math.Atanh(1 / x) }
		}
		unit := math.Sqrt(size / drag)
		from := y * unit
		u := l.after(from*from, couple)
		to := math.Sqrt(math.Max(u, 0))
		x := to / unit
		if u < 1e-3*from*from || math.Abs(1-x) < 1e-4 || math.Abs(1-y) < 1e-4 {
			continue
		}
		kinds[kind]++
		tally := l.tally(couple)
		tally.add(from, to)
		want := inertia / math.Sqrt(drag*size) * (measure(x) - measure(y))
		closeTo(t, kind, tally.seconds(), want, 1e-9)
	}
	for kind, n := range kinds {
		if n < 200 {
			t.Errorf("%s: %d legs only", kind, n)
		}
	}
	if len(kinds) != 3 {
		t.Errorf("%v", kinds)
	}
}

// At the terminal speed the time is the angle over the speed, however near; and
// it is continuous where the couple passes 0, where it is J/c (1/ω₁ − 1/ω₀).
func TestLegTimesAtTheLimits(t *testing.T) {
	for _, k := range []float64{1e-12, 1e-3, 1, 60, 2000} {
		const drag, inertia, couple = 3e-7, 4e-7, 2e-4
		l := newLeg(k*inertia/(2*drag), drag, inertia)
		steady := math.Sqrt(couple / drag)
		for _, off := range []float64{0, 1e-15, -1e-12} {
			from := steady * (1 + off)
			tally := l.tally(couple)
			tally.add(from, math.Sqrt(l.after(from*from, couple)))
			closeTo(t, "terminal speed", tally.seconds(), l.angle/steady, 1e-11)
		}
		if k > 100 {
			continue // without a couple it takes for ever
		}
		for _, couple := range []float64{0, 1e-60, -1e-60} {
			tally := l.tally(couple)
			to := math.Sqrt(l.after(20*20, couple))
			tally.add(20, to)
			closeTo(t, "no couple", tally.seconds(), inertia/drag*math.Expm1(k/2)/20, 1e-11)
		}
	}
}
