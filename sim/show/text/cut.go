package text

import (
	"fmt"
	"io"
	"slices"

	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/show/words"
	"evenpull/sim/study/cut"
)

// Cut writes the cone for a spring: whether the present one suits, the ways to an
// even pull, what is advised, and the cone turn by turn.
func Cut(w io.Writer, st *cut.Study, o Options) error {
	p := o.page(w)
	if st.Wanted != nil {
		return p.wanted(st)
	}
	p.then = words.CutNext(st)
	p.Wrap("", words.CutHead(st, p.Verdict))
	p.Line("")
	p.table(p.cutWays(st))
	p.list("  ! ", words.CutWayFaults(st))
	p.Line("")
	p.list("  - ", words.CutSays(st))
	p.list("  ! ", words.CutWarns(st))
	if st.Shown() {
		p.Line("")
		p.table(cutRows(st))
		return p.end(words.CutCautions(st)...)
	}
	is, err := st.Leave()
	if err != nil {
		return err
	}
	return p.end(words.CutCautions(is)...)
}

// cutWays is the table of what may be done.
func (p *Page) cutWays(st *cut.Study) Grid {
	type way = words.CutWay
	run := func(w *way) *sim.Digest { return w.Run }
	columns := []column[way]{{"", "", left, func(w *way) string { return "  " + w.Name }}}
	columns = append(columns, figures(run, none, byTwo, "spring.set_up_turns", outcome.Unevenness,
		"???"+outcome.MeanTorque, "?"+outcome.MeanReserve, outcome.LeastReserve, "spring.turns_to_spare")...)
	return table(words.CutWays(st), append(columns,
		column[way]{"metal off", "mm³", spare(right, 4), func(w *way) string { return words.Either(w.Off > 0, words.Figure(w.Off*1e9), none) }},
		column[way]{"", "verdict", left, ofRun(run, "cannot be had", func(d *sim.Digest) string { return p.Verdict(d.Verdict.Code) })},
		column[way]{"sure", "in 100", right, ofRun(run, none, words.InHundred)}))
}

// wanted writes the search for a cone: the few that were found, and the best turn by turn.
func (p *Page) wanted(st *cut.Study) error {
	p.Wrap("", words.CutHead(st, p.Verdict))
	p.Line("")
	if !st.None() {
		p.table(p.cones(st))
		p.Line("")
	}
	p.list("  - ", words.WantedSays(st))
	if st.None() {
		p.list("  ! ", words.CutWarns(st))
		return p.end()
	}
	p.list("  - ", words.WantedMaking(st))
	p.list("  ! ", words.CutWarns(st))
	p.Line("")
	p.table(cutRows(st))
	return p.end(words.CutCautions(st)...)
}

// cones is the table of those that keep within the limits.
func (p *Page) cones(st *cut.Study) Grid {
	type cone = cut.Found
	length := func(title, unit string, of func(f *cone) float64) column[cone] {
		return column[cone]{title, unit, right, func(f *cone) string { return fmt.Sprintf("%.1f", of(f)*1e3) }}
	}
	thinner := func(title, unit string, of func(f *cone) float64) column[cone] {
		c := length(title, unit, of)
		c.flush = spare(right, 3)
		return c
	}
	run := func(f *cone) *sim.Digest { return &f.Digest }
	columns := []column[cone]{
		{"  fusee", "  turns", right, func(f *cone) string { return "  " + words.Turns(f.Turns) }},
		{"runs", "h", right, func(f *cone) string { return words.Figure(f.Runtime) }},
		{"set-up", "turns", right, func(f *cone) string { return words.Two(f.Spring.SetUp) }},
		thinner("groove", "small", func(f *cone) float64 { return f.Small }), thinner("mm", "large", func(f *cone) float64 { return f.Large }),
		length("lands", "small", func(f *cone) float64 { return f.Small + 2*f.Land }), length("mm", "large", func(f *cone) float64 { return f.Large + 2*f.Land }),
		length("height", "mm", func(f *cone) float64 { return f.Height }),
		{"line", "mm", right, func(f *cone) string { return fmt.Sprintf("%.0f", f.Line.OnFusee*1e3) }},
		{"spare", "turns", right, func(f *cone) string { return words.Two(f.Spare()) }},
		{"uneven, %", "0.01 off", spare(right, 1), func(f *cone) string { return words.Share(f.OffUnevenness()) }},
		{"reserve", "mean", spare(right, 2), func(f *cone) string { return words.Figure(f.Reserve(f.Torque.Mean)) }},
		{"", "verdict", left, ofRun(run, none, func(d *sim.Digest) string { return p.Verdict(d.Verdict.Code) })},
		{"sure", "in 100", right, ofRun(run, none, words.InHundred)},
	}
	return table(st.Wanted.Cones, columns)
}

// cutRows is the cone turn by turn.
func cutRows(st *cut.Study) Grid {
	all := []column[cut.Row]{
		{"  fusee", "  turn", right, func(r *cut.Row) string { return "  " + words.Turns(r.FuseeTurn) }},
		{"along", "mm", right, func(r *cut.Row) string { return fmt.Sprintf("%.1f", r.Along*1e3) }},
		{"groove", "mm", right, func(r *cut.Row) string { return words.Two(r.Diameter * 1e3) }},
		{"lands", "mm", right, func(r *cut.Row) string { return words.Two(r.OverLands * 1e3) }},
		{"now", "mm", right, func(r *cut.Row) string { return words.Two(r.Now * 1e3) }},
		{"to remove", "mm", right, func(r *cut.Row) string { return words.Minus(words.Two(r.Remove * 1e3)) }},
		{"torque now", "N·m", spare(right, 2), func(r *cut.Row) string { return words.Figure(r.TorqueBefore) }},
		{"torque after", "N·m", spare(right, 1), func(r *cut.Row) string { return words.Figure(r.Torque) }},
		{"free line", "mm", spare(right, 3), func(r *cut.Row) string { return words.Figure(r.Span * 1e3) }},
		{"fleet", "°", right, func(r *cut.Row) string { return words.Minus(words.Two(words.Degrees(r.Fleet))) }},
	}
	if st.Wanted != nil { // there is no cone now
		all = slices.Delete(all, 4, 7)
	}
	return table(st.Rows, all)
}
