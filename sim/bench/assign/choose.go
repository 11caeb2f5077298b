package assign

import (
	"cmp"
	"math"
	"slices"

	"evenpull/sim"
	"evenpull/sim/rules"
)

// outcome is what a choice goes by of a pair.
type outcome struct {
	code     rules.Code
	hopeless bool    // it binds, or might, or could not be judged
	faulty   bool    // it has a fault
	off      float64 // how far the mean torque is off the middle of what suits, a share
}

// outcomeOf is that of a run.
func outcomeOf(d *sim.Digest, off float64) outcome {
	s := d.Standing()
	return outcome{s.Code, d.TurnsLost > 0, s.Faults > 0, off}
}

// outcome is that of the pair as it is known best.
func (st *Study) outcome(p *Pair) outcome {
	if st.Scenario && !p.Whole {
		return outcome{hopeless: true}
	}
	o := outcomeOf(&p.Digest, p.Off)
	o.hopeless = o.hopeless || p.Risky
	return o
}

// cost is how bad a choice is: how many of its pairs are hopeless, how many have each
// verdict, by its place among verdicts, how many have faults, and how far off they lie
// together. Turns to spare are not among them: another set-up makes them.
type cost struct {
	hopeless int
	verdicts [rules.Overdriven + 1]int
	faults   int
	off      float64
}

func (c cost) plus(o *outcome) cost {
	if o.hopeless {
		c.hopeless++
		return c
	}
	c.verdicts[o.code.Place()]++
	if o.faulty {
		c.faults++
	}
	if off := math.Abs(o.off); tolerable(off) {
		c.off += off
	} else {
		c.off += 1e6 // as far as can be
	}
	return c
}

// compare is below 0 when c is better than d by its verdicts, the worst first, and its
// faults.
func (c *cost) compare(d *cost) int {
	if c.hopeless != d.hopeless {
		return c.hopeless - d.hopeless
	}
	order := rules.BestFirst()
	for i := len(order) - 1; i >= 0; i-- {
		if order[i] == rules.Suits || order[i] == rules.Unjudged {
			continue // no fault
		}
		if c.verdicts[i] != d.verdicts[i] {
			return c.verdicts[i] - d.verdicts[i]
		}
	}
	return c.faults - d.faults
}

// less tells whether c is better than d.
func (c cost) less(d cost) bool {
	by := c.compare(&d)
	return by < 0 || by == 0 && c.off < d.off
}

// choose finds the best choice and the next.
func (st *Study) choose() {
	outcomes := make([]outcome, len(st.Pairs))
	for i := range st.Pairs {
		outcomes[i] = st.outcome(&st.Pairs[i])
	}
	best, _, _ := st.cheapest(outcomes, -1)
	next, found := cost{}, false
	for _, at := range best {
		// Without one of its pairs every other choice is in reach.
		other, d, ok := st.cheapest(outcomes, at)
		if ok && (!found || d.less(next)) {
			next, found = d, true
			st.Second = st.hopeful(outcomes, other)
		}
	}
	st.Best = st.hopeful(outcomes, best)
	for _, at := range st.Best {
		st.Pairs[at].Chosen = true
	}
}

// hopeful is a choice without the pairs that are hopeless, by the order of its trains.
func (st *Study) hopeful(outcomes []outcome, pairs []int) []int {
	pairs = slices.DeleteFunc(slices.Clone(pairs), func(at int) bool { return outcomes[at].hopeless })
	slices.SortFunc(pairs, func(a, b int) int { return cmp.Or(a%len(st.Needs)-b%len(st.Needs), a-b) })
	return pairs
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
func (st *Study) cheapest(outcomes []outcome, forbidden int) ([]int, cost, bool) {
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
				if c := states[set].plus(&outcomes[at]); !to.ok || c.less(to.cost) {
					*to = state{c, true, append(slices.Clone(states[set].pairs), at)}
				}
			}
		}
	}
	last := states[len(states)-1]
	return last.pairs, last.cost, last.ok
}
