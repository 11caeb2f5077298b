package data

import (
	"evenpull/sim"
	"evenpull/sim/study/rank"
)

// Rank is the document of a ranking: the first result at the top, others below
// "others". Its rows are every input of every ranking.
func Rank() Document[rank.Study] {
	own := func(st *rank.Study) *sim.Digest { return &st.Own }
	ranked := Object[rank.Ranking]{
		Text("of", "the result", func(r *rank.Ranking) string { return r.Of.Name }),
		Number("result", "its value in the scenario as it is", "", func(r *rank.Ranking) float64 { return r.Value }),
	}
	inputs := List("inputs", "every input, the one with the greatest effect first", rankInput(), func(r *rank.Ranking) []rank.Input { return r.Inputs })
	ranking := append(ranked[:2:2], inputs)
	o := Object[rank.Study]{
		trainOf(own),
		Number("change", "by which inputs without a tolerance are moved, as a share", "", func(st *rank.Study) float64 { return st.Change }),
	}
	o = append(o, Within(ranking, func(st *rank.Study) *rank.Ranking { return &st.Rankings[0] })...)
	o = append(o, List("others", "the results asked for beside the first", ranking, func(st *rank.Study) []rank.Ranking { return st.Rankings[1:] }), cautionsOf(own))
	type line = part[rank.Ranking, rank.Input]
	lines := append(Within(ranked, func(l *line) *rank.Ranking { return l.of }), Within(rankInput(), func(l *line) *rank.Input { return l.it })...)
	return Document[rank.Study]{o, rows(lines, func(st *rank.Study) (all []line) {
		for i := range st.Rankings {
			all = append(all, parts(&st.Rankings[i], st.Rankings[i].Inputs)...)
		}
		return all
	})}
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
