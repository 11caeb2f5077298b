package text

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"evenpull/sim/show/words"
	"evenpull/sim/study/choose"
)

// chosen is the number of candidates that are shown.
const chosen = 20

// Choose writes a choice: what is tried first, the best spring and why, the
// candidates, why the others stand behind it, the springs to have made, the rule of
// thumb, the cautions.
func Choose(w io.Writer, st *choose.Study, o Options) error {
	p := o.page(w)
	p.Wrap("", words.ChooseFirst(st, p.Verdict))
	p.Wrap("", "aimed at: "+words.ChooseGoal(st))
	p.list("  ! ", words.ChooseNotes(st))
	p.Line("")
	p.best(st)
	p.Line("")
	p.candidates(st)
	p.Line("The spring to have made")
	p.ideals(st)
	p.Line("")
	p.Line("Beside the rule of thumb")
	p.list("  - ", words.ChooseThumb(st))
	return p.end(words.ChooseCautions(st)...)
}

// best names the best candidate, how it is fitted and why it stands where it does.
func (p *Page) best(st *choose.Study) {
	p.Wrap("", words.ChooseHead(st, p.Verdict))
	best := &st.Candidates[0]
	if !best.Fits() {
		return
	}
	if order := words.ChooseOrder(st, best); order != "" {
		p.Line("  order: " + order)
	} else {
		p.Wrap("  size: ", fmt.Sprintf("%s; no line to order, since %s", words.ChooseSize(best), words.ChooseNoOrder(&best.Digest)))
	}
	p.Wrap("  - ", words.ChooseFitting(best))
	p.list("  - ", words.Reasons(&best.Digest))
	p.Wrap("  - ", words.ChooseEven(st, best))
	p.list("  ! ", words.Faults(&best.Digest))
}

func (p *Page) candidates(st *choose.Study) {
	list := st.Candidates[:min(len(st.Candidates), chosen)]
	p.table(springs(list))
	if more := len(st.Candidates) - len(list); more > 0 {
		p.Wrap("  ", fmt.Sprintf("and %d more, none of them better; --format csv lists all", more))
	}
	p.list("  ", words.ChooseFitted(st))
	p.Line("")
	if len(list) == 1 {
		return
	}
	p.Line("Why the others stand behind " + list[0].Label)
	for i := range list[1:] {
		c := &list[i+1]
		why := words.ChooseBehind(st, c)
		for _, s := range words.Faults(&c.Digest) {
			if !strings.Contains(why, s) {
				why += "; ! " + s
			}
		}
		p.Wrap("  "+c.Label+": ", why)
	}
	p.Line("")
}

// springs lists candidates; "!" stands by the verdict of those with a fault.
func springs(list []choose.Candidate) Grid {
	var g Grid
	g.Row("", "spring", "verdict", "width", "thick", "cut to", "spacers", "set-up", "mean", "reserve", "reserve", "uneven", "to spare")
	g.Row("", "", "", "mm", "mm", "mm", "mm", "turns", "N·m", "mean", "least", "%", "turns")
	for i := range list {
		c, d := &list[i], &list[i].Digest
		row := []string{strconv.Itoa(c.Rank), clip(c.Label), "refused", fmt.Sprintf("%.1f", c.WidthMM), fmt.Sprintf("%.3f", c.ThicknessMM), "–", "–", "–", "–", "–", "–", "–", "–"}
		if c.Fits() {
			row[2], row[5] = words.Small(d.Verdict.Code), "whole"
			if d.Faults != 0 {
				row[2] += " !"
			}
			if !math.IsNaN(c.CutTo) {
				row[5] = words.Turns(c.CutTo)
			}
			row = append(row[:6], fmt.Sprintf("%.1f", c.Spacers), words.Two(d.Spring.SetUp), words.Figure(d.Torque.Mean), words.Two(d.Reserve(d.Torque.Mean)),
				words.Two(d.Reserve(d.Torque.Min)), words.Share(d.Torque.Unevenness), words.Two(d.Left()))
		}
		g.Row(row...)
	}
	g.Right(0, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12)
	return g
}

// clip cuts a label short for a table.
func clip(label string) string {
	const most = 24
	if r := []rune(label); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return label
}

// ideals lists the springs to have made, then their order lines.
func (p *Page) ideals(st *choose.Study) {
	p.Wrap("  ", words.ChooseMade(st))
	if len(st.Ideals) == 0 {
		return
	}
	p.table(Ideals(st))
	for i := range st.Ideals {
		id := &st.Ideals[i]
		if order := words.IdealOrder(id); order != "" {
			p.Line("  order: " + order + "; set up by " + words.TurnsAndClicks(&id.Ordered.Digest))
		} else {
			p.Wrap("  ! ", words.IdealNote(st, id))
		}
	}
}

// Ideals is the springs to have made, below two rows of headings and units.
func Ideals(st *choose.Study) Grid {
	var g Grid
	g.Row("  width", "thickness", "rule of thumb", "spacers", "length", "fill", "set-up", "reserve", "uneven", "to spare", "verdict")
	g.Row("  mm", "mm", "mm", "mm", "mm", "%", "turns", "mean", "%", "turns", "")
	for i := range st.Ideals {
		id, d := &st.Ideals[i], &st.Ideals[i].Digest
		row := []string{fmt.Sprintf("  %.1f", id.Width), "–", fmt.Sprintf("%.3f", id.Thumb), words.Turns(id.Spacers), "–", "–", "–", "–", "–", "–", "–"}
		if id.Found() {
			row[1], row[4], row[5] = fmt.Sprintf("%.3f", id.Thickness), fmt.Sprintf("%.0f", id.Length), fmt.Sprintf("%.0f", 100*id.Fill)
			row = append(row[:6], words.Two(d.Spring.SetUp), words.Two(d.Reserve(d.Torque.Mean)), words.Share(d.Torque.Unevenness), words.Two(d.Left()), words.Small(d.Verdict.Code))
		}
		if d.Faults != 0 {
			row[10] += " !"
		}
		g.Row(row...)
	}
	g.Right(0, 1, 2, 3, 4, 5, 6, 7, 8, 9)
	return g
}
