package choose

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
)

// fixed is a number with so many decimals; what does not apply is a dash.
func fixed(v float64, decimals int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "–"
	}
	return strconv.FormatFloat(v, 'f', decimals, 64)
}

// decimals are those that a number is typed with.
func decimals(v float64) int {
	_, after, _ := strings.Cut(plain(v), ".")
	return len(after)
}

// places are the decimals of a column: those of its numbers, within limits.
func places(list []Candidate, of func(c *Candidate) float64, least, most int) int {
	n := least
	for i := range list {
		n = max(n, decimals(of(&list[i])))
	}
	return min(n, most)
}

// means are the decimals at which the least mean torque shows three figures.
func means(list []Candidate) int {
	least := math.Inf(1)
	for i := range list {
		if c := &list[i]; c.Refused == "" && c.Mean > 0 {
			least = min(least, c.Mean)
		}
	}
	if math.IsInf(least, 0) {
		return 3
	}
	return max(0, min(2-int(math.Floor(math.Log10(least))), 6))
}

// table lists the candidates.
func (st *Study) table(p *text.Page) {
	list := st.Candidates[:min(len(st.Candidates), shown)]
	width := places(list, func(c *Candidate) float64 { return c.WidthMM }, 0, 2)
	thick := places(list, func(c *Candidate) float64 { return c.ThicknessMM }, 2, 3)
	beside := places(list, func(c *Candidate) float64 { return c.Spacers }, 0, 2)
	mean := means(list)
	var g text.Grid
	g.Row("", "spring", "verdict", "width", "thick", "cut to", "spacers", "set-up", "mean", "reserve", "reserve", "even", "left")
	g.Row("", "", "", "mm", "mm", "mm", "mm", "turns", "N·m", "mean", "least", "%", "turns")
	marked := false
	for i := range list {
		c := &list[i]
		cells := []string{fmt.Sprint(c.Rank), clip(c.Label), refused, fixed(c.WidthMM, width), fixed(c.ThicknessMM, thick)}
		if c.Refused != "" {
			g.Row(append(cells, "–", "–", "–", "–", "–", "–", "–", "–")...)
			continue
		}
		if cells[2] = c.Verdict.String(); len(c.Faults) > 0 {
			cells[2], marked = cells[2]+" !", true
		}
		cut := plain(c.CutTo)
		if c.CutTo == c.LengthMM {
			cut = "whole"
		}
		g.Row(append(cells, cut, fixed(c.Spacers, beside), words.Two(c.SetUp), fixed(c.Mean, mean), words.Two(c.Reserve.Mean), words.Two(c.Reserve.Min), words.Two(100*c.Unevenness), words.Two(c.Left))...)
	}
	g.Right(0, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12)
	g.Write(p)
	if more := len(st.Candidates) - shown; more > 0 {
		p.Wrap("  ", fmt.Sprintf("and %d more, none of them better; --format csv lists all", more))
	}
	if marked {
		p.Wrap("  ", "! something does not fit or is unsafe whatever the torque; the lines below tell what")
	}
	p.Wrap("  ", fmt.Sprintf("spacers leave %s mm of end shake; a spring that may be cut is cut, and every one set up, to make the run most even with at least %s turns to spare when the fusee is wound (common practice, no source); of lengths that are as even within 1 %% the longest; %s", plain(st.EndShake), plain(spare), st.steel()))
	p.Wrap("  ", "those of one verdict, without faults before the others, stand in the order of |ln(mean / target)| + unevenness / 2, the least first (common practice, no source)")
}

// others says why the others stand behind the best.
func (st *Study) others(p *text.Page) {
	list := st.Candidates[1:min(len(st.Candidates), shown)]
	if len(list) == 0 {
		return
	}
	p.Line("Why the others stand behind " + st.Candidates[0].Label)
	for i := range list {
		p.Wrap("  "+list[i].Label+": ", list[i].why())
	}
	p.Line("")
}

// why is the first reason why a candidate loses, with those of its faults that the
// reason does not tell.
func (c *Candidate) why() string {
	why := c.Loses
	if c.Refused != "" {
		return why
	}
	for _, s := range c.Faults {
		if !strings.Contains(why, s) {
			why += "; ! " + s
		}
	}
	return why
}
