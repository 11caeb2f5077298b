package text

import (
	"evenpull/sim"
	"evenpull/sim/show/words"
)

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

// table makes a table of rows, below one of heads, and one of units where a column
// has one.
func table[T any](rows []T, columns []column[T]) Grid {
	var g Grid
	units := false
	heads, below, flush := make([]string, len(columns)), make([]string, len(columns)), []int{}
	for i, c := range columns {
		heads[i], below[i] = c.head, c.unit
		units = units || c.unit != ""
		if c.flush == right {
			flush = append(flush, i)
		}
	}
	g.Row(heads...)
	if units {
		g.Row(below...)
	}
	for i := range rows {
		cells := make([]string, len(columns))
		for k, c := range columns {
			cells[k] = c.cell(&rows[i])
		}
		g.Row(cells...)
	}
	g.Right(flush...)
	return g
}

// Cells of a run, as every table has them.
func setUpTurns(d *sim.Digest) string   { return words.Two(d.Spring.SetUp) }
func unevenness(d *sim.Digest) string   { return words.Share(d.Torque.Unevenness) }
func meanTorque(d *sim.Digest) string   { return words.Figure(d.Torque.Mean) }
func meanReserve(d *sim.Digest) string  { return words.Two(d.Reserve(d.Torque.Mean)) }
func leastReserve(d *sim.Digest) string { return words.Two(d.Reserve(d.Torque.Min)) }
func toSpare(d *sim.Digest) string      { return words.Two(d.Left()) }

// table writes a table.
func (p *Page) table(g Grid) { g.Write(p) }

// found writes what a study found, what it says and what it warns of.
func (p *Page) found(head string, says, warns []string) {
	p.Wrap("", head)
	p.list("  - ", says)
	p.list("  ! ", warns)
	p.Line("")
}

// end writes the cautions and flushes the page.
func (p *Page) end(cautions ...string) error {
	p.Line("")
	p.list("Caution: ", cautions)
	return p.Flush()
}
