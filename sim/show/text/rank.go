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
	var g Grid
	g.Row("  input", "value", "", "moved by", "less makes", "more makes", "elasticity")
	var less []string
	shown, idle := 0, 0
	for i := range r.Inputs {
		in := &r.Inputs[i]
		name := words.Input(&in.Quantity, st.Own.Name)
		switch {
		case !r.Moves(in):
			idle++
		case shown >= rankRows:
			less = append(less, name+",")
		default:
			shown++
			g.Row("  "+name, fmt.Sprintf("%.6g", in.Value), in.Quantity.Unit, words.RankMoved(st, in),
				words.Changed(&r.Of.Quantity, in.Minus), words.Changed(&r.Of.Quantity, in.Plus), words.RankElasticity(in))
		}
	}
	g.Right(1, 3, 4, 5)
	g.Write(p)
	if n := len(less); n > 0 {
		less[n-1] = strings.TrimSuffix(less[n-1], ",")
		p.WrapWords("  less: ", less)
	}
	if idle > 0 {
		p.Line("  no effect: " + words.Count(idle, "other") + ", which --format csv lists")
	}
}
