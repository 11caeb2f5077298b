package text

import (
	"fmt"
	"io"
	"slices"

	"evenpull/sim/outcome"
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
	if p.Full {
		p.Wrap("", words.RankMethod(st))
	} else {
		p.Wrap("", words.RankBrief(st))
	}
	return p.end(words.Caution(st.Own.Spring.Stored))
}

// rankRows are the numbers of inputs that the text lists with their figures.
const rankRows, rankAllRows = 5, 16

func (p *Page) ranking(st *rank.Study, r *rank.Ranking) {
	p.Wrap("", words.RankHead(st, r)+words.RankBy(st))
	p.list("  ! ", words.Together(st.Own.Name, &r.Of.Quantity, r.Shares))
	if !p.Full {
		p.table(Inputs(st, r, rankRows))
		return
	}
	p.table(Inputs(st, r, rankAllRows))
	moving := moving(r)
	less(p, moving[min(rankAllRows, len(moving)):], func(in *rank.Input) string { return words.Input(in.Quantity.Words, st.Own.Name) })
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
		{"value", "", spare(right, 2), func(in *rank.Input) string { return fmt.Sprintf("%.6g", in.Value) }},
		{"", "", spare(left, 2), func(in *rank.Input) string { return in.Quantity.Unit }},
		{"moved by", "", right, words.RankMoved},
		{"less makes", "", right, func(in *rank.Input) string { return words.Changed(&r.Of.Quantity, in.Minus) }},
		{"more makes", "", right, func(in *rank.Input) string { return words.Changed(&r.Of.Quantity, in.Plus) }},
		{"by 1 %", "", spare(right, 3), words.RankElasticity},
	}
	if r.Shares != nil {
		columns = append(columns, ofVariance(func(in *rank.Input) *shares.Input { return &in.Share })...)
	}
	if st.Total {
		columns[len(columns)-1].cell = func(in *rank.Input) string { return words.ShareAndError(in.Share.Total) }
	}
	return table(moving[:min(most, len(moving))], columns)
}

// ofVariance are the columns of the shares in a variance.
func ofVariance[T any](share func(*T) *shares.Input) []column[T] {
	return []column[T]{
		{"alone", "", spare(right, 4), func(t *T) string { return words.OfVariance(share(t).First) }},
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
	p.table(p.results(st))
	p.Line("")
	if p.Full {
		p.Wrap("", words.SpreadMethod(st))
	} else {
		p.Wrap("", words.SpreadBrief(st))
	}
	return p.end(words.Caution(st.Own.Spring.Stored))
}

// drawn writes what was drawn.
func (p *Page) drawn(st *spread.Study) {
	n := slices.IndexFunc(st.Inputs, func(in spread.Input) bool { return in.Share.Total.Value < rules.LeastShare })
	if n < 0 {
		n = len(st.Inputs)
	}
	if !p.Full {
		n = min(n, rankRows)
	}
	p.table(table(st.Inputs[:n], append([]column[spread.Input]{
		{"  input", "", left, func(in *spread.Input) string { return "  " + words.Input(in.Words, st.Own.Name) }},
		{"value", "", spare(right, 2), words.Drawn},
		{"", "", spare(left, 2), func(in *spread.Input) string { return in.Unit }},
		{"may be off", "", right, func(in *spread.Input) string { return words.Off(in.Parts[0].Error, in.Unit) }},
		{"by its", "", spare(left, 1), words.DrawnBy},
	}, ofVariance(func(in *spread.Input) *shares.Input { return &in.Share })...)))
	if p.Full {
		less(p, st.Inputs[n:], func(in *spread.Input) string { return words.Input(in.Words, st.Own.Name) })
	}
}

// results is what the results came to, the foremost or all; those that no run has are left
// out.
func (p *Page) results(st *spread.Study) Grid {
	type result = spread.Distribution
	value := func(head, below string, of func(*result) float64) column[result] {
		return column[result]{head, below, right, func(d *result) string { return words.Value(&d.Of.Quantity, of(d)) }}
	}
	foremost := append([]string{outcome.MeanReserve, outcome.LeastReserve, outcome.MeanTorque, outcome.Unevenness, "goes_h"}, ofKind(&st.Own)...)
	had := slices.DeleteFunc(slices.Clone(st.Results), func(d result) bool {
		return d.N() == 0 || !p.Full && !slices.Contains(foremost, d.Of.Name)
	})
	return table(had, []column[result]{
		{"  result", "", left, func(d *result) string { return "  " + d.Of.Words }},
		{"", "", left, func(d *result) string { return words.ValueUnit(&d.Of.Quantity) }},
		value("as it is", "", func(d *result) float64 { return d.Own }),
		{"mean", "", spare(right, 1), func(d *result) string { return words.Value(&d.Of.Quantity, d.Mean()) }},
		value("strays", "", (*result).SD),
		value("half lie", "below", func(d *result) float64 { return d.Quantile(0.5) }),
		value("95 % lie", "between", func(d *result) float64 { return d.Quantile(0.025) }),
		value("", "and", func(d *result) float64 { return d.Quantile(0.975) }),
	})
}
