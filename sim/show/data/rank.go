package data

import (
	"io"

	"evenpull/sim/show/words"
	"evenpull/sim/study/rank"
)

// Rank is the document of a ranking: the first result at the top, others below
// "others".
func Rank() Object[rank.Study] {
	o := Object[rank.Study]{
		Text("train", "the train", func(st *rank.Study) string { return st.Own.Name }),
		Number("change", "by which inputs without a tolerance are moved, as a share", "", func(st *rank.Study) float64 { return st.Change }),
	}
	o = append(o, Within(ranking(), func(st *rank.Study) *rank.Ranking { return &st.Rankings[0] })...)
	return append(o,
		List("others", "the results asked for beside the first", ranking(), func(st *rank.Study) []rank.Ranking { return st.Rankings[1:] }),
		Texts("cautions", "what to mind before a spring is touched", func(st *rank.Study) []string { return []string{words.Caution(st.Own.Spring.Stored)} }),
	)
}

func ranked() Object[rank.Ranking] {
	return Object[rank.Ranking]{
		Text("of", "the result", func(r *rank.Ranking) string { return r.Of.Name }),
		Number("result", "its value in the scenario as it is", "", func(r *rank.Ranking) float64 { return r.Value }),
	}
}

func ranking() Object[rank.Ranking] {
	return append(ranked(), List("inputs", "every input, the one with the greatest effect first", rankInput(), func(r *rank.Ranking) []rank.Input { return r.Inputs }))
}

func rankInput() Object[rank.Input] {
	return Object[rank.Input]{
		Text("key", "the input", func(in *rank.Input) string { return in.Quantity.Key }),
		Text("unit", "its unit", func(in *rank.Input) string { return in.Quantity.Unit }),
		Number("value", "that the scenario has of it", "", func(in *rank.Input) float64 { return in.Value }),
		Number("elasticity", "power of the input with which the result goes", "", func(in *rank.Input) float64 { return in.Elasticity.Value }),
		Number("elasticity_error", "error that the elasticity may have", "", func(in *rank.Input) float64 { return in.Elasticity.Error }),
		Number("by", "by how much the input is moved, in its unit", "", func(in *rank.Input) float64 { return in.By }),
		Flag("tolerance", "whether that is its own tolerance", func(in *rank.Input) bool { return in.Tolerated }),
		Number("minus", "change of the result with less of the input; null when it cannot be built", "", func(in *rank.Input) float64 { return in.Minus }),
		Number("plus", "change of the result with more of the input; null when it cannot be built", "", func(in *rank.Input) float64 { return in.Plus }),
	}
}

// rankLine is an input with the ranking that it stands in.
type rankLine struct {
	r  *rank.Ranking
	in *rank.Input
}

// RankCSV writes every input of every ranking.
func RankCSV(w io.Writer, st *rank.Study) error {
	var lines []rankLine
	for i := range st.Rankings {
		r := &st.Rankings[i]
		for k := range r.Inputs {
			lines = append(lines, rankLine{r, &r.Inputs[k]})
		}
	}
	o := Within(ranked(), func(l *rankLine) *rank.Ranking { return l.r })
	return append(o, Within(rankInput(), func(l *rankLine) *rank.Input { return l.in })...).CSV(w, lines)
}
