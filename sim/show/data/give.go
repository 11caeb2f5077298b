package data

import (
	"slices"

	"evenpull/sim"
	"evenpull/sim/show/words"
	"evenpull/sim/study/choose"
)

// Give is the document of the choices for several trains from one list; its rows are the
// trains.
func Give() Document[choose.Shared] {
	trains := func(all *choose.Shared) []choose.Share { return *all }
	digest := func(s *choose.Share) *sim.Digest { return &s.Present.Digest }
	short := Object[choose.Share]{
		trainOf(digest),
		Flag("wants_another", "the train wants another spring", func(s *choose.Share) bool { return s.Wants() }),
		Text("given", "label of the strip that it gets; null for none", func(s *choose.Share) string {
			if s.Given == nil {
				return ""
			}
			return s.Given.Label
		}),
		Text("says", "the same in a sentence, with its reason", func(s *choose.Share) string { return words.Give(s, words.Small) }),
		Text("order", "it, as it can be ordered; null for none", words.GiveOrder),
	}
	whole := append(slices.Clone(short), Sub("choice", "the whole choice for the train", Choose().Object, func(s *choose.Share) *choose.Study { return s.Study }))
	return Document[choose.Shared]{Object[choose.Shared]{
		Text("answer", "how many trains want another spring, and how many get one", func(all *choose.Shared) string { return words.GiveHead(*all) }),
		List("trains", "what each train gets", whole, trains),
		Texts("cautions", "what to mind before a spring is touched", func(all *choose.Shared) []string { return words.GiveCautions(*all) }),
	}, rows(short, trains)}
}
