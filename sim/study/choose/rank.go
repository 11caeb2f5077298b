package choose

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"evenpull/sim/rules"
	"evenpull/sim/show/words"
)

// order is that of the verdicts, the best first: of two that do not suit the one
// that goes comes before the one that stops.
var order = [...]rules.Code{rules.Suits, rules.Strong, rules.Thin, rules.Overdriven, rules.Stops, rules.Unjudged}

// class is the place of a candidate's verdict; refused ones come last.
func (c *Candidate) class() int {
	if c.Refused != "" {
		return len(order)
	}
	return slices.Index(order[:], c.Verdict)
}

// off is how far the mean torque is from the target, as a share of it.
func (st *Study) off(c *Candidate) float64 { return c.Mean/st.Target.Mean - 1 }

// score weighs the two things by which springs of one verdict differ, the less the
// better: how far the mean torque is from the target, as |ln|, and half of the
// unevenness, since the torque swings by that much to each side of its mean. A few per
// cent of the mean are less than the tolerance of the strip makes (common practice,
// no source).
func (st *Study) score(c *Candidate) float64 { return st.farness(c) + c.Unevenness/2 }

// farness is how far the mean torque is from the target, the same for a half and
// for twice of it.
func (st *Study) farness(c *Candidate) float64 {
	if !(c.Mean > 0) {
		return math.Inf(1)
	}
	return math.Abs(math.Log(c.Mean / st.Target.Mean))
}

// rank puts the candidates in order and says why each stands behind the best.
func (st *Study) rank() {
	faulty := func(c *Candidate) int { return min(len(c.Faults), 1) }
	slices.SortFunc(st.Candidates, func(a, b Candidate) int {
		by := cmp.Compare(a.class(), b.class())
		if a.Refused != "" {
			return cmp.Or(by, cmp.Compare(a.Miss, b.Miss), cmp.Compare(a.place, b.place))
		}
		return cmp.Or(by, cmp.Compare(faulty(&a), faulty(&b)), cmp.Compare(st.score(&a), st.score(&b)), cmp.Compare(a.place, b.place))
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
	return st.losesBy(c, best)
}

// losesBy is the part of the score that weighs most against a candidate.
func (st *Study) losesBy(c, best *Candidate) string {
	const felt = 5e-4 // less shows in no figure
	mean, even := st.farness(c)-st.farness(best), (c.Unevenness-best.Unevenness)/2
	switch {
	case c.WidthMM == best.WidthMM && c.ThicknessMM == best.ThicknessMM && c.CutTo == best.CutTo && c.Mean == best.Mean && c.Unevenness == best.Unevenness:
		return fmt.Sprintf("it is the same as %s, which stands before it in the list", best.Label)
	case max(mean, even) < felt:
		return fmt.Sprintf("it is about as good as %s, only not quite as near the target or as even", best.Label)
	case even > mean && c.Unevenness >= manifold:
		return fmt.Sprintf("its torque varies by %s its mean, that of %s by %s", share(c.Unevenness), best.Label, share(best.Unevenness))
	case even > mean:
		return fmt.Sprintf("its unevenness is %s, that of %s %s", share(c.Unevenness), best.Label, share(best.Unevenness))
	}
	return fmt.Sprintf("its mean torque is %s, that of %s is %s", beside(st.off(c)), best.Label, beside(st.off(best)))
}

func first(list []string) string {
	if len(list) == 0 {
		return "no reason is known"
	}
	return list[0]
}

// does is a verdict as a verb.
func does(c rules.Code) string {
	switch c {
	case rules.Stops, rules.Suits:
		return c.String()
	case rules.Unjudged:
		return "is not judged"
	}
	return "is " + c.String()
}

// beside tells how far something is from the target.
func beside(off float64) string {
	switch {
	case math.Abs(off) < 5e-5:
		return "at the target"
	case off >= manifold-1:
		return share(off+1) + " the target"
	case off > 0:
		return words.Percent(off) + " above the target"
	}
	return words.Percent(-off) + " below the target"
}

// manifold is the share from which on it is told as so many times, not in per cent.
const manifold = 10

// share is a part of a whole in per cent, or as times of it.
func share(v float64) string {
	if v < manifold {
		return words.Percent(v)
	}
	return words.Figure(v) + " times"
}

// sound tells whether a candidate can be ordered as it stands.
func (c *Candidate) sound() bool {
	return c.Refused == "" && c.Verdict == rules.Suits && len(c.Faults) == 0
}

// Suits counts the candidates that suit, and those of them without a fault.
func (st *Study) Suits() (suit, sound int) {
	for i := range st.Candidates {
		if c := &st.Candidates[i]; c.Refused == "" && c.Verdict == rules.Suits {
			suit++
			if c.sound() {
				sound++
			}
		}
	}
	return suit, sound
}
