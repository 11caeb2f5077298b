package words

import (
	"math"
	"strings"

	"evenpull/sim/scenario"
	"evenpull/sim/study/choose"
)

// ChooseSteel tells at which flow stress the first two candidates change places, what to ask
// the dealer, and what to measure when the parcel comes; nothing where they do not.
func ChooseSteel(st *choose.Study) []string {
	if len(st.Changes) == 0 {
		return nil
	}
	first, second := st.Candidates[0].Label, st.Candidates[1].Label
	least := st.Changes[0].Yield
	sides, counts := told{say("below %s %s", stress(least), asFitted(&st.Changes[0].Below))}, told{}
	for i := range st.Changes {
		c := &st.Changes[i]
		to := "above it"
		if i+1 < len(st.Changes) {
			to = "from there to " + stress(st.Changes[i+1].Yield)
		}
		sides.add("%s %s", to, asFitted(&c.Above))
		counts.add("%.1f at %s", c.Coils, stress(c.Yield))
	}
	says := told{say("%s or %s? That depends on the flow stress of the steel, which the list does not state: %s; ask the dealer for the tensile strength, of which it is about %s: %s of %s", first, second,
		strings.Join(sides, "; "), typed(scenario.FlowOfTensile), stress(least), stress(least/scenario.FlowOfTensile))}
	says.when(st.Changes[0].Counted == first, "or, when %s comes, wind it home once in this barrel, fitted as ordered, let it down, take it out and count the coils that it shows lying free, to a quarter: %s, more where its steel is softer; where that tells of %s exchange it",
		first, listed(counts), second)
	return says
}

// ChooseSteelBrief tells in short at which tensile strength, which a dealer knows, the first two candidates change places;
// "" where they do not.
func ChooseSteelBrief(st *choose.Study) string {
	if len(st.Changes) == 0 {
		return ""
	}
	strength := func(flow float64) string { return stress(flow / scenario.FlowOfTensile) }
	sides := told{say("below about %s %s", strength(st.Changes[0].Yield), st.Changes[0].Below.Label)}
	for i := range st.Changes {
		to := "above that"
		if i+1 < len(st.Changes) {
			to = "to " + strength(st.Changes[i+1].Yield)
		}
		sides.add("%s %s", to, st.Changes[i].Above.Label)
	}
	return say("%s or %s? That depends on the steel, which the list does not state: ask the dealer for its tensile strength; %s", st.Candidates[0].Label, st.Candidates[1].Label,
		strings.Join(sides, ", "))
}

// asFitted is a candidate with the set-up that it then gets, and what it is cut to.
func asFitted(c *choose.Candidate) string {
	return say("%s, then set up by %s%s", c.Label, TurnsAndClicks(&c.Digest), where(!math.IsNaN(c.CutTo), ", cut to %s mm", typed(c.CutTo)))
}

// stress is one to about what a dealer can tell.
func stress(mpa float64) string { return say("%.0f MPa", math.Round(mpa/10)*10) }
