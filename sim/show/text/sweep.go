package text

import (
	"cmp"
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
		p.table(p.sweepPoints(st))
	} else {
		sweepMap(p, st)
	}
	return p.end(words.Caution(st.Own.Spring.Stored))
}

// sweepPoints are the points over one input: what is swept first, then the results
// that the train has.
func (p *Page) sweepPoints(st *sweep.Study) Grid {
	names := []string{
		outcome.MeanTorque, outcome.LeastTorque, "???" + outcome.MostTorque, outcome.Unevenness, "?" + outcome.MeanReserve, outcome.LeastReserve,
		"??spring.turns_available", "goes_h", "????spring.peak_stress_mpa",
	}
	names = append(names, ofKind(st.Own.Run())...)
	if !slices.Contains(names, st.Of.Name) {
		names = slices.Insert(names, 0, st.Of.Name)
	}
	points := st.Points
	if !p.Full {
		points = some(st)
	}
	return table(points, append([]column[sweep.Point]{
		{"  value", "  " + st.Over.Quantity.Unit, right, func(q *sweep.Point) string {
			return words.Either(q.Value == st.Over.Value, "> ", "  ") + words.AxisValue(&st.Over, q.Value)
		}},
		{"verdict", "", left, ofRun((*sweep.Point).Run, "not built", judged)},
	}, figures((*sweep.Point).Run, "", words.Value, names...)...))
}

// some are a dozen of the points, with that of the value as it is.
func some(st *sweep.Study) (list []sweep.Point) {
	for _, i := range pick(len(st.Points), sweepRows) {
		list = append(list, st.Points[i])
	}
	is := func(q sweep.Point) bool { return q.Value == st.Over.Value }
	if own := slices.IndexFunc(st.Points, is); own >= 0 && !slices.ContainsFunc(list, is) {
		list = append(list, st.Points[own])
		slices.SortFunc(list, func(a, b sweep.Point) int { return cmp.Compare(a.Value, b.Value) })
	}
	return list
}

const sweepRows = 13

// ofKind is the result that a train of a kind has beside the others.
func ofKind(d *sim.Digest) []string {
	switch {
	case d.Escapes:
		return []string{"amplitude_deg.mean"}
	case d.Strikes:
		return []string{"blow_interval_s.mean"}
	}
	return nil
}

// Columns and rows of a map in text; the plot and the machine formats have all.
const mapColumns, mapRows = 5, 15

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
