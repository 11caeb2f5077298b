package text

import (
	"fmt"
	"io"

	"evenpull/sim"
	"evenpull/sim/bench/assign"
	"evenpull/sim/bench/measure"
	"evenpull/sim/bench/readings"
	"evenpull/sim/outcome"
	"evenpull/sim/show/words"
)

// Assign writes which spring goes to which train: the choice, what speaks against
// it, then every pair.
func Assign(w io.Writer, st *assign.Study, o Options) error {
	p := o.page(w)
	p.title(st.Title)
	p.Line(words.AssignHead(st))
	var choice Grid
	for _, q := range st.PairsOf(st.Best) {
		choice.Row("  spring "+q.Label, "to the "+q.Train+" train:", words.PairDoes(&q, p.Verdict))
	}
	p.table(choice)
	p.list("  ! fault: ", words.AssignFaults(st))
	p.list("  * note: ", words.AssignNotes(st))
	p.Line("")
	p.table(Pairs(st))
	return p.end(words.AssignCautions(st)...)
}

// Pairs are every spring in every train, below two rows of headings.
func Pairs(st *assign.Study) Grid {
	columns := append([]column[assign.Pair]{
		{"  spring", "", left, func(q *assign.Pair) string { return words.Either(q.Chosen, "> ", "  ") + q.Label }},
		{"train", "", left, func(q *assign.Pair) string { return q.Train }},
		{"read in", "", spare(left, 3), func(q *assign.Pair) string { return q.ReadIn + words.Either(q.Carried(), ", reckoned", "") }},
	}, figures(func(q *assign.Pair) *sim.Digest { return &q.Digest }, none, byTwo,
		"?"+outcome.MeanTorque, "??"+outcome.LeastTorque, outcome.Unevenness, outcome.MeanReserve, outcome.LeastReserve)...)
	return table(st.Pairs, append(columns,
		column[assign.Pair]{"off the", "middle, %", spare(right, 4), func(q *assign.Pair) string {
			return or(q.Off, none, func(v float64) string { return words.Minus(fmt.Sprintf("%+.0f", 100*v)) })
		}},
		column[assign.Pair]{"verdict", "", left, words.PairIs},
		column[assign.Pair]{"sure", "in 100", right, func(q *assign.Pair) string { return words.InHundred(&q.Digest) }}))
}

// Bench writes what was found at the bench, a line for each train and each spring read in
// it; then, where all is asked for, the details.
func Bench(w io.Writer, r *assign.Record, o Options) error {
	p := o.page(w)
	p.title(r.Book.Title)
	for _, a := range words.Answers(r) {
		p.Wrap("", a.Needs)
		p.list("  - ", a.Gives)
		p.list("  * note: ", a.Notes)
		p.Line("")
	}
	switch {
	case o.Full:
		p.details(r.Study)
	case r.Explained != nil:
		p.fit(r.Explained)
		p.Line("")
		fallthrough
	default:
		p.Wrap("", words.MoreOfRecord(r))
	}
	return p.end(words.RecordCautions(r.Study)...)
}

// Record writes the details of what was found at the bench: what the trains need, what the
// springs give, how that compares with the prediction, and what explains it.
func Record(w io.Writer, st *readings.Study, o Options) error {
	p := o.page(w)
	p.title(st.Book.Title)
	p.details(st)
	return p.end(words.RecordCautions(st)...)
}

func (p *Page) details(st *readings.Study) {
	for i := range st.Needs {
		p.need(&st.Needs[i], st.Paces[i])
		p.Line("")
	}
	for i := range st.Springs {
		p.supply(st, i)
		p.Line("")
	}
	if st.Explained != nil {
		p.fit(st.Explained)
		p.Line("")
	}
	p.Wrap("", words.HalfWidths)
}

func (p *Page) need(n *measure.Need, paces []readings.Pace) {
	p.Line(words.NeedHead(n))
	if likes := words.Likes(n); likes != "" {
		p.Wrap("  - ", likes)
	}
	p.list("  - ", words.Paces(paces))
	p.list("  * note: ", words.NeedNotes(n))
	p.table(Trials(n))
}

