package choose

import (
	"fmt"
	"io"

	"evenpull/sim"
	"evenpull/sim/internal/page"
)

// Text writes a study for people.
type Text struct{ Colour bool }

// shown is the number of candidates that are shown in text.
const shown = 20

// Write writes it: the best and why, what to mind, the candidates, why the others
// stand behind it, the ideal spring, the rule of thumb, the cautions.
func (t Text) Write(w io.Writer, st *Study) error {
	p := page.New(w, t.Colour)
	p.Wrap("", fmt.Sprintf("%s train, %s", st.Train.Name, st.goal()))
	p.Line("")
	st.head(p)
	p.Line("")
	st.table(p)
	p.Line("")
	st.others(p)
	p.Line("The spring to have made")
	st.idealTable(p)
	p.Line("")
	p.Line("Beside the rule of thumb")
	for _, s := range st.thumb() {
		p.Wrap("  - ", s)
	}
	p.Line("")
	for _, s := range st.Cautions {
		p.Wrap("Caution: ", s)
	}
	return p.Flush()
}

// head names the best candidate.
func (st *Study) head(p *page.Page) {
	best := &st.Candidates[0]
	suit, sound := st.Suits()
	n := len(st.Candidates)
	switch {
	case suit > 0:
		p.Wrap("", fmt.Sprintf("%s %s; of %s %s %s", best.Label, p.Verdict(best.Verdict), count(n, "spring"), count(suit, "suits", "suit"), faults(suit, sound)))
	case best.Refused != "":
		p.Wrap("", fmt.Sprintf("none of %s can be fitted; the nearest is %s", count(n, "spring"), best.Label))
		p.Wrap("  - ", best.Refused)
	default:
		p.Wrap("", fmt.Sprintf("none of %s suits; the nearest is %s, which %s", count(n, "spring"), best.Label, verb(p, best.Verdict)))
	}
	if best.Refused == "" {
		st.reasons(p)
	}
	if st.Stopped() {
		p.Wrap("  ! ", fmt.Sprintf("stopped early: %d of the %d springs of the list were tried", n, st.Asked))
	}
}

// reasons tells how the best candidate is fitted, and why it stands where it does.
func (st *Study) reasons(p *page.Page) {
	best := &st.Candidates[0]
	if order := st.Order(); order != "" {
		p.Line("  order: " + order)
	} else {
		p.Line("  size: " + best.size())
	}
	p.Wrap("  - ", best.fitting())
	for _, s := range best.Reasons {
		p.Wrap("  - ", s)
	}
	p.Wrap("  - ", fmt.Sprintf("the torque is even to %s; its mean is %s the target", page.Percent(best.Evenness), above(st.off(best))))
	if st.Tolerance.Known() {
		p.Wrap("  - ", "in the thickness asked for it still suits, cut and set up like this")
	}
	for _, s := range best.Faults {
		p.Wrap("  ! ", s)
	}
}

// faults tells how many of those that suit have none.
func faults(suit, sound int) string {
	switch {
	case sound == suit:
		return "without a fault"
	case sound == 0:
		return "but not without a fault"
	}
	return fmt.Sprintf("(%d without a fault)", sound)
}

// verb is a verdict as a verb, its word as the page has it.
func verb(p *page.Page, c sim.Code) string {
	if c == sim.Stops || c == sim.Suits {
		return p.Verdict(c)
	}
	return "is " + p.Verdict(c)
}

// count is a number of things; the plural adds an s unless it is given.
func count(n int, one string, many ...string) string {
	switch {
	case n == 1:
		return "1 " + one
	case len(many) > 0:
		return fmt.Sprintf("%d %s", n, many[0])
	}
	return fmt.Sprintf("%d %ss", n, one)
}

