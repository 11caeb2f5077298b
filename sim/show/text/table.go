package text

import (
	"cmp"
	"maps"
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
	Spare map[int]int  // those that a page too narrow for all leaves out, the greatest number first
}

// Row adds a row.
func (g *Grid) Row(cells ...string) { g.Rows = append(g.Rows, cells) }

// table writes a table.
func (p *Page) table(g Grid) {
	widths := g.widths()
	left, over := p.leaves(g.Spare, widths)
	if over > 0 && len(widths) > 2 { // names give way at last
		name := g.names(widths)
		widths[name] = max(widths[name]-over, min(widths[name], leastName))
	}
	for _, row := range g.Rows {
		var padded []string
		for i, cell := range row {
			if left[i] {
				continue
			}
			cell = clipped(cell, widths[i])
			space := strings.Repeat(" ", widths[i]-visible(cell))
			padded = append(padded, words.Either(g.Right[i], space+cell, cell+space))
		}
		if len(widths) == 2 {
			p.Wrap(padded[0]+"  ", row[1])
		} else {
			p.Line(strings.Join(padded, "  "))
		}
	}
}

func (g *Grid) widths() (widths []int) {
	for _, row := range g.Rows {
		for i, cell := range row {
			if i == len(widths) {
				widths = append(widths, 0)
			}
			widths[i] = max(widths[i], visible(cell))
		}
	}
	return widths
}

// names is the widest column that stands flush left.
func (g *Grid) names(widths []int) (widest int) {
	for i, w := range widths {
		if !g.Right[i] && (g.Right[widest] || w > widths[widest]) {
			widest = i
		}
	}
	return widest
}

// leastName is the width under which no name is clipped.
const leastName = 16

// clipped is a text of at most so many letters.
func clipped(s string, most int) string {
	if r := []rune(s); len(r) > most && visible(s) > most {
		return string(r[:most-1]) + "…"
	}
	return s
}

// leaves are the columns that the page has no room for, and by how much the others are too
// wide for it; in full it has room for all.
func (p *Page) leaves(spare map[int]int, widths []int) (left map[int]bool, over int) {
	left = map[int]bool{}
	all := 2 * (len(widths) - 1)
	for _, w := range widths {
		all += w
	}
	order := slices.SortedFunc(maps.Keys(spare), func(a, b int) int { return cmp.Or(cmp.Compare(spare[b], spare[a]), cmp.Compare(b, a)) })
	for _, i := range order {
		if p.Full || all <= p.Width {
			break
		}
		left[i] = true
		all -= widths[i] + 2
	}
	if p.Full {
		return left, 0
	}
	return left, all - p.Width
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

// side is where the cells of a column stand, and whether they may be left out.
type side struct {
	right bool
	spare int // a page too narrow leaves out the greatest number first; 0: never
}

var left, right = side{}, side{right: true}

// spare is the side of a column that a page too narrow leaves out, the greatest number first.
func spare(of side, n int) side { return side{of.right, n} }

// none stands where nothing applies.
const none = "–"

// or shows a number; a word stands for what does not apply.
func or(v float64, word string, show func(float64) string) string {
	return words.Either(math.IsNaN(v) || math.IsInf(v, 0), word, show(v))
}

// table makes a table of rows, below one of heads and one of units where a column has
// one.
func table[T any](rows []T, columns []column[T]) Grid {
	g := Grid{Right: map[int]bool{}, Spare: map[int]int{}}
	for i, c := range columns {
		if g.Right[i] = c.flush.right; c.flush.spare > 0 {
			g.Spare[i] = c.flush.spare
		}
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
// behind a name, and before it ? for one that may be left out, ?? sooner. A row without a
// run has no figures.
func figures[T any](run func(*T) *sim.Digest, none string, show func(*outcome.Quantity, float64) string, names ...string) []column[T] {
	list := make([]column[T], len(names))
	for i := range names {
		name, own, _ := strings.Cut(strings.TrimLeft(names[i], "?"), " ")
		f, _ := outcome.Named(name)
		head, unit := heading(&f.Quantity)
		list[i] = column[T]{cmp.Or(own, head), unit, spare(right, len(names[i])-len(strings.TrimLeft(names[i], "?"))), ofRun(run, none, func(d *sim.Digest) string {
			if name == "spring.turns_to_spare" && d.Faults.Has(sim.Binds) {
				return "binds" // what it would have were its coils ideally packed is not there
			}
			return show(&f.Quantity, f.Of(d))
		})}
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
		"fusee_torque_nm.cv": "strays", "spring.set_up_turns": "set-up", "spring.turns_to_spare": "to spare", "goes_h": "goes",
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
