package assign

import (
	"cmp"
	"math"
	"slices"

	"evenpull/sim/rules"
)

// nearTie is the difference of the sums of Off below which two choices with the
// same verdicts are called nearly as good as each other.
const nearTie = 0.05

// cost is how bad a choice is: how many of its pairs have each verdict, by its place
// among verdicts, how many have faults or too few turns to spare, and how far off
// they lie together.
type cost struct {
	verdicts [rules.Overdriven + 1]int
	faults   int
	tight    int
	off      float64
}

func (c cost) plus(p *Pair) cost {
	s := p.Standing()
	c.verdicts[s.Code.Place()]++
	if s.Faults > 0 {
		c.faults++
	}
	if p.Whole && !p.Advice.Spares(s.Spare) {
		c.tight++
	}
	off := math.Abs(p.Off)
	if math.IsNaN(off) || math.IsInf(off, 0) {
		off = 1e6 // as far as can be
	}
	c.off += off
	return c
}

// compare is below 0 when c is better than d by its verdicts, the worst first, its
// faults, and the turns to spare.
func (c *cost) compare(d *cost) int {
	order := rules.BestFirst()
	for i := len(order) - 1; i >= 0; i-- {
		if order[i] == rules.Suits || order[i] == rules.Unjudged {
			continue // no fault
		}
		if c.verdicts[i] != d.verdicts[i] {
			return c.verdicts[i] - d.verdicts[i]
		}
	}
	return cmp.Or(c.faults-d.faults, c.tight-d.tight)
}

// less tells whether c is better than d.
func (c cost) less(d cost) bool {
	by := c.compare(&d)
	return by < 0 || by == 0 && c.off < d.off
}

// choose finds the best choice and the next.
func (st *Study) choose() {
	best, c, _ := st.cheapest(-1)
	next, found := cost{}, false
	for _, at := range best {
		// Without one of its pairs every other choice is in reach.
		other, d, ok := st.cheapest(at)
		if ok && (!found || d.less(next)) {
			next, found = d, true
			st.Second = st.inOrder(other)
		}
	}
	st.Best = st.inOrder(best)
	st.NearTie = found && c.compare(&next) == 0 && next.off-c.off < nearTie
	for _, at := range best {
		st.Pairs[at].Chosen = true
	}
}

// inOrder sorts pairs by their trains.
func (st *Study) inOrder(pairs []int) []int {
	return slices.SortedFunc(slices.Values(pairs), func(a, b int) int { return a%len(st.Needs) - b%len(st.Needs) })
}

// state is the best way to have given out some of the fewer things.
type state struct {
	cost
	ok    bool
	pairs []int
}

// cheapest finds the one-to-one choice of least cost that gives every train a
// spring, or every spring a train if these are fewer; forbidden is a pair that may
// not be in it. It goes through the more things one by one and keeps the best way
// to every set of the fewer (R. Bellman's dynamic programming).
func (st *Study) cheapest(forbidden int) ([]int, cost, bool) {
	springs, trains := len(st.Springs), len(st.Needs)
	more, fewer := springs, trains
	pair := func(a, b int) int { return a*trains + b }
	if trains > springs {
		more, fewer = trains, springs
		pair = func(a, b int) int { return b*trains + a }
	}
	states := make([]state, 1<<fewer)
	states[0].ok = true
	for a := range more {
		// From the fullest sets down, so that each thing is given once.
		for set := len(states) - 1; set >= 0; set-- {
			if !states[set].ok {
				continue
			}
			for b := range fewer {
				at := pair(a, b)
				if set&(1<<b) != 0 || at == forbidden {
					continue
				}
				to := &states[set|1<<b]
				if c := states[set].plus(&st.Pairs[at]); !to.ok || c.less(to.cost) {
					*to = state{c, true, append(slices.Clone(states[set].pairs), at)}
				}
			}
		}
	}
	last := states[len(states)-1]
	return last.pairs, last.cost, last.ok
}
