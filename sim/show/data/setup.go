package data

import (
	"evenpull/sim"
	"evenpull/sim/show/words"
	"evenpull/sim/study/setup"
)

// SetUp is the document of a search for a set-up; its rows are the train at every
// click.
func SetUp() Document[setup.Study] {
	now := func(st *setup.Study) *sim.Digest { return &st.Now }
	curve := func(st *setup.Study) []sim.Digest { return st.Curve }
	return Document[setup.Study]{Object[setup.Study]{
		trainOf(now),
		Sub("now", "with the present set-up", Digest(), now),
		Sub("best", "with the least uneven set-up that leaves the turns to spare", Digest(), func(st *setup.Study) *sim.Digest { return &st.Best }),
		Sub("advised", "with the set-up advised in place of the present one; null when none is", Digest(), func(st *setup.Study) *sim.Digest { return st.Advised }),
		Text("advice", "what is advised, with the rule and its figure", words.SetUpAdvice),
		Texts("warnings", "what stands against the set-ups", words.SetUpWarns),
		Numbers("range", "set-ups about the best that are within 10 % of it, or below 0.1 %", "turns", func(st *setup.Study) []float64 { return []float64{st.Range.Lo, st.Range.Hi} }),
		Number("most_set_up_turns", "set-up with which the fusee can just be wound", "turns", func(st *setup.Study) float64 { return st.Most }),
		List("curve", "at every click", Digest(), curve),
		cautionsOf(now),
	}, rows(Digest(), curve)}
}
