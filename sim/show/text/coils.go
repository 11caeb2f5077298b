package text

import (
	"io"
	"math"

	"evenpull/sim/show/words"
	"evenpull/sim/study/coils"
)

// mostWindings is how many windings a screen holds.
const mostWindings = 20

// Coils writes what a strip gives coil by coil, winding by winding; of more than a screen
// holds those of whole turns, and in full all.
func Coils(w io.Writer, r *coils.Result, o Options) error {
	p := o.page(w)
	p.found(words.FoundCoils(r), words.CoilsSays(r), words.CoilsWarns(r))
	shown := p.windings(r)
	p.table(table(shown, coilsColumns(r)))
	p.Line("")
	p.Wrap("", words.CoilsFoot(r, len(r.Closed)-len(shown)))
	return p.end(words.CoilsCautions(r)...)
}

// windings are the numbers of those that are shown.
func (p *Page) windings(r *coils.Result) []int {
	var all, whole []int
	for i, turns := range r.Options.Turns {
		all = append(all, i)
		if turns == math.Trunc(turns) {
			whole = append(whole, i)
		}
	}
	if p.Full || len(all) <= mostWindings || len(whole) == 0 {
		return all
	}
	return whole
}

func coilsColumns(r *coils.Result) []column[int] {
	couple := func(head string, of func(i int) float64) column[int] {
		return column[int]{head, "N·m", right, func(i *int) string { return words.Figure(of(*i)) }}
	}
	l := r.Loop.Windings
	return []column[int]{
		{"turns", "", right, func(i *int) string { return words.Turns(r.Options.Turns[*i]) }},
		couple("winding", func(i int) float64 { return l[i].Up.Couple }),
		couple("running down", func(i int) float64 { return l[i].Down.Couple }),
		couple("no friction", func(i int) float64 { return l[i].Free.Couple }),
		couple("closed form", func(i int) float64 { return r.Closed[i] }),
		{"its error", "%", right, func(i *int) string { return words.Signed(100*r.Off(*i), 1) }},
		{"efficiency", "%", right, func(i *int) string { return words.Share(r.EfficiencyAt(*i)) }},
	}
}
