package choose

import (
	"cmp"
	"slices"

	"evenpull/sim/rules"
)

// rank puts the candidates in the order of the rules, and notes which put each
// behind the best. Those that cannot be fitted come last, the nearest first.
func (st *Study) rank() {
	decide := func(a, b *Candidate) (int, rules.Rule) {
		x, y := a.Digest.Standing(), b.Digest.Standing()
		return st.shop.advice.Decide(st.shop.present, &x, &y)
	}
	slices.SortFunc(st.Candidates, func(a, b Candidate) int {
		order := cmp.Compare(a.Refused.Miss, b.Refused.Miss) // 0 of those that can be fitted
		if a.Fits() && b.Fits() {
			order, _ = decide(&a, &b)
		} else if a.Fits() != b.Fits() {
			order = -1
			if b.Fits() {
				order = 1
			}
		}
		return cmp.Or(order, cmp.Compare(a.place, b.place))
	})
	for i := range st.Candidates {
		c := &st.Candidates[i]
		if c.Rank = i + 1; i > 0 && c.Fits() {
			_, c.Behind = decide(c, &st.Candidates[0])
		}
	}
}

// Order tells whether a candidate can be ordered.
func (c *Candidate) Order() rules.Finding {
	if !c.Fits() {
		return rules.Finding{}
	}
	is := c.Digest.Standing()
	return c.Digest.Advice.Order(&is)
}

// Suits counts the candidates that suit, and those of them that can be ordered.
func (st *Study) Suits() (suit, order int) {
	for i := range st.Candidates {
		if c := &st.Candidates[i]; c.Fits() && c.Digest.Verdict.Code == rules.Suits {
			suit++
			if c.Order().Advised {
				order++
			}
		}
	}
	return suit, order
}
