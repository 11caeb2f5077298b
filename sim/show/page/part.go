package page

import (
	"fmt"
	"io"
	"math"
	"strings"

	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/drawing"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
	"evenpull/sim/study/choose"
	"evenpull/sim/study/dossier"
	"evenpull/sim/study/rank"
)

func newPart(t *dossier.Train, id string) (*Part, error) {
	r := t.Result
	p := &Part{
		ID: id, Name: r.Name, Kind: r.Kind.String(), Verdict: words.Verdict(r.Verdict.Code), Code: strings.ReplaceAll(words.Small(r.Verdict.Code), " ", "-"), Has: words.Has(r),
		Reasons: words.Reasons(&r.Digest), Faults: words.Faults(&r.Digest), Notes: words.Notes(&r.Digest),
		Figures: figuresOf(r), All: everyFigure(&r.Digest),
		Arbors:      tableOf(text.Arbors(r), 1, "Torque at every arbor"),
		Rows:        tableOf(text.Rows(r, false), 2, "The run-down, turn by turn; turn 0 is fully wound"),
		Sensitivity: append(words.SweepSays(t.Sweep), words.SweepWarns(t.Sweep)...),
		Inputs:      inputsOf(t.Rank),
	}
	if t.SetUp != nil {
		p.SetUp = words.SetUpAdvice(t.SetUp)
	}
	if t.Made != nil {
		p.order(t.Made)
	}
	return p, p.draw(t)
}

// draw makes the pictures of a train.
func (p *Part) draw(t *dossier.Train) error {
	r := t.Result
	for _, pic := range []struct {
		to                *Picture
		name, caption, is string
		write             func(w io.Writer, format string) error
	}{
		{&p.Drawing, "drawing", "The " + p.Name + " train to scale", "Drawing to scale of the barrel with its coils run down and wound, the fusee with its grooves, and the wheels, of the " + p.Name + " train",
			func(w io.Writer, format string) error { return drawing.Write(w, format, []sim.Result{*r}) }},
		{&p.Torque, "torque", "Torque over the run, with the need and the bands of the verdict",
			fmt.Sprintf("Torque at the fusee over the run: mean %s, least %s, greatest %s N·m; verdict %s.", words.Figure(r.Torque.Mean), words.Figure(r.Torque.Min), words.Figure(r.Torque.Max), p.Verdict),
			func(w io.Writer, format string) error { return chart.Write(w, format, []sim.Result{*t.Fine}) }},
		{&p.Sweep, "thickness", "What another thickness of the spring would do, its length the same", "Torque, reserve and unevenness against the thickness of the mainspring: " + strings.Join(p.Sensitivity, "; "),
			func(w io.Writer, format string) error { return chart.Sweep(w, format, t.Sweep) }},
		{&p.Rank, "rank", "What moving each input by 1 %, or by its own tolerance, does", "Bars showing the effect of each input, the greatest at the top",
			func(w io.Writer, format string) error { return chart.Rank(w, format, t.Rank) }},
	} {
		var err error
		if *pic.to, err = draw(p.ID+"-"+pic.name, pic.caption, pic.is, pic.write); err != nil {
			return err
		}
	}
	return nil
}

// figuresOf is the run in words.
func figuresOf(r *sim.Result) Table {
	t := Table{Caption: "Figures of the whole run", Right: []bool{false, false}}
	for _, l := range words.Summary(r) {
		t.Rows = append(t.Rows, l[:])
	}
	return t
}

// everyFigure is the table of results, as far as it applies.
func everyFigure(d *sim.Digest) Table {
	t := Table{Caption: "Every figure of the run", Heads: 1, Rows: [][]string{{"figure", "symbol", "value", "unit"}}, Right: []bool{false, false, true, false}}
	for _, f := range outcome.All() {
		if v := f.Of(d); !math.IsNaN(v) {
			t.Rows = append(t.Rows, []string{f.Words, f.Symbol, words.Figure(f.Shown(v)), words.ValueUnit(&f.Quantity)})
		}
	}
	return t
}

// inputsOf is what the first result depends on most.
func inputsOf(st *rank.Study) Table {
	const most = 10
	t := Table{Caption: "The inputs that the mean torque depends on most; elasticity: how many % it changes for 1 % more", Heads: 1,
		Rows: [][]string{{"input", "value", "unit", "elasticity"}}, Right: []bool{false, true, false, true}}
	for i := range st.Rankings[0].Inputs {
		if in := &st.Rankings[0].Inputs[i]; i < most && st.Rankings[0].Moves(in) {
			t.Rows = append(t.Rows, []string{words.Input(&in.Quantity, st.Own.Name), fmt.Sprintf("%.6g", in.Value), in.Quantity.Unit, words.RankElasticity(in)})
		}
	}
	return t
}

// order tells what to order.
func (p *Part) order(st *choose.Study) {
	p.ToOrder = words.ToOrder(st)
	for i := range st.Ideals {
		if order := words.IdealOrder(&st.Ideals[i]); order != "" {
			p.Order = append(p.Order, order+"; to be set up by "+words.IdealSetUp(&st.Ideals[i]))
		}
	}
	if len(p.Order) > 0 {
		t := tableOf(text.Ideals(st), 2, "The spring to have made, for "+words.ChooseGoal(st)+": "+words.ChooseMade(st))
		p.Springs = &t
	}
}
