package words

import (
	"cmp"
	"math"
	"strings"

	"evenpull/sim"
	"evenpull/sim/rules"
)

// Judged is a verdict with how sure it is, where that was asked for: "SUITS, sure to 89 in
// 100, else thin"; another that the draws end in more often is said first. Shown makes
// the word of a verdict.
func Judged(d *sim.Digest, shown func(rules.Code) string) string {
	s, is := &d.Verdict.Sureness, d.Verdict.Code
	if s.Draws > 0 && s.ElseIn > s.Same {
		return say("rather %s, in %s of what the readings may mean; as they were read it %s, in %s",
			shown(s.Else), inHundred(s.ElseIn), Does(is), inHundred(s.Same))
	}
	return shown(is) + Sure(d)
}

// Sure is how sure a verdict is, to follow its word; "" where that was not asked for.
func Sure(d *sim.Digest) string {
	s := &d.Verdict.Sureness
	return where(s.Draws > 0, ", sure to %s", inHundred(s.Same)) + where(s.Else != rules.Unjudged, ", else %s", Small(s.Else))
}

// surely is Sure within a sentence.
func surely(d *sim.Digest) string {
	return where(d.Verdict.Sureness.Draws > 0, " (%s)", strings.TrimPrefix(Sure(d), ", "))
}

// InHundred is the same as a number of 100; "–" where it was not asked for.
func InHundred(d *sim.Digest) string {
	s := &d.Verdict.Sureness
	return either(s.Draws > 0, strings.TrimSuffix(inHundred(s.Same), " in 100"), "–")
}

// inHundred is a share of the draws, no draw rounded away.
func inHundred(share float64) string {
	return cmp.Or(
		where(share > 0 && share < 0.005, "< 1 in 100"),
		where(share < 1 && share >= 0.995, "> 99 in 100"),
		say("%.0f in 100", 100*share))
}

// Decides tells which inputs are to be known better, and how well, for the verdict to be
// sure; "" where it is sure enough, or was not asked.
func Decides(d *sim.Digest) string {
	by := &d.Verdict.Sureness.Decides
	if by.Inputs[0].Key == "" {
		return ""
	}
	first := &by.Inputs[0]
	s := "what decides is the " + inputOf(first.Words, d.Name) + where(first.Assumed, ", which was assumed") + ": "
	more := told{}
	for _, in := range by.Inputs[1:] {
		more.when(in.Key != "", "the %s", inputOf(in.Words, d.Name))
	}
	exactly := say("were it known exactly, the verdict would be sure to %s", inHundred(by.Alone))
	return s + cmp.Or(
		where(!math.IsNaN(first.Within), "known to %s in place of %s, the verdict would be sure to %s",
			howWell(first, first.Within), howWell(first, first.Now), inHundred(sim.Wanted)),
		where(by.All < sim.Wanted, "%s; no three inputs make it %s", exactly, inHundred(sim.Wanted)),
		where(len(more) > 0, "%s; with %s too, to %s", exactly, listed(more), inHundred(by.All)),
		exactly)
}

// howWell is how far an input may be off.
func howWell(in *sim.Decider, by float64) string {
	if in.Times {
		return say("a factor of %.3g", by)
	}
	return united("± "+typed(rounded(by)), in.Unit)
}

// rounded takes off what arithmetic adds to a figure that was typed.
func rounded(v float64) float64 {
	unit := math.Pow(10, math.Floor(math.Log10(v))-2)
	return math.Round(v/unit) * unit
}

// listed are things in a row, the last after "and".
func listed(things []string) string {
	s := ""
	for i, t := range things {
		s += either(i == 0, "", either(i == len(things)-1, " and ", ", ")) + t
	}
	return s
}
