package text

import (
	"fmt"
	"io"

	"evenpull/sim/show/words"
	"evenpull/sim/study/spread"
)

// Spread writes what tolerances do: how sure the verdict is, what was drawn, and
// what the results came to.
func Spread(w io.Writer, st *spread.Study, o Options) error {
	p := o.page(w)
	p.Wrap("", words.SpreadHead(st, p.Verdict))
	p.list("  - ", words.SpreadSays(st))
	p.list("  ! ", words.SpreadWarns(st))
	p.Line("")
	p.drawn(st)
	p.Line("")
	p.spread(st)
	p.Line("")
	p.Wrap("", words.SpreadMethod(st))
	p.Line("")
	p.Wrap("Caution: ", words.Caution(st.Own.Spring.Stored))
	return p.Flush()
}

// drawn are the quantities drawn.
func (p *Page) drawn(st *spread.Study) {
	var g Grid
	g.Row("  drawn", "value", "", "plus or minus", "shape", "of the variance")
	for i := range st.Inputs {
		in := &st.Inputs[i]
		g.Row("  "+words.Input(&in.Quantity, st.Own.Name), fmt.Sprintf("%.6g", in.Value), in.Quantity.Unit, words.Figure(in.PlusMinus), in.Shape, words.SpreadShare(in))
	}
	g.Right(1, 3, 5)
	g.Write(p)
}

// spread is what the results came to; those that no run has are left out.
func (p *Page) spread(st *spread.Study) {
	var g Grid
	g.Row("  result", "", "own", "mean", "sd", "5 %", "50 %", "95 %")
	for i := range st.Results {
		d := &st.Results[i]
		if d.N() == 0 {
			continue
		}
		row := []string{"  " + d.Of.Words, words.ValueUnit(&d.Of.Quantity)}
		for _, v := range []float64{d.Own, d.Mean(), d.SD(), d.Quantile(0.05), d.Quantile(0.5), d.Quantile(0.95)} {
			row = append(row, words.Value(&d.Of.Quantity, v))
		}
		g.Row(row...)
	}
	g.Right(2, 3, 4, 5, 6, 7)
	g.Write(p)
}
