package text

import (
	"fmt"
	"io"

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
	var g Grid
	g.Row("", "set-up", "unevenness", "mean", "reserve", "reserve", "to spare", "metal off", "")
	g.Row("", "turns", "%", "N·m", "mean", "least", "turns", "mm³", "verdict")
	off := func(way *cut.Way) string {
		if way.Removed > 0 {
			return words.Figure(way.Removed * 1e9)
		}
		return "–"
	}
	metal := []string{"–", "–", off(&st.Present), off(&st.Least)}
	names, ways := words.CutWays(st)
	for i, d := range ways {
		if d == nil {
			g.Row("  "+names[i], "–", "–", "–", "–", "–", "–", "–", "cannot be had")
			continue
		}
		g.Row("  "+names[i], setUpTurns(d), unevenness(d), meanTorque(d), meanReserve(d), leastReserve(d), toSpare(d), metal[i], p.Verdict(d.Verdict.Code))
	}
	g.Right(1, 2, 3, 4, 5, 6, 7)
	return g
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
