package sweep

import (
	"fmt"
	"math"

	"evenpull/sim/rules"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
)

// table writes the points over one input.
func (st *Study) table(p *text.Page) {
	escapes, strikes := st.Train.Escapes, st.Train.Strikes
	head := []string{"  value", "verdict", "mean", "least", "greatest", "unevenness", "reserve", "reserve", "turns", "runs", "stress"}
	unit := []string{"  " + st.Over.Unit, "", "N·m", "N·m", "N·m", "%", "mean", "least", "avail.", "h", "MPa"}
	if escapes {
		head, unit = append(head, "semi-arc"), append(unit, "°")
	}
	if strikes {
		head, unit = append(head, "blow"), append(unit, "s")
	}
	var g text.Grid
	g.Row(head...)
	g.Row(unit...)
	for i := range st.Points {
		q := &st.Points[i]
		mark := "  "
		if q.Value == st.Over.Value {
			mark = "> "
		}
		if !q.Built() {
			g.Row(mark+st.Over.figure(q.Value), "not built")
			continue
		}
		f := words.Figure
		verdict := q.Verdict.String()
		if verdict == "" {
			verdict = "–"
		}
		if len(q.Faults) > 0 {
			verdict += " !"
		}
		cells := []string{mark + st.Over.figure(q.Value), verdict, f(q.Torque.Mean), f(q.Torque.Min), f(q.Torque.Max), f(100 * q.Torque.Unevenness),
			words.Two(q.Reserve.Mean), words.Two(q.Reserve.Min), f(q.TurnsAvailable), f(q.Runtime), fmt.Sprintf("%.0f", q.PeakStress/1e6)}
		if escapes {
			cells = append(cells, words.Two(words.Degrees(q.Amplitude)))
		}
		if strikes {
			cells = append(cells, f(q.BlowInterval))
		}
		g.Row(cells...)
	}
	g.Right(0, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12)
	g.Write(p)
}

// Columns and rows of a map in text; the plot and the machine formats have all.
const textColumns, textRows = 7, 21

// matrix writes some of the points over two inputs: the least reserve, or where
// nothing is judged the mean torque, with the verdict.
func (st *Study) matrix(p *text.Page) {
	a, b := &st.Over, st.Against
	what := "least reserve and verdict"
	if math.IsNaN(st.Own.Need) {
		what = "mean torque at the fusee, N·m"
	}
	p.Wrap("  ", fmt.Sprintf("%s; across: %s, %s; down: %s, %s", what, a.Key, orNumber(a.Unit), b.Key, orNumber(b.Unit)))
	var g text.Grid
	columns, rows := pick(a.Steps, textColumns), pick(b.Steps, textRows)
	head := []string{"  "}
	for _, i := range columns {
		head = append(head, a.figure(a.at(i)))
	}
	g.Row(head...)
	for _, j := range rows {
		cells := []string{"  " + b.figure(b.at(j))}
		for _, i := range columns {
			cells = append(cells, st.Points[j*a.Steps+i].brief())
		}
		g.Row(cells...)
	}
	g.Right(0, 1, 2, 3, 4, 5, 6, 7)
	g.Write(p)
	if len(columns) < a.Steps || len(rows) < b.Steps {
		p.Wrap("  ", fmt.Sprintf("%d by %d of the %d by %d points; --plot draws all, --format csv lists them", len(columns), len(rows), a.Steps, b.Steps))
	}
}

func orNumber(unit string) string {
	if unit == "" {
		return "a pure number"
	}
	return unit
}

// brief is a point in a few letters.
func (p *Point) brief() string {
	switch {
	case !p.Built():
		return "not built"
	case p.Verdict == rules.Unjudged:
		return words.Figure(p.Torque.Mean)
	}
	return words.Two(p.Reserve.Min) + " " + p.Verdict.String()
}

// pick takes at most n of count indices, the first and the last among them.
func pick(count, n int) []int {
	if count <= n {
		n = count
	}
	list := make([]int, n)
	for i := range list {
		list[i] = int(math.Round(float64(i) * float64(count-1) / float64(n-1)))
	}
	return list
}
