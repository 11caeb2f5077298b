package page

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/scenario"
	"evenpull/sim/show/words"
)

// Comparison is several clocks side by side.
type Comparison struct {
	Inputs  Table // the values that differ
	Results Table
}

// compare sets the figures of clocks beside each other, those that differ most
// first.
func compare(clocks []Clock) (*Comparison, error) {
	figures, err := compared()
	if err != nil {
		return nil, err
	}
	head := []string{"train", "result"}
	for i := range clocks {
		head = append(head, fmt.Sprintf("%d: %s", i+1, clocks[i].Title))
	}
	right := make([]bool, len(head))
	for i := 2; i < len(right); i++ {
		right[i] = true
	}
	c := &Comparison{Results: Table{Caption: "Results side by side, those that differ most first", Heads: 1, Rows: [][]string{head}, Right: right}}
	type line struct {
		cells  []string
		differ float64
	}
	var lines []line
	for _, name := range trainNames(clocks) {
		for _, f := range figures {
			cells, differ := f.line(clocks, name)
			if cells != nil {
				lines = append(lines, line{append([]string{name, f.label}, cells...), differ})
			}
		}
	}
	slices.SortStableFunc(lines, func(a, b line) int { return cmp.Compare(b.differ, a.differ) })
	for _, l := range lines {
		c.Results.Rows = append(c.Results.Rows, l.cells)
	}
	return c, nil
}

// trainNames are those of all clocks, in their order.
func trainNames(clocks []Clock) []string {
	var names []string
	for i := range clocks {
		for k := range clocks[i].Parts {
			if name := clocks[i].Parts[k].Name; !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	return names
}

const verdict = "verdict"

// figure is a result that clocks are compared by.
type figure struct {
	label string
	of    func(*sim.Digest) (text string, value float64)
}

// compared are the results that matter to a choice.
func compared() ([]figure, error) {
	list := []figure{{verdict, func(d *sim.Digest) (string, float64) { return words.Verdict(d.Verdict.Code), float64(d.Verdict.Code) }}}
	all, err := outcome.Several(outcome.MeanReserve, outcome.LeastReserve, outcome.MeanTorque, outcome.LeastTorque, outcome.MostTorque, outcome.Unevenness,
		"turns_lost", "runtime_h", "goes_h", "spring.turns_available", "spring.turns_left", "spring.peak_stress_mpa", "spring.stored_energy_j", "line.max_winding_tension_n",
		"amplitude_deg.mean", "rate_swing_s_per_day", "wander_s", "blow_interval_s.mean", "strike_twelve_s.mean")
	for _, o := range all {
		list = append(list, figure{o.Label(), func(d *sim.Digest) (string, float64) {
			v := o.Of(d)
			return words.Figure(o.Shown(v)), v
		}})
	}
	return list, err
}

// line gives the figure in every clock, and how far these differ as a share of the
// greatest; nil when none has it.
func (f *figure) line(clocks []Clock, train string) (cells []string, differ float64) {
	lo, hi, known := math.Inf(1), math.Inf(-1), false
	for i := range clocks {
		cell := "–"
		for k := range clocks[i].Parts {
			if clocks[i].Parts[k].Name != train {
				continue
			}
			text, v := f.of(&clocks[i].of.Run.Trains[k].Digest)
			if !math.IsNaN(v) {
				cell, known = text, true
				lo, hi = min(lo, v), max(hi, v)
			}
		}
		cells = append(cells, cell)
	}
	if !known {
		return nil, 0
	}
	switch {
	case hi > lo && f.label == verdict:
		differ = math.Inf(1) // before everything
	case hi > lo:
		differ = (hi - lo) / math.Max(math.Abs(hi), math.Abs(lo))
	}
	return cells, differ
}

// differences sets the inputs in which scenarios differ beside each other: real
// numbers and their keys, those that some lack included.
func differences(clocks []Clock) Table {
	t := Table{Caption: "Inputs that differ", Heads: 1, Right: []bool{false, false}}
	head := []string{"input", "unit"}
	for i := range clocks {
		head = append(head, fmt.Sprintf("%d: %s", i+1, clocks[i].Title))
		t.Right = append(t.Right, true)
	}
	t.Rows = [][]string{head}
	var all []scenario.Quantity
	for i := range clocks {
		for _, q := range clocks[i].of.Scenario.Quantities() {
			if !slices.ContainsFunc(all, func(has scenario.Quantity) bool { return has.Key == q.Key }) {
				all = append(all, q)
			}
		}
	}
	for _, q := range all {
		row := []string{words.Input(&q, ""), q.Unit}
		for i := range clocks {
			cell := "–"
			if v, err := clocks[i].of.Scenario.Value(q.Key); err == nil {
				cell = fmt.Sprintf("%.6g", *v)
			}
			row = append(row, cell)
		}
		if slices.ContainsFunc(row[3:], func(cell string) bool { return cell != row[2] }) {
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}
