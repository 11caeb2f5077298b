package chart

import (
	"io"

	"evenpull/sim/show/words"
	"evenpull/sim/study/rank"
)

// Rank draws for each result what moving the inputs down and up does to it, the
// greatest effect at the top.
func Rank(w io.Writer, format string, st *rank.Study) error {
	pictures := make([]Picture, len(st.Rankings))
	for i := range st.Rankings {
		pictures[i] = rankBars(st, &st.Rankings[i])
	}
	return Stack(w, format, pictures...)
}

func rankBars(st *rank.Study, r *rank.Ranking) *Tornado {
	t := &Tornado{Title: words.RankHead(st, r), X: "change of the " + r.Of.Label()}
	for i := range r.Inputs {
		if in := &r.Inputs[i]; r.Moves(in) && in.Effect() > 0 {
			label := words.Input(&in.Quantity, st.Own.Name) + " " + words.RankMoved(st, in)
			t.Bars = append(t.Bars, TornadoBar{Label: label, Minus: r.Of.Shown(in.Minus), Plus: r.Of.Shown(in.Plus)})
		}
	}
	return t
}
