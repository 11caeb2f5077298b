package choose

import (
	"math"

	"evenpull/fusee/mainspring"
	"evenpull/sim"
)

const (
	// stepsPerTurn are the set-ups tried in a turn: a ratchet has no finer ones.
	stepsPerTurn = 20
	// asEven is how much less even than the most even a longer strip may be and still be
	// preferred: no one feels it, and what is not cut off can still be.
	asEven = 1.01
	// lengths and setUps are the points of the first grid.
	lengths, setUps = 10, 8
	// mostSetUp is the greatest set-up (turns) that a scenario takes.
	mostSetUp = 60
)

// lengthAt is a length in mm. Lengths are tried to the whole millimetre; the
// greatest is that of the strip itself.
func (f *fitter) lengthAt(i int) float64 {
	if float64(i) > f.longest-1 {
		return f.longest
	}
	return float64(i)
}

// turns are those available at a length.
func (f *fitter) turns(i int) float64 {
	s := f.strip
	s.Length = f.lengthAt(i) * mm
	c, err := mainspring.New(s, f.train.Drive.Housing)
	if err != nil {
		return 0
	}
	return c.Turns()
}

// cover finds the lengths at which the strip covers the turns of the fusee with
// the spare ones; when there are none, the one with the most turns, and what there
// is to spare. Turns rise with the length up to about half a barrel full, then fall.
func (f *fitter) cover(mayBeCut bool) {
	top := int(math.Floor(f.longest))
	most := top
	if mayBeCut {
		most = f.mostTurns(shortest, top)
	}
	f.lo, f.hi, f.spare = most, most, spare
	if left := f.turns(most) - f.takes; left < spare || !mayBeCut {
		f.spare = min(spare, max(left, 0))
		return
	}
	enough := f.takes + spare
	f.lo = f.border(most, shortest, enough)
	f.hi = f.border(most, top, enough)
}

// mostTurns is the length with the most turns, by a scan and then by halves.
func (f *fitter) mostTurns(lo, hi int) int {
	best, most := hi, f.turns(hi)
	step := max(1, (hi-lo)/32)
	for i := lo; i < hi; i += step {
		if n := f.turns(i); n > most {
			best, most = i, n
		}
	}
	for step /= 2; step > 0; step /= 2 {
		for _, i := range [2]int{best - step, best + step} {
			if n := f.turns(max(lo, min(i, hi))); n > most {
				best, most = max(lo, min(i, hi)), n
			}
		}
	}
	return best
}

// border is the length farthest from one with enough turns, towards another, that
// still has enough.
func (f *fitter) border(in, out int, enough float64) int {
	if f.turns(out) >= enough {
		return out
	}
	for out-in > 1 || in-out > 1 {
		if mid := (in + out) / 2; f.turns(mid) >= enough {
			in = mid
		} else {
			out = mid
		}
	}
	return in
}

// spot is a length and a set-up, in steps, with the unevenness there.
type spot struct {
	length, setUp int
	even          float64
}

// search finds the length and set-up that make the run most even, and of lengths
// that are nearly as even the longest.
func (f *fitter) search() spot {
	best := spot{even: math.Inf(1)}
	step := max(1, (f.hi-f.lo)/lengths)
	for i := f.hi; i >= f.lo; i -= step {
		if s := f.scan(i); s.even < best.even {
			best = s
		}
	}
	for step = (step + 1) / 2; ; step /= 2 {
		for _, i := range [2]int{best.length + step, best.length - step} {
			if i < f.lo || i > f.hi {
				continue
			}
			if s := f.descend(i, best.setUp, 4); s.even < best.even {
				best = s
			}
		}
		if step <= 1 {
			return f.longer(best)
		}
	}
}

// longer is the longest strip that is nearly as even as the best.
func (f *fitter) longer(best spot) spot {
	limit := best.even * asEven
	out := f.scan(f.hi)
	if out.even <= limit {
		return out
	}
	in := best
	for out.length-in.length > 1 {
		if mid := f.descend((in.length+out.length)/2, in.setUp, 4); mid.even <= limit {
			in = mid
		} else {
			out = mid
		}
	}
	return in
}

// most is the greatest set-up at a length, in steps.
func (f *fitter) most(i int) int {
	room := math.Min(f.turns(i)-f.takes-f.spare, mostSetUp)
	return int(math.Floor(room*stepsPerTurn + 1e-9))
}

// scan finds the best set-up at a length, from a grid over all of them.
func (f *fitter) scan(i int) spot {
	most := f.most(i)
	step := max(1, (most+setUps-1)/setUps)
	best := spot{i, 0, math.Inf(1)}
	for k := 0; k <= most; k += step {
		if e := f.even(i, k); e < best.even {
			best = spot{i, k, e}
		}
	}
	return f.descend(i, best.setUp, (step+1)/2)
}

// descend finds the best set-up at a length near a given one.
func (f *fitter) descend(i, near, step int) spot {
	most := max(f.most(i), 0)
	k := max(0, min(near, most))
	best := spot{i, k, f.even(i, k)}
	for ; step > 0; step /= 2 {
		for _, way := range [2]int{step, -step} {
			for k := best.setUp + way; k >= 0 && k <= most; k += way {
				e := f.even(i, k)
				if !(e < best.even) {
					break
				}
				best = spot{i, k, e}
			}
		}
	}
	return best
}

// even is the unevenness at a length with a set-up; +Inf where it cannot be run.
func (f *fitter) even(i, k int) float64 {
	d := &f.drive.Drive
	d.Spring = f.strip
	d.Spring.Length, d.Barrel.SetUp = f.lengthAt(i)*mm, float64(k)/stepsPerTurn
	if err := f.drive.Run(sim.Options{}, &f.result); err != nil || math.IsNaN(f.result.Torque.Unevenness) {
		return math.Inf(1)
	}
	return f.result.Torque.Unevenness
}
