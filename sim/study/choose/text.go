package choose

import (
	"fmt"
	"io"

	"evenpull/sim/rules"
	"evenpull/sim/show/text"
)

// Text writes a study for people.
type Text struct{ Colour bool }

// shown is the number of candidates that are shown in text.
const shown = 20

// Write writes it: the best and why, what to mind, the candidates, why the others
// stand behind it, the ideal spring, the rule of thumb, the cautions.
func (t Text) Write(w io.Writer, st *Study) error {
	p := text.New(w, t.Colour)
	p.Wrap("", fmt.Sprintf("%s train, %s", st.Train.Name, st.goal()))
	for _, s := range st.Notes {
		p.Wrap("  ! ", s)
	}
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
func (st *Study) head(p *text.Page) {
	best := &st.Candidates[0]
	suit, sound := st.Suits()
	n := len(st.Candidates)
	switch {
	case suit > 0 && !best.sound():
		p.Wrap("", fmt.Sprintf("%s %s by its torque, but: %s; of %s %s %s", best.Label, p.Verdict(best.Verdict), best.Faults[0], count(n, "spring"), count(suit, "suits", "suit"), faults(suit, sound)))
	case suit > 0:
		p.Wrap("", fmt.Sprintf("%s %s; of %s %s %s", best.Label, p.Verdict(best.Verdict), count(n, "spring"), count(suit, "suits", "suit"), faults(suit, sound)))
	case best.Refused != "" && n == 1:
		p.Wrap("", fmt.Sprintf("the one spring, %s, cannot be fitted", best.Label))
		p.Wrap("  - ", best.Refused)
	case best.Refused != "":
		p.Wrap("", fmt.Sprintf("none of %s can be fitted; the nearest is %s", count(n, "spring"), best.Label))
		p.Wrap("  - ", best.Refused)
	case n == 1:
		p.Wrap("", fmt.Sprintf("the one spring, %s, does not suit: it %s", best.Label, verb(p, best.Verdict)))
	default:
		p.Wrap("", fmt.Sprintf("none of %s suits; the nearest is %s, which %s", count(n, "spring"), best.Label, verb(p, best.Verdict)))
	}
	if best.Refused == "" {
		st.reasons(p)
	}
	if st.Stopped() {
		p.Wrap("  ! ", fmt.Sprintf("stopped early: of the %s of the list %s tried", count(st.Asked, "spring"), count(n, "was", "were")))
	}
}

// reasons tells how the best candidate is fitted, and why it stands where it does.
func (st *Study) reasons(p *text.Page) {
	best := &st.Candidates[0]
	if order := st.Order(); order != "" {
		p.Line("  order: " + order)
	} else {
		p.Wrap("  size: ", fmt.Sprintf("%s; no line to order, since %s", best.size(), best.hindrance()))
	}
	p.Wrap("  - ", best.fitting())
	for _, s := range best.Reasons {
		p.Wrap("  - ", s)
	}
	p.Wrap("  - ", fmt.Sprintf("the torque is even to %s; its mean is %s", share(best.Unevenness), beside(st.off(best))))
	if st.Tolerance.Known() && best.sound() {
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
func verb(p *text.Page, c rules.Code) string {
	if c == rules.Stops || c == rules.Suits {
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
