package readings

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"evenpull/sim/bench/measure"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
)

// Text writes a study for people.
type Text struct{ Colour bool }

// Write writes it: what the trains need, what the springs give, how that compares
// with the prediction, what explains it.
func (t Text) Write(w io.Writer, st *Study) error {
	p := text.New(w, t.Colour)
	if st.Title != "" {
		p.Wrap("", st.Title)
		p.Line("")
	}
	for i := range st.Needs {
		writeNeed(p, &st.Needs[i], st.Paces[i])
		p.Line("")
	}
	for i := range st.Springs {
		st.writeSpring(p, i)
		p.Line("")
	}
	if st.Explained != nil {
		writeFit(p, st.Explained)
		p.Line("")
	}
	p.Wrap("", "± is half the 95 % interval: scatter by Student's t, the meter's bound and step by rectangular distributions (JCGM 100).")
	p.Line("")
	p.Wrap("Caution: ", st.Caution)
	return p.Flush()
}

func writeNeed(p *text.Page, n *measure.Need, paces []Pace) {
	b := &n.Bracket
	head := n.Train + " train needs "
	switch {
	case math.IsNaN(b.Least):
		head += "more than " + newtons(b.Between.Lo)
	case !b.HasLower():
		head += "at most " + newtons(b.Least)
	default:
		head += fmt.Sprintf("%s at the winding square, between %s and %s", newtons(b.Least), words.Figure(b.Between.Lo), words.Figure(b.Between.Hi))
	}
	p.Line(head)
	for i := range paces {
		p.Wrap("  - ", paces[i].words())
	}
	notes(p, n.Notes())
	var g text.Grid
	g.Row("  weight, g", "torque, N·m", "")
	for _, t := range n.Trials {
		did := "stops"
		switch {
		case n.Cadence != nil && !t.Runs:
			did = "does not strike"
		case !math.IsNaN(t.Interval):
			did = words.Figure(t.Interval) + " s from blow to blow"
		case t.Runs:
			did = "runs"
		}
		g.Row("  "+words.Figure(t.Mass*1e3), words.Figure(t.Torque), did)
	}
	g.Right(0, 1)
	g.Write(p)
}

func newtons(v float64) string { return words.Figure(v) + " N·m" }

func notes(p *text.Page, list []string) {
	for _, s := range list {
		p.Wrap("  * note: ", s)
	}
}

func (st *Study) writeSpring(p *text.Page, i int) {
	s, c := &st.Springs[i], st.comparison(i)
	head := fmt.Sprintf("spring %s in the %s train gives %s in the mean", s.Spring, s.Train, newtons(s.Mean.Value))
	if !math.IsNaN(s.Mean.HalfWidth) {
		head += " ± " + words.Figure(s.Mean.HalfWidth)
	}
	p.Line(head + "; unevenness " + words.Percent(s.Unevenness))
	if e := s.Efficiency; !math.IsNaN(e.Mean) {
		p.Wrap("  - ", fmt.Sprintf("running down over winding up: %s of the torque passes one way", words.Percent(e.Mean)))
	}
	if c != nil {
		st.compared(p, i, c)
	} else if st.Refused != nil {
		p.Wrap("  ! ", "no prediction to compare with: "+st.Refused[i])
	}
	notes(p, s.Notes())
	st.table(p, s, c)
}

// needsAgree is the part by which the needs by weights and by scenario may differ
// before it is said.
const needsAgree = 0.01

