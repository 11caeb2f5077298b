package choose

import (
	"math"
	"slices"
	"sort"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/study/setup"
)

// lengths is the number of lengths that are looked at first.
const lengths = 16

// cut is the length in mm at which a spring that may be cut is fitted, and its turns
// there: the longest that goes in, unless a shorter one, in whole mm, that leaves the
// turns to spare changes the verdict for the better; then the longest with the best
// verdict that can be had. Where none leaves them it is the longest, or the one with
// the most turns when the longest has too few.
func (f *fitter) cut(longest, turns float64) (length, has float64) {
	best, at := rules.Standing{Code: rules.Stops, Faults: math.MaxInt}, longest // it binds
	if turns >= f.takes {
		if best = f.promise(longest); best.Sound() && f.advice.Spares(best.Spare) {
			return longest, turns
		}
	}
	lo, most, hi := f.between(longest)
	if f.room(float64(most)) < 0 {
		if n := f.turns(float64(most)); turns < f.takes && n > turns {
			return float64(most), n
		}
		return longest, turns
	}
	longer, last := hi, hi
	for _, i := range f.worth(lo, most, hi) {
		if p := f.promise(float64(i)); f.improves(&p, &best) {
			best, at, longer = p, float64(i), last
		}
		last = i - 1
	}
	if at == longest {
		return longest, turns
	}
	at = float64(first(int(at), longer, func(i int) bool {
		p := f.promise(float64(i + 1))
		return f.improves(&best, &p)
	}))
	return at, f.turns(at)
}

// between are the shortest and the longest length in whole mm, up to one, that leave room
// for a set-up, and that which leaves most: turns rise with the length, then fall.
func (f *fitter) between(longest float64) (lo, most, hi int) {
	top := int(longest)
	most = first(shortest, top, func(i int) bool { return f.room(float64(i+1)) < f.room(float64(i)) })
	lo = first(shortest, most, func(i int) bool { return f.room(float64(i)) >= 0 })
	hi = first(most, top, func(i int) bool { return f.room(float64(i+1)) < 0 })
	return lo, most, hi
}

// centre fits a spring at the length, shorter than its present one, at which its torque lies
// furthest inside the limits of what suits, or the longest that is nearly as good; it tells
// whether there is one where it does further than now.
func (f *fitter) centre(c *Candidate) bool {
	const nearly = 0.01
	f.strip = f.stripOf(&c.Spring)
	lo, most, hi := f.between(c.Length())
	if f.room(float64(most)) < 0 {
		return false
	}
	best, found := inside(&c.Digest)+nearly, false
	for _, i := range f.worth(lo, most, hi) {
		f.strip.Length = float64(i) * mm
		if d, err := f.setUp(); err == nil && float64(i) < c.Length() && inside(d) > best {
			best, found = inside(d)+nearly, true
			c.CutTo, c.Digest = float64(i), *d
		}
	}
	return found
}

// inside is how far the torque lies inside the limits of what suits.
func inside(d *sim.Digest) float64 { return d.Standard.Inside(d.Torque.Min, d.Torque.Mean) }

// worth are the lengths to look at, the longest first: evenly from the longest to the
// shortest, and the longest that leaves room for each click of the ratchet.
func (f *fitter) worth(shortest, most, longest int) []int {
	var all []int
	for i := longest; i >= shortest; i -= max(1, (longest-shortest)/lengths) {
		all = append(all, i)
	}
	for n := range setup.Clicks(f.room(float64(most)), f.train.Clicks) {
		room := float64(n) / f.train.Clicks
		all = append(all, first(most, longest, func(i int) bool { return f.room(float64(i+1)) < room }))
	}
	slices.Sort(all)
	slices.Reverse(all)
	return slices.Compact(all)
}

// first is the first number from lo on, hi at the latest, for which something holds
// that holds for all after it.
func first(lo, hi int, holds func(i int) bool) int {
	return lo + sort.Search(hi-lo, func(i int) bool { return holds(lo + i) })
}

// improves tells whether a standing is better than another by verdict, faults, or by
// leaving the turns to spare.
func (f *fitter) improves(s, than *rules.Standing) bool {
	return s.Beats(than) || !than.Beats(s) && f.advice.Spares(s.Spare) && !f.advice.Spares(than.Spare)
}

// promise is the best that the strip comes to at a length in mm with any set-up, but
// for the unevenness. The torque at every turn rises with the set-up, so the clicks of
// a verdict stand together and are found by halving.
func (f *fitter) promise(length float64) rules.Standing {
	f.strip.Length = length * mm
	seen := map[int]rules.Standing{}
	at := func(click int) rules.Standing {
		s, known := seen[click]
		if known {
			return s
		}
		if r, err := f.run(float64(click)/f.train.Clicks, sim.Options{TorqueOnly: true}); err == nil {
			s = r.Standing()
		}
		seen[click] = s
		return s
	}
	n := f.clicks(length)
	least, top := n-1, at(n-1)
	if goal := min(top.Code, rules.Suits); goal > rules.Stops {
		least = first(0, n-1, func(i int) bool { return at(i).Code >= goal })
	}
	best := at(least)
	for _, i := range [2]int{least - 1, least + 1} { // thin comes before overdriven, and no set-up is a fault
		if s := at(max(0, min(i, n-1))); s.Beats(&best) {
			best = s
		}
	}
	return best
}
