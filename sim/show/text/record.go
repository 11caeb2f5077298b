package text

import (
	"fmt"
	"io"

	"evenpull/sim/bench/measure"
	"evenpull/sim/bench/readings"
	"evenpull/sim/show/words"
)

// Record writes what was found at the bench: what the trains need, what the springs
// give, how that compares with the prediction, and what explains it.
func Record(w io.Writer, st *readings.Study, o Options) error {
	p := o.page(w)
	if t := st.Book.Title; t != "" {
		p.Wrap("", t)
		p.Line("")
	}
	for i := range st.Needs {
		p.need(&st.Needs[i], st.Paces[i])
		p.Line("")
	}
	for i := range st.Springs {
		p.supply(st, i)
		p.Line("")
	}
	if st.Explained != nil {
		p.fit(st.Explained)
		p.Line("")
	}
	p.Wrap("", words.HalfWidths)
	p.Line("")
	p.list("Caution: ", words.RecordCautions(st))
	return p.Flush()
}

func (p *Page) need(n *measure.Need, paces []readings.Pace) {
	p.Line(words.NeedHead(n))
	p.list("  - ", words.Paces(paces))
	p.list("  * note: ", words.NeedNotes(n))
	var g Grid
	g.Row("  weight, g", "torque, N·m", "")
	for i := range n.Trials {
		t := &n.Trials[i]
		g.Row("  "+words.Figure(t.Mass*1e3), words.Figure(t.Torque), words.Trial(n, t))
	}
	g.Right(0, 1)
	g.Write(p)
}

func (p *Page) supply(st *readings.Study, i int) {
	p.Line(words.SupplyHead(st.Springs[i].Supply))
	p.list("  - ", words.SupplySays(st, i))
	if why := words.Why(st.Refused[i]); why != "" {
		p.Wrap("  ! ", "no prediction to compare with: "+why)
	}
	p.list("  * note: ", words.ReadNotes(st, i))
	list := st.Readings(i)
	down := len(st.Springs[i].Turns)
	p.readings(list[:down], "running down", st.Compared[i] != nil)
	p.readings(list[down:], "winding up", st.Compared[i] != nil)
}

// readings writes the turns read one way.
func (p *Page) readings(list []readings.Reading, way string, compared bool) {
	if len(list) == 0 {
		return
	}
	var g Grid
	row := func(cells ...string) {
		if !compared {
			cells = cells[:6]
		}
		g.Row(cells...)
	}
	row("  turn", "n", "mean", "sd", "±", "", "predicted", "residual")
	row("", "", "N·m", "N·m", "N·m", way, "N·m", "N·m")
	for i := range list {
		r, f := &list[i], words.Figure
		mark := ""
		if r.Outlier != nil {
			mark = "outlier " + f(r.Outlier.Value)
		}
		row(fmt.Sprintf("  %d", r.FuseeTurn), fmt.Sprint(r.N), f(r.Mean), f(r.SD), f(r.HalfWidth), mark, f(r.Predicted), residualCell(r.Residual()))
	}
	g.Right(0, 1, 2, 3, 4, 6, 7)
	g.Write(p)
}

func residualCell(v float64) string {
	if v > 0 {
		return "+" + words.Figure(v)
	}
	return words.Minus(words.Figure(v))
}

func (p *Page) fit(e *readings.Explanation) {
	p.Line(words.FitHead(e))
	p.list("  * note: ", words.FitNotes(e))
	var g Grid
	g.Row("  input", "before", "fitted", "standard error", "of it the meter", "")
	for i := range e.Inputs {
		in := &e.Inputs[i]
		g.Row("  "+words.FittedInput(e, i), fmt.Sprintf("%.6g", in.Before), fmt.Sprintf("%.5g", in.Value), words.Figure(in.StandardError), words.Figure(in.FromMeter), in.Unit)
	}
	g.Right(1, 2, 3, 4)
	g.Write(p)
	p.list("  ", words.FitSays(e))
}
