package text

import (
	"fmt"
	"io"

	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/show/words"
	"evenpull/sim/study/cut"
)

// Cut writes the cone for a spring: whether the present one suits, the ways to an
// even pull, what is advised, and the cone turn by turn.
func Cut(w io.Writer, st *cut.Study, o Options) error {
	p := o.page(w)
	p.Wrap("", words.CutHead(st, p.Verdict))
	p.Line("")
	p.table(p.cutWays(st))
	p.list("  ! ", words.CutWayFaults(st))
	p.Line("")
	p.list("  - ", words.CutSays(st))
	p.list("  ! ", words.CutWarns(st))
	p.Line("")
	p.table(cutRows(st))
	return p.end(words.CutCautions(st)...)
}

// cutWays is the table of what may be done.
func (p *Page) cutWays(st *cut.Study) Grid {
	type way = words.CutWay
	run := func(w *way) *sim.Digest { return w.Run }
	columns := []column[way]{{"", "", left, func(w *way) string { return "  " + w.Name }}}
	columns = append(columns, figures(run, none, byTwo, "spring.set_up_turns", outcome.Unevenness,
		outcome.MeanTorque, outcome.MeanReserve, outcome.LeastReserve, "spring.turns_to_spare")...)
	return table(words.CutWays(st), append(columns,
		column[way]{"metal off", "mm³", right, func(w *way) string { return words.Either(w.Off > 0, words.Figure(w.Off*1e9), none) }},
		column[way]{"", "verdict", left, ofRun(run, "cannot be had", func(d *sim.Digest) string { return p.Verdict(d.Verdict.Code) })},
		column[way]{"sure", "in 100", right, ofRun(run, none, words.InHundred)}))
}

// cutRows is the cone turn by turn.
func cutRows(st *cut.Study) Grid {
	return table(st.Rows, []column[cut.Row]{
		{"  fusee", "  turn", right, func(r *cut.Row) string { return "  " + words.Turns(r.FuseeTurn) }},
		{"along", "mm", right, func(r *cut.Row) string { return fmt.Sprintf("%.1f", r.Along*1e3) }},
		{"diameter", "mm", right, func(r *cut.Row) string { return words.Two(r.Diameter * 1e3) }},
		{"now", "mm", right, func(r *cut.Row) string { return words.Two(r.Now * 1e3) }},
		{"to remove", "mm", right, func(r *cut.Row) string { return words.Minus(words.Two(r.Remove * 1e3)) }},
		{"torque now", "N·m", right, func(r *cut.Row) string { return words.Figure(r.TorqueBefore) }},
		{"torque after", "N·m", right, func(r *cut.Row) string { return words.Figure(r.Torque) }},
		{"free line", "mm", right, func(r *cut.Row) string { return words.Figure(r.Span * 1e3) }},
		{"fleet", "°", right, func(r *cut.Row) string { return words.Minus(words.Two(words.Degrees(r.Fleet))) }},
	})
}