func (st *Study) compared(p *text.Page, i int, c *Comparison) {
	line := fmt.Sprintf("against the prediction: %s of it in the mean; residuals %s rms", words.Percent(c.Ratio), newtons(c.RMS))
	if !math.IsNaN(c.ChiSquarePerDOF) {
		line += fmt.Sprintf(", χ² per degree of freedom %s", words.Figure(c.ChiSquarePerDOF))
	}
	if c.Meter > 0 {
		line += fmt.Sprintf("; of the meter's bound %s may be its standard part", words.Percent(c.Meter))
	}
	p.Wrap("  - ", line)
	if r := c.Reserve; !math.IsNaN(r.Mean) {
		train := st.Springs[i].Train
		p.Wrap("  - ", fmt.Sprintf("measured over the %s that the %s train needs by the scenario: mean %s, least %s", newtons(r.Need), train, words.Two(r.Mean), words.Two(r.Min)))
		told := slices.ContainsFunc(st.Springs[:i], func(s Spring) bool { return s.Train == train })
		for j := range st.Needs {
			if weighed := st.Needs[j].Bracket.Least; !told && st.Needs[j].Train == train && math.Abs(weighed/r.Need-1) > needsAgree {
				p.Wrap("  * note: ", fmt.Sprintf("the weights tell another need, %s; assign goes by that; to run with it, put it in the scenario as [train.demand] least_torque_nm", newtons(weighed)))
			}
		}
	}
	notes(p, c.Notes())
}

func (st *Study) table(p *text.Page, s *Spring, c *Comparison) {
	k := 0
	for _, way := range []struct {
		turns []measure.Turn
		name  string
	}{{s.Turns, "running down"}, {s.Supply.Winding, "winding up"}} {
		if len(way.turns) == 0 {
			continue
		}
		var g text.Grid
		head, unit := []string{"  turn", "n", "mean", "sd", "±", ""}, []string{"", "", "N·m", "N·m", "N·m", way.name}
		if c != nil {
			head, unit = append(head, "predicted", "residual"), append(unit, "N·m", "N·m")
		}
		g.Row(head...)
		g.Row(unit...)
		for _, t := range way.turns {
			mark := ""
			if t.Outlier != nil {
				mark = fmt.Sprintf("outlier %s", words.Figure(t.Outlier.Value))
			}
			cells := []string{fmt.Sprintf("  %d", t.FuseeTurn), fmt.Sprint(t.N), words.Figure(t.Mean), words.Figure(t.SD), words.Figure(t.HalfWidth), mark}
			if c != nil {
				cells = append(cells, words.Figure(c.Points[k].Predicted), signed(c.Points[k].Residual()))
			}
			k++
			g.Row(cells...)
		}
		g.Right(0, 1, 2, 3, 4, 6, 7)
		g.Write(p)
	}
}

func signed(v float64) string {
	if v > 0 {
		return "+" + words.Figure(v)
	}
	return words.Minus(words.Figure(v))
}

func writeFit(p *text.Page, e *Explanation) {
	p.Line(fmt.Sprintf("what explains spring %s in the %s train: %s", e.Spring, e.Train, e.Status))
	notes(p, e.Notes())
	var g text.Grid
	g.Row("  input", "before", "fitted", "standard error", "of it the meter", "")
	for i := range e.Inputs {
		in := &e.Inputs[i]
		g.Row("  "+strings.TrimPrefix(in.Key, e.Train+"."), fmt.Sprintf("%.6g", in.Before), fmt.Sprintf("%.5g", in.Value), words.Figure(in.StandardError), words.Figure(in.FromMeter), in.Unit)
	}
	g.Right(1, 2, 3, 4)
	g.Write(p)
	for i := range e.Inputs {
		for j := range i {
			p.Line(fmt.Sprintf("  correlation of %s and %s: %s", strings.TrimPrefix(e.Inputs[j].Key, e.Train+"."), strings.TrimPrefix(e.Inputs[i].Key, e.Train+"."),
				words.Minus(fmt.Sprintf("%+.3f", e.Correlation[i][j]))))
		}
	}
	if !math.IsNaN(e.RMS) {
		left := "  residuals left: " + newtons(e.RMS) + " rms"
		if !math.IsNaN(e.ChiSquarePerDOF) {
			left += ", χ² per degree of freedom " + words.Figure(e.ChiSquarePerDOF)
		}
		p.Line(left)
	}
}
