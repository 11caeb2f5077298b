package assign

import (
	"math"
	"slices"

	"evenpull/sim/rules"
)

// nearTie is the difference of the sums of Off below which two choices with the
// same verdicts are called nearly as good as each other.
const nearTie = 0.05

// ranks orders verdicts, the worst first.
var ranks = [...]rules.Code{rules.Stops, rules.Overdriven, rules.Thin, rules.Strong, rules.Suits, rules.Unjudged}

// cost is how bad a choice is: the number of its pairs of each verdict, the worst
// first, and how far off they lie together.
type cost struct {
	counts [len(ranks)]int
	off    float64
}

func (c cost) plus(p *Pair) cost {
	c.counts[slices.Index(ranks[:], p.Verdict)]++
	off := math.Abs(p.Off)
	if math.IsNaN(off) || math.IsInf(off, 0) {
		off = 1e6 // as far as can be
	}
	c.off += off
	return c
}

// less tells whether c is better than d.
func (c cost) less(d cost) bool {
	// Suits and unjudged are no fault.
	for i := range ranks[:len(ranks)-2] {
		if c.counts[i] != d.counts[i] {
			return c.counts[i] < d.counts[i]
		}
	}
	return c.off < d.off
}

func (c cost) same(d cost) bool { return c.counts == d.counts }

// choose finds the best choice and the next.
func (st *Study) choose() {
	best, c, _ := st.cheapest(-1)
	st.Best = st.choices(best)
	next, found := cost{}, false
	for _, at := range best {
		// Without one of its pairs every other choice is in reach.
		other, d, ok := st.cheapest(at)
		if ok && (!found || d.less(next)) {
			next, found = d, true
			st.Next = st.choices(other)
		}
	}
	st.NearTie = found && c.same(next) && next.off-c.off < nearTie
	for _, at := range best {
		st.Unsure = st.Unsure || !st.Pairs[at].Sure
	}
}

func (st *Study) choices(pairs []int) []Choice {
	list := make([]Choice, len(pairs))
	for i, at := range pairs {
		list[i] = Choice{st.Pairs[at].Spring, st.Pairs[at].Train}
	}
	slices.SortFunc(list, func(a, b Choice) int { return st.train(a.Train) - st.train(b.Train) })
	return list
}

func (st *Study) train(name string) int {
	return slices.IndexFunc(st.Needs, func(n Need) bool { return n.Train == name })
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
