package text

import (
	"fmt"
	"io"
	"slices"

	"evenpull/sim/rules"
	"evenpull/sim/show/words"
	"evenpull/sim/study/rank"
	"evenpull/sim/study/shares"
	"evenpull/sim/study/spread"
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
	p.list("  ! ", words.Together(st.Own.Name, &r.Of.Quantity, r.Shares))
	p.table(Inputs(st, r, rankRows))
	moving := moving(r)
	less(p, moving[min(rankRows, len(moving)):], func(in *rank.Input) string { return words.Input(in.Quantity.Words, st.Own.Name) })
	if idle := len(r.Inputs) - len(moving); idle > 0 {
		p.Line("  no effect: " + words.Count(idle, "other") + ", which --format csv lists")
	}
}

// less lists what has less effect than the rows above.
func less[T any](p *Page, rest []T, name func(*T) string) {
	if len(rest) == 0 {
		return
	}
	var names []string
	for i := range rest {
		names = append(names, name(&rest[i])+words.Either(i+1 < len(rest), ",", ""))
	}
	p.WrapWords("  less: ", names)
}

// Inputs is those that move a result most, at most so many, below a row of headings.
func Inputs(st *rank.Study, r *rank.Ranking, most int) Grid {
	moving := moving(r)
	columns := []column[rank.Input]{
		{"  input", "", left, func(in *rank.Input) string { return "  " + words.Input(in.Quantity.Words, st.Own.Name) }},
		{"value", "", right, func(in *rank.Input) string { return fmt.Sprintf("%.6g", in.Value) }},
		{"", "", left, func(in *rank.Input) string { return in.Quantity.Unit }},
		{"moved by", "", right, words.RankMoved},
		{"less makes", "", right, func(in *rank.Input) string { return words.Changed(&r.Of.Quantity, in.Minus) }},
		{"more makes", "", right, func(in *rank.Input) string { return words.Changed(&r.Of.Quantity, in.Plus) }},
		{"elasticity", "", left, words.RankElasticity},
	}
	if r.Shares != nil {
		columns = append(columns, ofVariance(func(in *rank.Input) *shares.Input { return &in.Share })...)
	}
	return table(moving[:min(most, len(moving))], columns)
}

// ofVariance are the columns of the shares in a variance.
func ofVariance[T any](share func(*T) *shares.Input) []column[T] {
	return []column[T]{
		{"alone", "", right, func(t *T) string { return words.OfVariance(share(t).First) }},
		{"in all", "", right, func(t *T) string { return words.OfVariance(share(t).Total) }},
	}
}

// moving are the inputs that have an effect, in their order.
func moving(r *rank.Ranking) []rank.Input {
	return slices.DeleteFunc(slices.Clone(r.Inputs), func(in rank.Input) bool { return !r.Moves(&in) })
}

// Spread writes what the errors of the inputs do: how sure the verdict is, what was drawn,
// and what the results came to.
func Spread(w io.Writer, st *spread.Study, o Options) error {
	p := o.page(w)
	p.found(words.SpreadHead(st, p.Verdict), words.SpreadSays(st), words.SpreadWarns(st))
	p.drawn(st)
	p.Line("")
	p.table(results(st))
	p.Line("")
	p.Wrap("", words.SpreadMethod(st))
	return p.end(words.Caution(st.Own.Spring.Stored))
}

// drawn writes what was drawn.
func (p *Page) drawn(st *spread.Study) {
	n := slices.IndexFunc(st.Inputs, func(in spread.Input) bool { return in.Share.Total.Value < rules.LeastShare })
	if n < 0 {
		n = len(st.Inputs)
	}
	p.table(table(st.Inputs[:n], append([]column[spread.Input]{
		{"  drawn", "", left, func(in *spread.Input) string { return "  " + words.Input(in.Words, st.Own.Name) }},
		{"value", "", right, words.Drawn},
		{"", "", left, func(in *spread.Input) string { return in.Unit }},
		{"may be off", "", right, func(in *spread.Input) string { return words.Off(in.Parts[0].Error, in.Unit) }},
		{"by its", "", left, words.DrawnBy},
	}, ofVariance(func(in *spread.Input) *shares.Input { return &in.Share })...)))
	less(p, st.Inputs[n:], func(in *spread.Input) string { return words.Input(in.Words, st.Own.Name) })
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
