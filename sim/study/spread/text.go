package spread

import (
	"fmt"
	"io"
	"math"
	"strings"

	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
	"evenpull/sim/vary"
)

// Text writes a study for people.
type Text struct{ Colour bool }

// Write writes it: how sure the verdict is, what was drawn, and what the results
// came to.
func (t Text) Write(w io.Writer, st *Study) error {
	p := text.New(w, t.Colour)
	st.head(p)
	for _, s := range st.verdicts() {
		p.Wrap("  - ", s)
	}
	for _, s := range st.troubles() {
		p.Wrap("  ! ", s)
	}
	p.Line("")
	st.drawn(p)
	p.Line("")
	st.results(p)
	p.Line("")
	p.Wrap("", st.method())
	p.Line("")
	p.Wrap("Caution: ", st.Caution)
	return p.Flush()
}

func (st *Study) head(p *text.Page) {
	s := st.Train.Name + " train, " + words.Count(st.Runs, "run")
	if st.Built() == 0 {
		p.Line(s + ": none of them can be built")
		return
	}
	p.Line(fmt.Sprintf("%s: %s in %s of them, as it does without tolerances", s, p.Verdict(st.Own), share(st.ownShare())))
}

// verdicts lists the others, most frequent words last to be read in their order.
func (st *Study) verdicts() []string {
	var list []string
	for c := rules.Unjudged; c <= rules.Overdriven; c++ {
		if n := st.Verdicts[c]; n > 0 && c != st.Own {
			list = append(list, fmt.Sprintf("%s in %s", codeName(c), share(float64(n)/float64(st.Built()))))
		}
	}
	return list
}

// share is a share of the runs in percent, rare ones not rounded to nothing.
func share(v float64) string {
	switch {
	case v == 1:
		return "all"
	case v > 0.999:
		return "more than 99.9 %"
	case v > 0 && v < 0.001:
		return "less than 0.1 %"
	}
	return fmt.Sprintf("%.1f %%", 100*v)
}

func (st *Study) troubles() []string {
	var list []string
	if st.Stopped() {
		list = append(list, fmt.Sprintf("stopped early: %d of the %d runs were done; these figures are theirs", st.Runs, st.Asked))
	}
	if st.Failed > 0 {
		list = append(list, fmt.Sprintf("%s (%s) cannot be built and are left out of every figure", words.Count(st.Failed, "run"), share(float64(st.Failed)/float64(st.Runs))))
	}
	for _, f := range st.Failures {
		list = append(list, fmt.Sprintf("%d of them, such as: %s", f.Runs, f.Why))
	}
	return list
}

func (st *Study) drawn(p *text.Page) {
	var g text.Grid
	g.Row("  drawn", "value", "", "plus or minus", "shape", "of the variance")
	for i := range st.Inputs {
		in := &st.Inputs[i]
		g.Row("  "+strings.TrimPrefix(in.Key, st.Train.Name+"."), fmt.Sprintf("%.6g", in.Value), in.Unit, words.Figure(in.PlusMinus), in.Shape, variance(in.Share))
	}
	g.Right(1, 3, 5)
	g.Write(p)
	if st.Hold == vary.Fill {
		p.Wrap("  ", "the strip is cut each time so that it fills the barrel as before")
	}
}

func variance(v float64) string {
	if math.IsNaN(v) {
		return "–"
	}
	return fmt.Sprintf("%.0f %%", 100*v)
}

func (st *Study) results(p *text.Page) {
	var g text.Grid
	g.Row("  result", "", "own", "mean", "sd", "5 %", "50 %", "95 %")
	for i := range st.Results {
		d := &st.Results[i]
		if d.N() == 0 {
			continue
		}
		unit := d.Of.Unit
		if d.Of.Share {
			unit = "%"
		}
		f := func(v float64) string { return words.Figure(d.Of.Shown(v)) }
		g.Row("  "+d.Of.Words, unit, f(d.Own), f(d.Mean()), f(d.SD()), f(d.Quantile(0.05)), f(d.Quantile(0.5)), f(d.Quantile(0.95)))
	}
	g.Right(2, 3, 4, 5, 6, 7)
	g.Write(p)
}

// method tells how the figures came about, and how good they are.
func (st *Study) method() string {
	s := fmt.Sprintf("Seed %d. Of a normal tolerance plus or minus is two standard deviations, of a uniform one (%q) the half width.", st.Seed, scenario.Uniform)
	if len(st.Results) > 0 && st.Results[0].N() > 1 {
		d := &st.Results[0]
		s += fmt.Sprintf(" Of the variance: the share of each input in that of the %s, by slopes; together they make a standard deviation of %s, the runs %s.",
			d.Of.Words, words.Figure(d.Of.Shown(st.DeltaSD)), words.Figure(d.Of.Shown(d.SD())))
		if e := d.Fineness(); e > 0 {
			s += " Percentiles are counted in bins, good to " + strings.TrimSpace(words.Figure(d.Of.Shown(e))+" "+d.Of.Unit) + "."
		}
	}
	return s
}
