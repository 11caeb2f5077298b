package choose

import (
	"cmp"
	"math"
	"slices"

	"evenpull/sim/rules"
)

// Shared are the choices for several trains from one list, no strip given more often than
// there is of it.
type Shared []Share

// Share is the choice for a train, and the candidate that it gets.
type Share struct {
	*Study
	Given *Candidate // nil where none is wanted, or none that suits is left
}

// Wants tells whether a train is to get another spring.
func (st *Study) Wants() bool { return st.First == rules.AnotherSpring }

// Give gives the strips of one list to several trains, to those that want one: so that as many
// as can be get one that can be ordered, then so that the product of the shares of draws that
// suit is greatest, shares that the rule takes as equal being so, then so that each gets what
// stands first: a train alone gets what the choice for it has. Without draws what stands first
// counts alone. A list that does not say how many there are of a strip has one.
func Give(studies []*Study, wants func(*Study) bool) Shared {
	g := giver{studies: studies, best: make([]int, len(studies)), now: make([]int, len(studies)), given: map[int]int{}}
	for i, st := range studies {
		g.best[i], g.now[i] = none, none
		g.of = append(g.of, nil)
		if wants(st) {
			g.of[i] = st.mayGet(len(studies))
		}
	}
	g.from(0, gain{})
	all := make(Shared, len(studies))
	for i, st := range studies {
		all[i].Study = st
		if k := g.best[i]; k != none {
			all[i].Given = &st.Candidates[k]
		}
	}
	return all
}

const none = -1

// mayGet are the candidates that a train may get, the best first: of so many trains none needs
// more, since the others take fewer. What has as many draws that suit stays in the order of
// the choice.
func (st *Study) mayGet(trains int) (list []int) {
	for i := range st.Candidates {
		if st.Candidates[i].Orders() {
			list = append(list, i)
		}
	}
	slices.SortStableFunc(list, func(a, b int) int { return cmp.Compare(st.suiting(b), st.suiting(a)) })
	return list[:min(len(list), trains)]
}

// suiting is the share of draws of a candidate that suit, the greatest of those that the rule
// takes as equal to it; 1 where none were made for any, and 0 of one that stands too far behind
// for draws.
func (st *Study) suiting(i int) (share float64) {
	if st.Candidates[0].Digest.Verdict.Sureness.Draws == 0 {
		return 1
	}
	for k := range st.Candidates {
		if c := &st.Candidates[k]; c.class == st.Candidates[i].class {
			share = max(share, c.Digest.Verdict.Sureness.Suits)
		}
	}
	return share
}

// gain is what a way of giving is worth.
type gain struct {
	trains int     // that get one
	logs   float64 // sum of the logarithms of the shares
	places int     // sum of the places, the less the better
}

func (w gain) beats(than gain) bool {
	const rounding = 1e-12
	switch {
	case w.trains != than.trains:
		return w.trains > than.trains
	case math.Abs(w.logs-than.logs) > rounding:
		return w.logs > than.logs
	}
	return w.places < than.places
}

// giver tries every way.
type giver struct {
	studies   []*Study
	of        [][]int
	best, now []int
	most      gain
	given     map[int]int // strips, by their place in the list
}

// from gives to the trains from number i on.
func (g *giver) from(i int, w gain) {
	if i == len(g.studies) {
		if w.beats(g.most) {
			g.most = w
			copy(g.best, g.now)
		}
		return
	}
	for _, k := range g.of[i] {
		c := &g.studies[i].Candidates[k]
		if g.given[c.place] >= max(c.Quantity, 1) {
			continue
		}
		g.given[c.place]++
		g.now[i] = k
		g.from(i+1, gain{w.trains + 1, w.logs + math.Log(math.Max(g.studies[i].suiting(k), 1e-9)), w.places + k})
		g.given[c.place]--
	}
	g.now[i] = none
	g.from(i+1, w)
}
