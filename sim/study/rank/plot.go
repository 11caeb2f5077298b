package rank

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"

	"evenpull/sim/show/chart"
)

// Plot draws for each result what moving the inputs down and up does to it, the
// greatest effect at the top.
func Plot(w io.Writer, format string, st *Study) error {
	pictures := make([]chart.Picture, len(st.Rankings))
	for i := range st.Rankings {
		pictures[i] = st.tornado(&st.Rankings[i])
	}
	return chart.Stack(w, format, pictures...)
}

func (st *Study) tornado(r *Ranking) *chart.Tornado {
	t := &chart.Tornado{
		Title: fmt.Sprintf("%s train: the %s, %s", st.Train.Name, r.Of.Words, withUnit(r, r.Value)),
		X:     "change of the " + r.Of.Label(),
		Minus: "less of the input", Plus: "more of the input",
	}
	inputs := slices.DeleteFunc(slices.Clone(r.Inputs), func(in Input) bool { return in.Effect() == 0 || !r.Moves(&in) })
	slices.SortStableFunc(inputs, func(a, b Input) int { return cmp.Compare(b.Effect(), a.Effect()) })
	for _, in := range inputs {
		by := fmt.Sprintf("± %.4g %%", 100*st.Change)
		if in.Tolerated {
			by = strings.TrimSpace(fmt.Sprintf("± %.4g %s", in.By, in.Unit))
		}
		t.Bars = append(t.Bars, chart.TornadoBar{Label: st.short(in.Key) + " " + by, Minus: r.Of.Shown(in.Minus), Plus: r.Of.Shown(in.Plus)})
	}
	return t
}
