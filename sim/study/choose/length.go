package choose

import (
	"sort"

	"evenpull/sim"
	"evenpull/sim/rules"
)

// lengths is the number of lengths that are looked at first.
const lengths = 16

// cut is the length in mm at which a spring that may be cut is fitted, and its turns
// there: the longest that goes in, unless a shorter one, in whole mm, that leaves the
// turns to spare changes the verdict for the better; then the longest with the best
// verdict that can be had. Where none has turns enough it is the one with the most.
func (f *fitter) cut(longest, turns float64) (length, has float64) {
	top := int(longest)
	most := shortest + sort.Search(top-shortest, func(i int) bool { // turns rise with the length, then fall
		return f.turns(float64(shortest+i+1)) < f.turns(float64(shortest+i))
	})
	if f.turns(float64(most)) > turns && turns < f.takes {
		longest, turns = float64(most), f.turns(float64(most))
	}
	enough := f.takes + f.advice.TurnsToSpare
	if f.turns(float64(most)) < enough {
		return longest, turns
	}
	best, at := f.promise(longest), longest
	if best.Sound() && f.advice.Spares(best.Left) {
		return longest, turns
	}
	lo := shortest + sort.Search(most-shortest, func(i int) bool { return f.turns(float64(shortest+i)) >= enough })
	hi := most + sort.Search(top-most, func(i int) bool { return f.turns(float64(most+i+1)) < enough })
	step := max(1, (hi-lo)/lengths)
	worse := hi + 1 // longer than at
	for i := hi; i >= lo; i -= step {
		if p := f.promise(float64(i)); f.improves(&p, &best) {
			best, at, worse = p, float64(i), min(i+step, hi+1)
		}
	}
	if at == longest {
		return longest, turns
	}
	from := int(at)
	at += float64(sort.Search(worse-from-1, func(i int) bool {
		p := f.promise(float64(from + i + 1))
		return f.improves(&best, &p)
	}))
	return at, f.turns(at)
}

// improves tells whether a standing is better than another by verdict, faults, or by
// leaving the turns to spare.
func (f *fitter) improves(s, than *rules.Standing) bool {
	return s.Beats(than) || !than.Beats(s) && f.advice.Spares(s.Left) && !f.advice.Spares(than.Left)
}

// promise is the best that the strip comes to at a length in mm with any set-up, but
// for the unevenness. The torque at every turn rises with the set-up, so the clicks of
// a verdict stand together and are found by halving.
func (f *fitter) promise(length float64) rules.Standing {
	f.strip.Length = length * mm
	at := func(click int) rules.Standing {
		r, err := f.run(float64(click)/f.train.Clicks, sim.Options{TorqueOnly: true})
		if err != nil {
			return rules.Standing{}
		}
		return r.Standing()
	}
	n := f.clicks(length)
	first := sort.Search(n, func(i int) bool { return at(i).Code >= rules.Suits })
	if first == n {
		first = sort.Search(n-1, func(i int) bool { return at(i).Code >= rules.Thin })
	}
	best := at(first)
	for _, i := range [2]int{first - 1, first + 1} { // thin comes before overdriven, and no set-up is a fault
		if s := at(max(0, min(i, n-1))); s.Beats(&best) {
			best = s
		}
	}
	return best
}
