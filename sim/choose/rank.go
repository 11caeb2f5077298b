package choose

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"evenpull/sim"
	"evenpull/sim/internal/page"
)

// order is that of the verdicts, the best first: of two that do not suit the one
// that goes comes before the one that stops.
var order = [...]sim.Code{sim.Suits, sim.Strong, sim.Thin, sim.Overdriven, sim.Stops, sim.Unjudged}

// class is the place of a candidate's verdict; refused ones come last.
func (c *Candidate) class() int {
	if c.Refused != "" {
		return len(order)
	}
	return slices.Index(order[:], c.Verdict)
}

// off is how far the mean torque is from the target, as a share of it.
func (st *Study) off(c *Candidate) float64 { return c.Mean/st.Target.Mean - 1 }

// rank puts the candidates in order and says why each stands behind the best.
func (st *Study) rank() {
	faulty := func(c *Candidate) int { return min(len(c.Faults), 1) }
	slices.SortFunc(st.Candidates, func(a, b Candidate) int {
		by := cmp.Compare(a.class(), b.class())
		if a.Refused != "" {
			return cmp.Or(by, cmp.Compare(a.Miss, b.Miss), cmp.Compare(a.place, b.place))
		}
		return cmp.Or(by, cmp.Compare(faulty(&a), faulty(&b)), cmp.Compare(math.Abs(st.off(&a)), math.Abs(st.off(&b))),
			cmp.Compare(a.Evenness, b.Evenness), cmp.Compare(a.place, b.place))
	})
	for i := range st.Candidates {
		c := &st.Candidates[i]
		if c.Rank = i + 1; i > 0 {
			c.Loses = st.loses(c, &st.Candidates[0])
		}
	}
}

// loses is the first reason why a candidate stands behind the best.
func (st *Study) loses(c, best *Candidate) string {
	switch {
	case c.Refused != "" && best.Refused != "":
		return "it cannot be fitted either: " + c.Refused
	case c.Refused != "":
		return c.Refused
	case c.Verdict != best.Verdict:
		return fmt.Sprintf("it %s, and %s %s: %s", does(c.Verdict), best.Label, does(best.Verdict), first(c.Reasons))
	case len(c.Faults) > 0 && len(best.Faults) == 0:
		return fmt.Sprintf("%s has no fault, and here %s", best.Label, c.Faults[0])
	}
	mine, its := st.off(c), st.off(best)
	switch {
	case math.Abs(math.Abs(mine)-math.Abs(its)) >= 5e-4:
		return fmt.Sprintf("its mean torque is %s the target, that of %s %s", above(mine), best.Label, above(its))
	case c.Evenness > best.Evenness*(1+1e-6):
		return fmt.Sprintf("its evenness is %s, that of %s %s", page.Percent(c.Evenness), best.Label, page.Percent(best.Evenness))
	case c.WidthMM == best.WidthMM && c.ThicknessMM == best.ThicknessMM && c.CutTo == best.CutTo && c.Mean == best.Mean:
		return fmt.Sprintf("it is the same as %s, which stands before it in the list", best.Label)
	}
	return fmt.Sprintf("it is about as good as %s, only not quite as near the target", best.Label)
}

func first(list []string) string {
	if len(list) == 0 {
		return "no reason is known"
	}
	return list[0]
}

// does is a verdict as a verb.
func does(c sim.Code) string {
	switch c {
	case sim.Stops, sim.Suits:
		return c.String()
	case sim.Unjudged:
		return "is not judged"
	}
	return "is " + c.String()
}

// above tells how far something is from the target, before "the target".
func above(share float64) string {
	switch s := sim.Figure(100 * math.Abs(share)); {
	case math.Abs(share) < 5e-5:
		return "at"
	case share > 0:
		return s + " % above"
	default:
		return s + " % below"
	}
}

// Suits counts the candidates that suit, and those of them without a fault.
func (st *Study) Suits() (suit, sound int) {
	for i := range st.Candidates {
		if c := &st.Candidates[i]; c.Refused == "" && c.Verdict == sim.Suits {
			suit++
			if len(c.Faults) == 0 {
				sound++
			}
		}
	}
	return suit, sound
}
