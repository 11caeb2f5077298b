package choose

import (
	"math"

	"evenpull/fusee/numeric"
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
	x, _ := numeric.Root(hi-step, hi, 1e-12, over)
	h = math.Exp(x)
	return h, math.Abs(m.mean(h, setUp)/mean-1) < 1e-6
}
