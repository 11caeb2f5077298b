package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"evenpull/sim"
	"evenpull/sim/show/text"
)

// ending is when a train of a clock has run down, or stops before it has.
type ending struct {
	Name  string `json:"name"`
	Hours number `json:"runtime_h"`
}

// endings are the trains whose hours are known, the one that runs down first
// before the others.
func endings(r *Run) []ending {
	list := []ending{}
	for i := range r.Trains {
		res := &r.Trains[i]
		if hours := res.StruckTurns() * res.HoursPerTurn; !math.IsNaN(hours) {
			list = append(list, ending{res.Train.Name, number(hours)})
		}
	}
	slices.SortStableFunc(list, func(a, b ending) int { return cmp.Compare(a.Hours, b.Hours) })
	return list
}

// order tells which train of several runs down first, if there are several.
func (p *sheet) order(r *Run) {
	if g := Order(r); len(g.Rows()) > 2 {
		p.Line("")
		g.Write(p.Page)
	}
}

// Order is the trains whose hours are known by when they run down, below a row of
// headings.
func Order(r *Run) text.Grid {
	var g text.Grid
	list := endings(r)
	if len(list) == 0 {
		return g
	}
	first := float64(list[0].Hours)
	g.Row("Which train runs down first", "hours", "days", "after the first")
	for _, e := range list {
		h := float64(e.Hours)
		later := "–"
		if late := h - first; late > 0.05 {
			later = fmt.Sprintf("%s h", sim.Figure(late))
		}
		g.Row("  "+e.Name, sim.Figure(h), sim.Figure(h/24), later)
	}
	g.Right(1, 2, 3)
	return g
}
