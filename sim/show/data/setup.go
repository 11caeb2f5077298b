package data

import (
	"io"

	"evenpull/sim"
	"evenpull/sim/show/words"
	"evenpull/sim/study/setup"
)

// SetUp is the document of a search for a set-up.
func SetUp() Object[setup.Study] {
	return Object[setup.Study]{
		Text("train", "the train", func(st *setup.Study) string { return st.Now.Name }),
		Sub("now", "with the present set-up", Digest(), func(st *setup.Study) *sim.Digest { return &st.Now }),
		Sub("best", "with the least uneven set-up that leaves the turns to spare", Digest(), func(st *setup.Study) *sim.Digest { return &st.Best }),
		Sub("advised", "with the set-up advised in place of the present one; null when none is", Digest(), func(st *setup.Study) *sim.Digest { return st.Advised }),
		Text("advice", "what is advised, with the rule and its figure", words.SetUpAdvice),
		Texts("warnings", "what stands against the set-ups", words.SetUpWarns),
		Numbers("range", "set-ups about the best that are within 10 % of it, or below 0.1 %", "turns", func(st *setup.Study) []float64 { return []float64{st.Range.Lo, st.Range.Hi} }),
		Number("most_set_up_turns", "set-up with which the fusee can just be wound", "turns", func(st *setup.Study) float64 { return st.Most }),
		List("curve", "at every click", Digest(), func(st *setup.Study) []sim.Digest { return st.Curve }),
		Texts("cautions", "what to mind before a spring is touched", func(st *setup.Study) []string { return []string{words.Caution(st.Now.Spring.Stored)} }),
	}
}

// SetUpCSV writes the train at every click.
func SetUpCSV(w io.Writer, st *setup.Study) error { return Digest().CSV(w, st.Curve) }
