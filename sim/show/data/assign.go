package data

import (
	"evenpull/sim"
	"evenpull/sim/bench/assign"
	"evenpull/sim/show/words"
)

// Assign is the document of which spring goes to which train; its rows are the
// pairs.
func Assign() Document[assign.Study] {
	pairs := func(st *assign.Study) []assign.Pair { return st.Pairs }
	choice := func(name, meaning string, of func(*assign.Study) []int) Member[assign.Study] {
		return List(name, meaning, Object[assign.Pair]{
			Text("spring", "the label of the spring", func(p *assign.Pair) string { return p.Label }),
			Text("train", "the train", func(p *assign.Pair) string { return p.Train }),
			Flag("suits", "whether it suits without a fault", (*assign.Pair).Sound),
		}, func(st *assign.Study) []assign.Pair {
			list := make([]assign.Pair, len(of(st)))
			for i, at := range of(st) {
				list[i] = st.Pairs[at]
			}
			return list
		})
	}
	return Document[assign.Study]{Object[assign.Study]{
		Text("title", "title of the bench file", func(st *assign.Study) string { return st.Title }),
		List("pairs", "every spring in every train", assignPair(), pairs),
		choice("best", "the choice that suits best", func(st *assign.Study) []int { return st.Best }),
		choice("second", "the best of the other choices; empty when there is none", func(st *assign.Study) []int { return st.Second }),
		Flag("near_tie", "whether the second is nearly as good", func(st *assign.Study) bool { return st.NearTie }),
		Texts("notes", "what is worth knowing beside the choice", words.AssignNotes),
		Texts("cautions", "what to mind before barrels are moved", words.AssignCautions),
	}, rows(assignPair(), pairs)}
}

// assignPair is a pair. The spring's figures in the run would have the name of its
// label in JSON: there they are spring_in_train.
func assignPair() Object[assign.Pair] {
	o := withRun(func(p *assign.Pair) *sim.Digest { return &p.Digest },
		Text("spring", "the label of the spring", func(p *assign.Pair) string { return p.Label }),
		Text("train", "the train", func(p *assign.Pair) string { return p.Train }),
		Text("read_in", "the train that the spring was read in", func(p *assign.Pair) string { return p.ReadIn }),
		Flag("carried_over", "whether the readings were carried over from it", (*assign.Pair).Carried),
		Text("not_carried_over", "why they could not be; null where they could, or without a scenario", func(p *assign.Pair) string { return words.Why(p.Why) }),
		Flag("sure", "whether the verdict holds over the 95 % interval of the torque and what is known of the need", func(p *assign.Pair) bool { return p.Sure }),
		Number("off_middle", "mean torque over the middle of what suits, less 1", "", func(p *assign.Pair) float64 { return p.Off }),
		Flag("best", "whether it is in the best choice", func(p *assign.Pair) bool { return p.Chosen }))
	for i := range o[1:] {
		if m := &o[i+1]; m.name == "spring" {
			m.name = "spring_in_train"
		}
	}
	return o
}
