package choose

import (
	"cmp"
	"slices"

	"evenpull/sim"
	"evenpull/sim/rules"
)

// rank puts the candidates in the order of the rules, and notes which put each
// behind the best. Those that cannot be fitted come last, the nearest first.
func (st *Study) rank() {
	slices.SortFunc(st.Candidates, func(a, b Candidate) int {
		order := cmp.Compare(a.Refused.Miss, b.Refused.Miss) // 0 of those that can be fitted
		if a.Fits() && b.Fits() {
			order, _ = st.decide(&a, &b)
		}
		return cmp.Or(order, cmp.Compare(a.place, b.place))
	})
	for i := range st.Candidates {
		c := &st.Candidates[i]
		if c.Rank = i + 1; c.Fits() {
			_, c.Behind = st.decide(c, &st.Candidates[0])
		}
	}
}

// decide orders two candidates that can be fitted, below 0 when a comes first, and tells by
// which rule.
func (st *Study) decide(a, b *Candidate) (order int, by rules.Rule) {
	x, y := a.Digest.Standing(), b.Digest.Standing()
	x.Class, y.Class = a.class, b.class
	return st.shop.advice.Decide(st.shop.present, &x, &y)
}

// Best is the first of the candidates; without a stock list, one that cannot be fitted.
func (st *Study) Best() *Candidate {
	if len(st.Candidates) == 0 {
		return &Candidate{Refused: Refusal{Why: Unfit, Err: ErrEmpty}}
	}
	return &st.Candidates[0]
}

// Surest is the candidate that suits in the largest share of the draws among those that
// stand with the best.
func (st *Study) Surest() *Candidate {
	surest := st.Best()
	for i := range st.Candidates {
		c := &st.Candidates[i]
		if c.Fits() && c.class == surest.class && c.Digest.Verdict.Code == surest.Digest.Verdict.Code && c.Digest.Verdict.Sureness.Suits > surest.Digest.Verdict.Sureness.Suits {
			surest = c
		}
	}
	return surest
}

// Orders tells whether a candidate can be ordered.
func (c *Candidate) Orders() bool { return !c.Own && c.Fits() && advised(&c.Digest) }

// advised tells whether a spring can be ordered that comes to a digest.
func advised(d *sim.Digest) bool {
	is := d.Standing()
	return d.Advice.Order(&is).Advised
}

// Suits counts the candidates that suit, and those of them that can be ordered.
func (st *Study) Suits() (suit, order int) {
	for i := range st.Candidates {
		if c := &st.Candidates[i]; c.Fits() && c.Digest.Verdict.Code == rules.Suits {
			suit++
			if c.Orders() {
				order++
			}
		}
	}
	return suit, order
}
