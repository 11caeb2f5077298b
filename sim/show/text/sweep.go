package text

import (
	"fmt"
	"io"
	"math"

	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/show/words"
	"evenpull/sim/study/sweep"
)

// Sweep writes a sweep: the verdict and where it changes, what does not fit, then
// the points.
func Sweep(w io.Writer, st *sweep.Study, o Options) error {
	p := o.page(w)
	p.found(words.SweepHead(st, p.Verdict), words.SweepSays(st), words.SweepWarns(st))
	if st.Against == nil {
		g, err := sweepPoints(st)
		if err != nil {
			return err
		}
		g.Write(p)
	} else {
		sweepMap(p, st)
	}
	return p.end(words.Caution(st.Own.Spring.Stored))
}

// sweepColumn is a result that the points are listed with.
type sweepColumn struct{ name, head, below string }

// sweepColumns are the results that the train has, the one that is swept first.
func sweepColumns(st *sweep.Study) []sweepColumn {
	list := []sweepColumn{
		{outcome.MeanTorque, "mean", "N·m"}, {outcome.LeastTorque, "least", "N·m"}, {outcome.MostTorque, "greatest", "N·m"},
		{outcome.Unevenness, "unevenness", "%"}, {outcome.MeanReserve, "reserve", "mean"}, {outcome.LeastReserve, "reserve", "least"},
		{"spring.turns_available", "turns", "avail."}, {"runtime_h", "runs", "h"}, {"spring.peak_stress_mpa", "stress", "MPa"},
	}
	if st.Own.Escapes {
		list = append(list, sweepColumn{"amplitude_deg.mean", "semi-arc", "°"})
	}
	if st.Own.Strikes {
		list = append(list, sweepColumn{"blow_interval_s.mean", "blow", "s"})
	}
	for _, c := range list {
		if c.name == st.Of.Name {
			return list
		}
	}
	return append([]sweepColumn{{st.Of.Name, "result", words.ValueUnit(&st.Of.Quantity)}}, list...)
}

// sweepPoints are the points over one input.
func sweepPoints(st *sweep.Study) (Grid, error) {
	var g Grid
	columns := sweepColumns(st)
	head, below := []string{"  value", "verdict"}, []string{"  " + st.Over.Quantity.Unit, ""}
	figures := make([]outcome.Figure, len(columns))
	right := []int{0}
	for i, c := range columns {
		var err error
		if figures[i], err = outcome.Named(c.name); err != nil {
			return g, err
		}
		head, below, right = append(head, c.head), append(below, c.below), append(right, i+2)
	}
	g.Row(head...)
	g.Row(below...)
	for i := range st.Points {
		q := &st.Points[i]
		mark := "  "
		if q.Value == st.Over.Value {
			mark = "> "
		}
		cells := []string{mark + words.AxisValue(&st.Over, q.Value), "not built"}
		if q.Built() {
			cells[1] = words.Small(q.Verdict.Code)
			if q.Faults.Count() > 0 {
				cells[1] += " !"
			}
			for _, f := range figures {
				cells = append(cells, words.Value(&f.Quantity, f.Of(&q.Digest)))
			}
		}
		g.Row(cells...)
	}
	g.Right(right...)
	return g, nil
}

// Columns and rows of a map in text; the plot and the machine formats have all.
const mapColumns, mapRows = 7, 21

// sweepMap writes some of the points over two inputs: the result, with the verdict.
func sweepMap(p *Page, st *sweep.Study) {
	a, b := &st.Over, st.Against
	p.Wrap("  ", fmt.Sprintf("%s; across: %s; down: %s", st.Of.Label(), words.InputLabel(&a.Quantity, ""), words.InputLabel(&b.Quantity, "")))
	columns, rows := pick(a.Steps, mapColumns), pick(b.Steps, mapRows)
	var g Grid
	head, right := []string{"  "}, []int{0}
	for k, i := range columns {
		head, right = append(head, words.AxisValue(a, a.At(i))), append(right, k+1)
	}
	g.Row(head...)
	for _, j := range rows {
		cells := []string{"  " + words.AxisValue(b, b.At(j))}
		for _, i := range columns {
			cells = append(cells, mapCell(st, &st.Points[j*a.Steps+i]))
		}
		g.Row(cells...)
	}
	g.Right(right...)
	g.Write(p)
	if len(columns) < a.Steps || len(rows) < b.Steps {
		p.Wrap("  ", fmt.Sprintf("%d by %d of the %d by %d points; --plot draws all, --format csv lists them", len(columns), len(rows), a.Steps, b.Steps))
	}
}

func mapCell(st *sweep.Study, q *sweep.Point) string {
	switch {
	case !q.Built():
		return "not built"
	case q.Verdict.Code == rules.Unjudged:
		return words.Value(&st.Of.Quantity, st.Result(q))
	}
	return words.Value(&st.Of.Quantity, st.Result(q)) + " " + words.Small(q.Verdict.Code)
}

// pick takes at most n of count indices, the first and the last among them.
func pick(count, n int) []int {
	n = min(n, count)
	list := make([]int, n)
	for i := range list {
		list[i] = int(math.Round(float64(i) * float64(count-1) / float64(n-1)))
	}
	return list
}