// Trials are those with weights, below a row of headings.
func Trials(n *measure.Need) Grid {
	return table(n.Trials, []column[measure.Trial]{
		{"  weight, g", "", right, func(t *measure.Trial) string { return "  " + words.Figure(t.Mass*1e3) }},
		{"torque, N·m", "", right, func(t *measure.Trial) string { return words.Figure(t.Torque) }},
		{"", "", left, func(t *measure.Trial) string { return words.Trial(n, t) }},
	})
}

func (p *Page) supply(st *readings.Study, i int) {
	p.Line(words.SupplyHead(st.Springs[i].Supply))
	p.list("  - ", words.SupplySays(st, i))
	if why := words.Why(st.Refused[i]); why != "" {
		p.Wrap("  ! ", "no prediction to compare with: "+why)
	}
	p.list("  * note: ", words.ReadNotes(st, i))
	p.readings(st.Readings(i, false), "running down", st.Compared[i] != nil)
	p.readings(st.Readings(i, true), "winding up", st.Compared[i] != nil)
}

// readings writes the turns read one way.
func (p *Page) readings(list []readings.Reading, way string, compared bool) {
	if len(list) == 0 {
		return
	}
	type reading = readings.Reading
	figure := func(head string, of func(*reading) float64) column[reading] {
		return column[reading]{head, "N·m", right, func(r *reading) string { return words.Figure(of(r)) }}
	}
	columns := []column[reading]{
		{"  turn", "", right, func(r *reading) string { return "  " + words.Turns(r.FuseeTurn) }},
		{"reads", "", right, func(r *reading) string { return fmt.Sprint(r.N) }},
		figure("mean", func(r *reading) float64 { return r.Mean }),
		figure("scatter", func(r *reading) float64 { return r.SD }),
		figure("±", func(r *reading) float64 { return r.HalfWidth }),
		{"", way, left, func(r *reading) string {
			return or(r.Outlying(), "", func(v float64) string { return "far off: " + words.Figure(v) })
		}},
	}
	if compared {
		columns = append(columns, figure("predicted", func(r *reading) float64 { return r.Predicted }),
			column[reading]{"apart", "N·m", right, func(r *reading) string { return residualCell(r.Residual()) }})
	}
	p.table(table(list, columns))
}

func residualCell(v float64) string {
	return words.Either(v > 0, "+", "") + words.Minus(words.Figure(v))
}

func (p *Page) fit(e *readings.Explanation) {
	p.Line(words.FitHead(e))
	p.list("  * note: ", words.FitNotes(e))
	p.table(Fitted(e))
	p.list("  ", words.FitSays(e))
}

// Fitted are the inputs that a fit found, below two rows of headings.
func Fitted(e *readings.Explanation) Grid {
	fitted := func(v float64) string {
		return or(v, none, func(v float64) string { return words.Minus(fmt.Sprintf("%.5g", v)) })
	}
	return table(e.Inputs, []column[readings.Input]{
		{"  input", "", left, func(in *readings.Input) string { return "  " + words.Input(in.Words, e.Train) }},
		{"before", "", right, func(in *readings.Input) string { return fmt.Sprintf("%.6g", in.Before) }},
		{"fitted", "", right, func(in *readings.Input) string { return fitted(in.Value) }},
		{"typically", "off by", right, func(in *readings.Input) string { return words.Figure(in.StandardError) }},
		{"95 %", "from", right, func(in *readings.Input) string { return fitted(in.Interval.Lo) }},
		{"", "to", right, func(in *readings.Input) string { return fitted(in.Interval.Hi) }},
		{"of it", "the meter", right, func(in *readings.Input) string { return words.PartOf(in.FromMeter, in.StandardError) }},
		{"", "", left, func(in *readings.Input) string { return in.Unit }},
	})
}
