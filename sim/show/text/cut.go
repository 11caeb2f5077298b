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
	names, ways := words.CutWays(st)
	off := []*cut.Way{nil, nil, &st.Present, &st.Least}
	rows := make([]int, len(ways))
	for i := range rows {
		rows[i] = i
	}
	columns := []column[int]{{"", "", left, func(i *int) string { return "  " + names[*i] }}}
	columns = append(columns, figures(func(i *int) *sim.Digest { return ways[*i] }, none, byTwo, "spring.set_up_turns", outcome.Unevenness,
		outcome.MeanTorque, outcome.MeanReserve, outcome.LeastReserve, "spring.turns_to_spare")...)
	return table(rows, append(columns,
		column[int]{"metal off", "mm³", right, func(i *int) string {
			if ways[*i] == nil || off[*i] == nil || !(off[*i].Removed > 0) {
				return none
			}
			return words.Figure(off[*i].Removed * 1e9)
		}},
		column[int]{"", "verdict", left, func(i *int) string {
			if ways[*i] == nil {
				return "cannot be had"
			}
			return p.Verdict(ways[*i].Verdict.Code)
		}},
		column[int]{"sure", "in 100", right, func(i *int) string {
			if ways[*i] == nil {
				return none
			}
			return words.InHundred(ways[*i])
		}}))
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