// table lists the candidates.
func (st *Study) table(p *page.Page) {
	var g page.Grid
	g.Row("", "spring", "verdict", "width", "thick", "cut to", "spacers", "set-up", "mean", "reserve", "reserve", "even", "left")
	g.Row("", "", "", "mm", "mm", "mm", "mm", "turns", "N·m", "mean", "least", "%", "turns")
	for i := range st.Candidates[:min(len(st.Candidates), shown)] {
		c := &st.Candidates[i]
		verdict := c.Verdict.String()
		if c.Refused != "" {
			verdict = "refused"
		} else if len(c.Faults) > 0 {
			verdict += " !"
		}
		cells := []string{fmt.Sprint(c.Rank), clip(c.Label), verdict, plain(c.WidthMM), plain(c.ThicknessMM)}
		if c.Refused != "" {
			g.Row(append(cells, "–", "–", "–", "–", "–", "–", "–", "–")...)
			continue
		}
		cut := plain(c.CutTo)
		if c.CutTo == c.LengthMM {
			cut = "whole"
		}
		g.Row(append(cells, cut, plain(c.Spacers), fmt.Sprintf("%.2f", c.SetUp), sim.Figure(c.Mean), page.Two(c.Reserve.Mean), page.Two(c.Reserve.Min), sim.Figure(100*c.Evenness), sim.Figure(c.Left))...)
	}
	g.Right(0, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12)
	g.Write(p)
	if more := len(st.Candidates) - shown; more > 0 {
		p.Wrap("  ", fmt.Sprintf("and %d more, none of them better; --format csv lists all", more))
	}
	p.Wrap("  ", fmt.Sprintf("spacers leave %s mm of end shake; a spring that may be cut is cut, and every one set up, to make the run most even with at least %s turns to spare when the fusee is wound (common practice, no source); of lengths that are as even within 1 %% the longest; %s", plain(st.EndShake), plain(spare), st.steel()))
}

// others says why the others stand behind the best.
func (st *Study) others(p *page.Page) {
	list := st.Candidates[1:min(len(st.Candidates), shown)]
	if len(list) == 0 {
		return
	}
	p.Line("Why the others stand behind " + st.Candidates[0].Label)
	for i := range list {
		p.Wrap("  "+list[i].Label+": ", list[i].Loses)
	}
	p.Line("")
}

// idealTable lists the springs to have made, then their order lines.
func (st *Study) idealTable(p *page.Page) {
	if len(st.Ideals) == 0 {
		p.Wrap("  ! ", fmt.Sprintf("an end shake of %s mm leaves no width for a spring in a barrel %s mm high inside", plain(st.EndShake), plain(st.shop.height)))
		return
	}
	p.Wrap("  ", fmt.Sprintf("a strip of the same steel whose mean torque is the target, set up by the present %.2f turns and as long as fills the barrel to the share told; in the thickness asked for it suits, each strip cut to that fill", st.Present.SetUp))
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
func (st *Study) IdealTable() page.Grid {
	var g page.Grid
	g.Row("  width", "thickness", "rule of thumb", "spacers", "length", "fill", "reserve", "even", "verdict")
	g.Row("  mm", "mm", "mm", "mm", "mm", "%", "mean", "%", "")
	for i := range st.Ideals {
		id := &st.Ideals[i]
		cells := []string{fmt.Sprintf("  %.1f", id.Width), "–", fmt.Sprintf("%.3f", id.Thumb), plain(id.Spacers), "–", "–", "–", "–", "–"}
		if id.Fault == "" {
			cells[1], cells[4], cells[5] = fmt.Sprintf("%.3f", id.Thickness), fmt.Sprintf("%.0f", id.Length), fmt.Sprintf("%.0f", 100*id.Fill)
			cells[6], cells[7], cells[8] = page.Two(id.Reserve.Mean), sim.Figure(100*id.Evenness), id.Verdict.String()
		}
		if len(id.Faults) > 0 {
			cells[8] += " !"
		}
		g.Row(cells...)
	}
	g.Right(0, 1, 2, 3, 4, 5, 6, 7)
	return g
}

// idealNotes tells what is wrong with springs to have made.
func (st *Study) idealNotes(p *page.Page) {
	for i := range st.Ideals {
		id := &st.Ideals[i]
		switch {
		case id.Fault != "":
			p.Wrap("  ! ", fmt.Sprintf("%.1f mm wide: %s", id.Width, id.Fault))
		case len(id.Faults) > 0:
			p.Wrap("  ! ", fmt.Sprintf("%.1f mm wide: %s", id.Width, id.Faults[0]))
		}
	}
}
