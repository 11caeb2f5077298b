package choose

import (
	"math"

	"evenpull/fusee/mainspring"
	"evenpull/sim"
)

// made is a strip of a width that gives the mean torque with a set-up.
type made struct {
	setUp     int     // steps
	thickness float64 // mm
	even      float64
	short     float64 // turns that it lacks of the spare ones
	binds     bool    // before the fusee is wound
	ok        bool    // there is such a strip
}

// better tells whether a strip is to be preferred: the spare turns come first.
func (m *made) better(than *made) bool {
	const same = 1e-9
	switch {
	case m.ok != than.ok:
		return m.ok
	case math.Abs(m.short-than.short) > same:
		return m.short < than.short
	}
	return m.even < than.even
}

// make finds the thickness for a set-up, near a guess.
func (f *fitter) make(mean, width, guess float64, setUp int) made {
	m := made{setUp: setUp}
	f.setUp = float64(setUp) / stepsPerTurn
	if m.thickness, m.ok = f.thicknessFor(mean, width, guess); m.ok {
		r := &f.result
		m.even = r.Torque.Unevenness
		m.short = max(0, spare-(r.Spring.Available-r.Spring.Used-f.setUp)) + r.TurnsLost
		m.binds = r.TurnsLost > 0
	}
	return m
}

// settle finds thickness and set-up together for a width: of the strips that give
// the mean torque, each with a set-up, the most even that leaves the spare turns.
func (f *fitter) settle(mean, width, guess float64) made {
	best := f.make(mean, width, guess, int(math.Round(f.setUp*stepsPerTurn)))
	if !best.ok {
		best = f.make(mean, width, guess, 0) // what is set up less has more turns for the fusee
	}
	if !best.ok {
		return best
	}
	const most = mostSetUp * stepsPerTurn
	for step := stepsPerTurn / 2; step > 0; step /= 2 {
		for _, way := range [2]int{step, -step} {
			for k := best.setUp + way; k >= 0 && k <= most; k += way {
				m := f.make(mean, width, best.thickness, k)
				if !m.better(&best) {
					break
				}
				best = m
			}
		}
	}
	return best
}

// own makes the strip one of the scenario's own steel.
func (f *fitter) own() {
	f.strip = f.base
	f.strip.Form, f.strip.Yield, f.strip.FreeCoils = f.steel.Form, f.steel.Yield, 0
}

// lengthFor is the length (mm) at which a strip of a thickness fills the barrel to
// the share that is held.
func (f *fitter) lengthFor(thickness float64) float64 {
	strip := mainspring.Strip{Thickness: thickness * mm}
	return f.fill * strip.LongestFor(f.train.Drive.Housing) / mm
}

// meanOf is the mean torque (N·m) of a strip of the own steel, width and thickness
// in mm, with the set-up at hand; NaN when it cannot be run.
func (f *fitter) meanOf(width, thickness float64) float64 {
	f.own()
	d := &f.drive.Drive
	d.Spring = f.strip
	d.Spring.Width, d.Spring.Thickness, d.Spring.Length = width*mm, thickness*mm, f.lengthFor(thickness)*mm
	d.Barrel.SetUp = f.setUp
	if err := f.drive.Run(sim.Options{}, &f.result); err != nil {
		return math.NaN()
	}
	return f.result.Torque.Mean
}

// thicknessFor finds the thickness (mm) that gives a mean torque, near a guess: the
// torque grows with it, until so few turns are left that nothing can be wound.
func (f *fitter) thicknessFor(mean, width, guess float64) (float64, bool) {
	enough := func(h float64) bool { return !(f.meanOf(width, h) < mean) } // what cannot be run is too thick
	lo := max(thinnest, min(guess, thickest))
	for ; enough(lo); lo /= 1.05 {
		if lo <= thinnest {
			return 0, false
		}
	}
	hi := lo
	for ; !enough(hi); hi *= 1.05 {
		if hi >= thickest {
			return 0, false
		}
	}
	for range 60 {
		mid := math.Sqrt(lo * hi)
		if !(mid > lo && mid < hi) {
			break
		}
		if enough(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi, math.Abs(f.meanOf(width, hi)/mean-1) < 1e-6
}
