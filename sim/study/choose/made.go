package choose

import (
	"fmt"

	"evenpull/sim/rules"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
)

// idealTable lists the springs to have made, then their order lines.
func (st *Study) idealTable(p *text.Page) {
	if len(st.Ideals) == 0 {
		p.Wrap("  ! ", fmt.Sprintf("an end shake of %s mm leaves no width for a spring in a barrel %s mm high inside", plain(st.EndShake), plain(st.shop.height)))
		return
	}
	p.Wrap("  ", fmt.Sprintf("a strip of the same steel whose mean torque is the target, as long as fills the barrel to the share told and, as those above, set up to make the run most even with at least %s turns to spare (the present set-up is %.2f turns); in the thickness asked for it suits, set up like this and each strip cut to that fill", plain(spare), st.Present.SetUp))
	g := st.IdealTable()
	g.Write(p)
	for i := range st.Ideals {
		if order := st.Ideals[i].Order(); order != "" {
			p.Line("  order: " + order)
		}
	}
	st.idealNotes(p)
}

// IdealTable is the springs to have made, below two rows of headings and units.
func (st *Study) IdealTable() text.Grid {
	var g text.Grid
	g.Row("  width", "thickness", "rule of thumb", "spacers", "length", "fill", "set-up", "reserve", "even", "left", "verdict")
	g.Row("  mm", "mm", "mm", "mm", "mm", "%", "turns", "mean", "%", "turns", "")
	beside := 0
	for i := range st.Ideals {
		beside = max(beside, min(decimals(st.Ideals[i].Spacers), 2))
	}
	for i := range st.Ideals {
		id := &st.Ideals[i]
		cells := []string{fmt.Sprintf("  %.1f", id.Width), "–", fmt.Sprintf("%.3f", id.Thumb), fixed(id.Spacers, beside), "–", "–", "–", "–", "–", "–", "–"}
		if id.Fault == "" {
			cells[1], cells[4], cells[5] = fmt.Sprintf("%.3f", id.Thickness), fmt.Sprintf("%.0f", id.Length), fmt.Sprintf("%.0f", 100*id.Fill)
			cells[6], cells[7], cells[8], cells[9], cells[10] = words.Two(id.SetUp), words.Two(id.Reserve.Mean), words.Two(100*id.Unevenness), words.Two(id.Left), id.Verdict.String()
		}
		if len(id.Faults) > 0 {
			cells[10] += " !"
		}
		g.Row(cells...)
	}
	g.Right(0, 1, 2, 3, 4, 5, 6, 7, 8, 9)
	return g
}

// idealNotes tells what is wrong with springs to have made.
func (st *Study) idealNotes(p *text.Page) {
	for i := range st.Ideals {
		id := &st.Ideals[i]
		switch {
		case id.Fault != "":
			p.Wrap("  ! ", fmt.Sprintf("%.1f mm wide: %s", id.Width, id.Fault))
		case id.Verdict != rules.Suits:
			p.Wrap("  ! ", fmt.Sprintf("%.1f mm wide: no line to order, since it %s: %s", id.Width, does(id.Verdict), first(id.Reasons)))
		case len(id.Faults) > 0:
			p.Wrap("  ! ", fmt.Sprintf("%.1f mm wide: no line to order: %s", id.Width, id.Faults[0]))
		}
	}
}
