package choose

import (
	"math"

	"evenpull/sim"
)

// made makes strips of the scenario's steel, of a width (mm), each as long as fills a
// share of the barrel.
type made struct {
	*fitter
	width, fill float64
}

// length is that (mm) of a strip of a thickness.
func (m *made) length(thickness float64) float64 {
	s := m.madeOf(m.width, thickness, 0)
	return m.fill * s.LongestFor(m.train.Drive.Housing) / mm
}

// run runs the train down with a strip of a thickness in mm and a set-up in turns.
func (m *made) run(thickness, setUp float64, o sim.Options) (*sim.Result, error) {
	m.strip = m.madeOf(m.width, thickness, m.length(thickness))
	return m.fitter.run(setUp, o)
}

// mean is the mean torque (N·m) with a thickness and a set-up; NaN when it cannot be
// run.
func (m *made) mean(thickness, setUp float64) float64 {
	d := &m.train.Drive
	d.Spring, d.Barrel.SetUp = m.madeOf(m.width, thickness, m.length(thickness)), setUp
	w, err := d.Wind()
	if err != nil {
		return math.NaN()
	}
	return w.MeanTorque()
}

// thickness finds the one (mm) that gives a mean torque with a set-up, near a guess:
// the torque grows with it, until so few turns are left that nothing can be wound.
func (m *made) thickness(mean, guess, setUp float64) (h float64, ok bool) {
	over := func(x float64) float64 { // what cannot be run is too thick
		if v := math.Log(m.mean(math.Exp(x), setUp) / mean); !math.IsNaN(v) {
			return v
		}
		return 1
	}
	const step = 0.02
	lo := math.Log(max(thinnest, min(guess, thickest)))
	for ; over(lo) > 0; lo -= step {
		if lo <= math.Log(thinnest) {
			return 0, false
		}
	}
	hi := lo
	for ; !(over(hi) > 0); hi += step {
		if hi >= math.Log(thickest) {
			return 0, false
		}
	}
	h = math.Exp(root(hi-step, hi, over))
	return h, math.Abs(m.mean(h, setUp)/mean-1) < 1e-6
}

// root is where a function that rises comes to 0, to 1e-11 of it, by false positions
// whose end that stays is given half its weight (the Illinois rule).
func root(lo, hi float64, f func(float64) float64) float64 {
	a, b := f(lo), f(hi)
	for range 60 {
		x := (lo*b - hi*a) / (b - a)
		y := f(x)
		switch {
		case math.Abs(y) < 1e-11 || !(x > lo && x < hi):
			return x
		case y > 0:
			hi, b, a = x, y, a/2
		default:
			lo, a, b = x, y, b/2
		}
	}
	return (lo + hi) / 2
}
