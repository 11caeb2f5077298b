package text

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"evenpull/sim/outcome"
	"evenpull/sim/show/words"
	"evenpull/sim/study/choose"
)

// most is the number of candidates that are shown.
func (p *Page) most() int {
	if p.Full {
		return 20
	}
	return 12
}

// Choose writes a choice: what is tried first, the best spring and on what it hangs, the
// candidates, the spring to have made, the rule of thumb, the cautions; in full also how
// springs are fitted, why each stands behind the best, and narrower springs to have made.
func Choose(w io.Writer, st *choose.Study, o Options) error {
	p := o.page(w)
	p.then = words.ChooseNext(st)
	p.Wrap("", words.ChooseFirst(st, p.Verdict))
	p.Wrap("", "aimed at: "+words.ChooseGoal(st))
	p.list("  ! ", words.ChooseNotes(st))
	p.Line("")
	p.best(st)
	p.Line("")
	p.candidates(st)
	if !p.Full {
		p.made(st)
		return p.end(words.ChooseCautions(st)[0])
	}
	p.behind(st)
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
	best := st.Best()
	if !best.Fits() {
		return
	}
	if order := words.ChooseOrder(best); order != "" {
		p.Wrap("  order: ", order)
	} else {
		p.Wrap("  size: ", fmt.Sprintf("%s; %s; no line to order, since %s", words.ChooseSize(best), words.ChooseFitting(best), words.ChooseNoOrder(&best.Digest)))
	}
	steel := words.ChooseSteel(st)
	if p.Full || len(steel) == 0 {
		p.list("  - ", words.ChooseSays(st, best))
	}
	if brief := words.ChooseSteelBrief(st); !p.Full && brief != "" {
		steel = []string{brief}
	}
	p.list("  - ", steel)
	p.list("  ! ", words.Faults(&best.Digest))
}

// candidates lists them, the present spring at its place; in full those that cannot be
// fitted too, else these are told in a line each.
func (p *Page) candidates(st *choose.Study) {
	all := st.All()
	if !p.Full {
		all = slices.DeleteFunc(all, func(c choose.Candidate) bool { return !c.Fits() })
	}
	n := len(all)
	list := slices.DeleteFunc(all, func(c choose.Candidate) bool { return c.Rank > p.most() })
	if len(list) > 0 {
		p.table(springs(list))
	}
	if more := n - len(list); more > 0 {
		p.Wrap("  ", fmt.Sprintf("and %d more, none of them better; --format csv lists all", more))
	}
	if p.Full {
		p.list("  ", words.ChooseFitted(st))
	} else {
		p.Wrap("  ", words.ChooseBrief(st))
	}
	p.Line("")
}

// behind tells why the candidates that are shown stand behind the best.
func (p *Page) behind(st *choose.Study) {
	list := st.Candidates[:min(len(st.Candidates), p.most())]
	if len(list) < 2 {
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

// made tells the widest spring to have made, and the rule of thumb beside it.
func (p *Page) made(st *choose.Study) {
	if len(st.Ideals) == 0 {
		p.Wrap("", words.ChooseMade(st))
		return
	}
	id := &st.Ideals[0]
	if order := words.IdealOrder(id); order != "" {
		p.Wrap("to have made: ", order+words.IdealFitted(id))
	} else {
		p.Wrap("to have made: ", words.IdealNote(st, id))
	}
	p.Wrap("", words.ThumbBrief(st))
}

// springs lists candidates; "!" stands by the verdict of those with a fault.
func springs(list []choose.Candidate) Grid {
	run := (*choose.Candidate).Run
	return table(list, append([]column[choose.Candidate]{
		{"", "", right, func(c *choose.Candidate) string { return words.Either(c.Own, none, strconv.Itoa(c.Rank)) }},
		{"spring", "", left, func(c *choose.Candidate) string { return clipped(c.Label, 24) }},
		{"verdict", "", left, ofRun(run, "does not fit", judged)},
		{"sure", "in 100", right, func(c *choose.Candidate) string { return words.InHundred(&c.Digest) }},
		{"width", "mm", right, func(c *choose.Candidate) string { return fmt.Sprintf("%.1f", c.WidthMM) }},
		{"thick", "mm", right, func(c *choose.Candidate) string { return fmt.Sprintf("%.3f", c.ThicknessMM) }},
		{"cut to", "mm", spare(right, 2), func(c *choose.Candidate) string {
			return words.Either(c.Fits() && !c.Own, or(c.CutTo, "uncut", words.Turns), none)
		}},
		{"spacers", "mm", spare(right, 3), func(c *choose.Candidate) string {
			return words.Either(c.Fits() && !c.Own, fmt.Sprintf("%.1f", c.Spacers), none)
		}},
	}, figures(run, none, byTwo, "spring.set_up_turns", "???"+outcome.MeanTorque, "??"+outcome.MeanReserve, outcome.LeastReserve,
		outcome.Unevenness+" uneven", "?spring.turns_to_spare")...))
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
			p.Wrap("  order: ", order+words.IdealFitted(id))
		} else {
			p.Wrap("  ! ", words.IdealNote(st, id))
		}
	}
}

// Ideals is the springs to have made, below two rows of headings and units.
func Ideals(st *choose.Study) Grid {
	type ideal = choose.Ideal
	run := (*ideal).Run
	found := func(decimals int, of func(*ideal) float64) func(*ideal) string {
		return func(id *ideal) string { return words.Either(id.Found(), fmt.Sprintf("%.*f", decimals, of(id)), none) }
	}
	columns := []column[ideal]{
		{"  width", "  mm", right, func(id *ideal) string { return fmt.Sprintf("  %.1f", id.Width) }},
		{"thickness", "mm", right, found(3, func(id *ideal) float64 { return id.Thickness })},
		{"rule of thumb", "mm", right, func(id *ideal) string {
			return or(id.Thumb, none, func(v float64) string { return fmt.Sprintf("%.3f", v) })
		}},
		{"spacers", "mm", right, func(id *ideal) string { return words.Turns(id.Spacers) }},
		{"length", "mm", right, found(0, func(id *ideal) float64 { return id.Length })},
		{"fill", "%", right, found(0, func(id *ideal) float64 { return 100 * id.Fill })},
	}
	columns = append(columns, figures(run, none, byTwo, "spring.set_up_turns", outcome.MeanReserve, outcome.Unevenness+" uneven", "spring.turns_to_spare")...)
	return table(st.Ideals, append(columns, column[ideal]{"verdict", "", left, ofRun(run, none, judged)}))
}
