package text

import (
	"fmt"
	"io"
	"slices"

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
	p.table(results(st))
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

// results is what the results came to; those that no run has are left out.
func results(st *spread.Study) Grid {
	type result = spread.Distribution
	value := func(head string, of func(*result) float64) column[result] {
		return column[result]{head, "", right, func(d *result) string { return words.Value(&d.Of.Quantity, of(d)) }}
	}
	had := slices.DeleteFunc(slices.Clone(st.Results), func(d result) bool { return d.N() == 0 })
	return table(had, []column[result]{
		{"  result", "", left, func(d *result) string { return "  " + d.Of.Words }},
		{"", "", left, func(d *result) string { return words.ValueUnit(&d.Of.Quantity) }},
		value("own", func(d *result) float64 { return d.Own }),
		value("mean", (*result).Mean),
		value("sd", (*result).SD),
		value("5 %", func(d *result) float64 { return d.Quantile(0.05) }),
		value("50 %", func(d *result) float64 { return d.Quantile(0.5) }),
		value("95 %", func(d *result) float64 { return d.Quantile(0.95) }),
	})
}
