package text

import (
	"fmt"
	"io"
	"strings"

	"evenpull/sim/show/words"
	"evenpull/sim/study/rank"
)

// Rank writes for each result the inputs that move it, the one that moves it most
// first.
func Rank(w io.Writer, st *rank.Study, o Options) error {
	p := o.page(w)
	for i := range st.Rankings {
		p.ranking(st, &st.Rankings[i])
		p.Line("")
	}
	p.Wrap("", words.RankMethod(st))
	return p.end(words.Caution(st.Own.Spring.Stored))
}

// rankRows is the number of inputs that the text lists with their figures.
const rankRows = 16

func (p *Page) ranking(st *rank.Study, r *rank.Ranking) {
	p.Wrap("", words.RankHead(st, r)+"; what moves it most")
	g := Inputs(st, r, rankRows)
	g.Write(p)
	moving := moving(r)
	if less := moving[min(rankRows, len(moving)):]; len(less) > 0 {
		names := make([]string, len(less))
		for i, in := range less {
			names[i] = words.Input(&in.Quantity, st.Own.Name) + ","
		}
		names[len(names)-1] = strings.TrimSuffix(names[len(names)-1], ",")
		p.WrapWords("  less: ", names)
	}
	if idle := len(r.Inputs) - len(moving); idle > 0 {
		p.Line("  no effect: " + words.Count(idle, "other") + ", which --format csv lists")
	}
}

// Inputs is those that move a result most, at most so many, below a row of headings.
func Inputs(st *rank.Study, r *rank.Ranking, most int) Grid {
	var g Grid
	g.Row("  input", "value", "", "moved by", "less makes", "more makes", "elasticity")
	moving := moving(r)
	for _, in := range moving[:min(most, len(moving))] {
		g.Row("  "+words.Input(&in.Quantity, st.Own.Name), fmt.Sprintf("%.6g", in.Value), in.Quantity.Unit, words.RankMoved(st, in),
			words.Changed(&r.Of.Quantity, in.Minus), words.Changed(&r.Of.Quantity, in.Plus), words.RankElasticity(in))
	}
	g.Right(1, 3, 4, 5)
	return g
}

// moving are the inputs that have an effect, in their order.
func moving(r *rank.Ranking) []*rank.Input {
	var list []*rank.Input
	for i := range r.Inputs {
		if r.Moves(&r.Inputs[i]) {
			list = append(list, &r.Inputs[i])
		}
	}
	return list
}
