package text

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/show/words"
)

// Grid is a table whose columns are as wide as their widest cell. The last
// column is wrapped to the page when the table has two.
type Grid struct {
	Rows  [][]string
	Right map[int]bool // the columns, counted from 0, that stand flush right
}

// Row adds a row.
func (g *Grid) Row(cells ...string) { g.Rows = append(g.Rows, cells) }

// table writes a table.
func (p *Page) table(g Grid) {
	var widths []int
	for _, row := range g.Rows {
		for i, cell := range row {
			if i == len(widths) {
				widths = append(widths, 0)
			}
			widths[i] = max(widths[i], visible(cell))
		}
	}
	for _, row := range g.Rows {
		padded := make([]string, len(row))
		for i, cell := range row {
			space := strings.Repeat(" ", widths[i]-visible(cell))
			if padded[i] = cell + space; g.Right[i] {
				padded[i] = space + cell
			}
		}
		if len(widths) == 2 {
			p.Wrap(padded[0]+"  ", row[1])
		} else {
			p.Line(strings.Join(padded, "  "))
		}
	}
}

// visible is the number of characters that show, without colours.
func visible(cell string) int {
	n := utf8.RuneCountInString(cell)
	for {
		_, after, found := strings.Cut(cell, "\x1b[")
		if !found {
			return n
		}
		code, rest, _ := strings.Cut(after, "m")
		n -= len("\x1b[") + len(code) + len("m")
		cell = rest
	}
}

// column is a column of a table: what stands above it, on which side its cells
// stand, and the cell of a row.
type column[T any] struct {
	head, unit string
	flush      side
	cell       func(*T) string
}

// side is where the cells of a column stand.
type side bool

const left, right side = false, true

// none stands where nothing applies.
const none = "–"

// or shows a number; a word stands for what does not apply.
func or(v float64, word string, show func(float64) string) string {
	return words.Either(math.IsNaN(v) || math.IsInf(v, 0), word, show(v))
}

// table makes a table of rows, below one of heads and one of units where a column has
// one.
func table[T any](rows []T, columns []column[T]) Grid {
	g := Grid{Right: map[int]bool{}}
	for i, c := range columns {
		g.Right[i] = c.flush == right
	}
	add := func(cell func(column[T]) string) {
		cells := make([]string, len(columns))
		for i, c := range columns {
			cells[i] = cell(c)
		}
		g.Row(cells...)
	}
	for _, above := range []func(column[T]) string{func(c column[T]) string { return c.head }, func(c column[T]) string { return c.unit }} {
		if slices.ContainsFunc(columns, func(c column[T]) bool { return above(c) != "" }) {
			add(above)
		}
	}
	for i := range rows {
		add(func(c column[T]) string { return c.cell(&rows[i]) })
	}
	return g
}

// figures are columns of the table of results, by name; a head of its own may stand
// behind a name. A row without a run has no figures.
func figures[T any](run func(*T) *sim.Digest, none string, show func(*outcome.Quantity, float64) string, names ...string) []column[T] {
	list := make([]column[T], len(names))
	for i := range names {
		name, own, _ := strings.Cut(names[i], " ")
		f, _ := outcome.Named(name)
		head, unit := heading(&f.Quantity)
		list[i] = column[T]{cmp.Or(own, head), unit, right, ofRun(run, none, func(d *sim.Digest) string { return show(&f.Quantity, f.Of(d)) })}
	}
	return list
}

// ofRun is a cell that a run tells; other stands in a row without one.
func ofRun[T any](run func(*T) *sim.Digest, other string, cell func(*sim.Digest) string) func(*T) string {
	return func(t *T) string {
		if d := run(t); d != nil {
			return cell(d)
		}
		return other
	}
}

// heading is what stands above a result, in two short lines.
func heading(q *outcome.Quantity) (head, unit string) {
	units := map[string]string{outcome.MeanReserve: "mean", outcome.LeastReserve: "least", "spring.turns_available": "avail."}
	heads := map[string]string{
		outcome.MeanReserve: "reserve", outcome.LeastReserve: "reserve", "spring.turns_available": "turns",
		outcome.MeanTorque: "mean", outcome.LeastTorque: "least", outcome.MostTorque: "greatest", outcome.Unevenness: "unevenness",
		"fusee_torque_nm.cv": "variation", "spring.set_up_turns": "set-up", "spring.turns_to_spare": "to spare", "runtime_h": "runs",
		"spring.peak_stress_mpa": "stress", "amplitude_deg.mean": "semi-arc", "blow_interval_s.mean": "blow",
	}
	return cmp.Or(heads[q.Name], "result"), cmp.Or(units[q.Name], words.ValueUnit(q))
}

// byTwo shows turns and pure numbers with two decimals.
func byTwo(q *outcome.Quantity, v float64) string {
	two := q.Unit == "turns" || q.Unit == "" && !q.Share
	return words.Either(two, words.Two(v), words.Value(q, v))
}

// judged is a verdict, with a mark where there is a fault.
func judged(d *sim.Digest) string {
	return words.Small(d.Verdict.Code) + words.Either(d.Faults != 0, " !", "")
}
