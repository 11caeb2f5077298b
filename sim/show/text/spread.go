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
	p.found(words.SpreadHead(st, p.Verdict), words.SpreadSays(st), words.SpreadWarns(st))
	p.table(drawn(st))
	p.Line("")
	p.spread(st)
	p.Line("")
	p.Wrap("", words.SpreadMethod(st))
	return p.end(words.Caution(st.Own.Spring.Stored))
}

// drawn are the quantities drawn.
func drawn(st *spread.Study) Grid {
	return table(st.Inputs, []column[spread.Input]{
		{"  drawn", "", left, func(in *spread.Input) string { return "  " + words.Input(&in.Quantity, st.Own.Name) }},
		{"value", "", right, func(in *spread.Input) string { return fmt.Sprintf("%.6g", in.Value) }},
		{"", "", left, func(in *spread.Input) string { return in.Quantity.Unit }},
		{"plus or minus", "", right, func(in *spread.Input) string { return words.Figure(in.PlusMinus) }},
		{"shape", "", left, func(in *spread.Input) string { return in.Shape }},
		{"of the variance", "", right, words.SpreadShare},
	})
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
