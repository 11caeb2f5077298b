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
	ways := p.cutWays(st)
	ways.Write(p)
	p.list("  ! ", words.CutWayFaults(st))
	p.Line("")
	p.list("  - ", words.CutSays(st))
	p.list("  ! ", words.CutWarns(st))
	p.Line("")
	rows := cutRows(st)
	rows.Write(p)
	p.Line("")
	p.list("Caution: ", words.CutCautions(st))
	return p.Flush()
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
		g.Row("  "+names[i], words.Two(d.Spring.SetUp), words.Share(d.Torque.Unevenness), words.Figure(d.Torque.Mean), words.Two(d.Reserve(d.Torque.Mean)),
			words.Two(d.Reserve(d.Torque.Min)), words.Two(d.Left()), metal[i], p.Verdict(d.Verdict.Code))
	}
	g.Right(1, 2, 3, 4, 5, 6, 7)
	return g
}

// cutRows is the cone turn by turn.
func cutRows(st *cut.Study) Grid {
	var g Grid
	g.Row("  fusee", "along", "diameter", "now", "to remove", "torque now", "torque after", "free line", "fleet")
	g.Row("  turn", "mm", "mm", "mm", "mm", "N·m", "N·m", "mm", "°")
	for i := range st.Rows {
		r := &st.Rows[i]
		g.Row("  "+words.Turns(r.FuseeTurn), fmt.Sprintf("%.1f", r.Along*1e3), words.Two(r.Diameter*1e3), words.Two(r.Now*1e3), words.Minus(words.Two(r.Remove*1e3)),
			words.Figure(r.TorqueBefore), words.Figure(r.Torque), words.Figure(r.Span*1e3), words.Minus(words.Two(words.Degrees(r.Fleet))))
	}
	g.Right(0, 1, 2, 3, 4, 5, 6, 7, 8)
	return g
}
