package text

import (
	"fmt"
	"io"
	"math"
	"slices"

	"evenpull/sim"
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
		p.table(sweepPoints(st))
	} else {
		sweepMap(p, st)
	}
	return p.end(words.Caution(st.Own.Spring.Stored))
}

// sweepPoints are the points over one input: what is swept first, then the results
// that the train has.
func sweepPoints(st *sweep.Study) Grid {
	names := []string{
		outcome.MeanTorque, outcome.LeastTorque, outcome.MostTorque, outcome.Unevenness, outcome.MeanReserve, outcome.LeastReserve,
		"spring.turns_available", "runtime_h", "spring.peak_stress_mpa",
	}
	if st.Own.Escapes {
		names = append(names, "amplitude_deg.mean")
	}
	if st.Own.Strikes {
		names = append(names, "blow_interval_s.mean")
	}
	if !slices.Contains(names, st.Of.Name) {
		names = slices.Insert(names, 0, st.Of.Name)
	}
	return table(st.Points, append([]column[sweep.Point]{
		{"  value", "  " + st.Over.Quantity.Unit, right, func(q *sweep.Point) string {
			return words.Either(q.Value == st.Over.Value, "> ", "  ") + words.AxisValue(&st.Over, q.Value)
		}},
		{"verdict", "", left, ofRun((*sweep.Point).Run, "not built", judged)},
	}, figures((*sweep.Point).Run, "", words.Value, names...)...))
}

// Columns and rows of a map in text; the plot and the machine formats have all.
const mapColumns, mapRows = 7, 21

// sweepMap writes some of the points over two inputs: the result, with the verdict.
func sweepMap(p *Page, st *sweep.Study) {
	a, b := &st.Over, st.Against
	p.Wrap("  ", fmt.Sprintf("%s; across: %s; down: %s", st.Of.Label(), words.InputLabel(&a.Quantity), words.InputLabel(&b.Quantity)))
	columns, rows := pick(a.Steps, mapColumns), pick(b.Steps, mapRows)
	across := []column[int]{{"  ", "", right, func(j *int) string { return "  " + words.AxisValue(b, b.At(*j)) }}}
	for _, i := range columns {
		across = append(across, column[int]{words.AxisValue(a, a.At(i)), "", right, ofRun(func(j *int) *sim.Digest { return st.Points[*j*a.Steps+i].Run() }, "not built", func(d *sim.Digest) string {
			return words.Value(&st.Of.Quantity, st.Of.Of(d)) + words.Either(d.Verdict.Code == rules.Unjudged, "", " "+words.Small(d.Verdict.Code))
		})})
	}
	p.table(table(rows, across))
	if len(columns) < a.Steps || len(rows) < b.Steps {
		p.Wrap("  ", fmt.Sprintf("%d by %d of the %d by %d points; --plot draws all, --format csv lists them", len(columns), len(rows), a.Steps, b.Steps))
	}
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
