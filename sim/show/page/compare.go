package page

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"evenpull/fusee/numeric"
	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
)

// compared are the results that matter to a choice, besides the verdict.
var compared = []string{outcome.MeanReserve, outcome.LeastReserve, outcome.MeanTorque, outcome.LeastTorque, outcome.MostTorque, outcome.Unevenness,
	"turns_lost", "runtime_h", "goes_h", "spring.turns_available", "spring.turns_left", "spring.peak_stress_mpa", "spring.stored_energy_j", "line.max_winding_tension_n",
	"amplitude_deg.mean", "rate_swing_s_per_day", "wander_s", "blow_interval_s.mean", "strike_twelve_s.mean"}

// line is a result of the trains of one name, clock by clock.
type line struct {
	cells  []string
	differ float64 // as a share of the greatest; NaN where no clock has it
}

// results sets the figures of clocks side by side: the verdicts, then what differs most.
func (d *Document) results() Block {
	figures, err := outcome.Several(compared...)
	d.err = cmp.Or(d.err, err)
	g := d.beside("train", "result")
	var lines []line
	seen := map[string]bool{}
	for _, c := range d.clocks {
		for i := range c.Trains {
			name := c.Trains[i].Result.Name
			if seen[name] {
				continue
			}
			seen[name] = true
			g.Row(d.line(name, "verdict", func(of *sim.Digest) (string, float64) { return words.Judged(of, words.Verdict), 0 }).cells...)
			for _, f := range figures {
				lines = append(lines, d.line(name, f.Label(), func(of *sim.Digest) (string, float64) { return words.Figure(f.Shown(f.Of(of))), f.Of(of) }))
			}
		}
	}
	numeric.Descending(lines, func(l *line) float64 { return l.differ })
	for _, l := range lines {
		if !math.IsNaN(l.differ) {
			g.Row(l.cells...)
		}
	}
	return table("Results side by side: the verdicts, then those that differ most", 1, g)
}

func (d *Document) line(train, label string, of func(*sim.Digest) (text string, value float64)) line {
	l := line{[]string{train, label}, math.NaN()}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, c := range d.clocks {
		cell := "–"
		if number, err := c.Scenario.Train(train); err == nil {
			text, v := of(&c.Run.Trains[number].Digest)
			cell = text
			if !math.IsNaN(v) {
				lo, hi = min(lo, v), max(hi, v)
			}
		}
		l.cells = append(l.cells, cell)
	}
	if hi >= lo {
		l.differ = (hi - lo) / max(math.Abs(hi), math.Abs(lo), math.SmallestNonzeroFloat64)
	}
	return l
}

// inputs sets those side by side in which scenarios differ, or that some lack.
func (d *Document) inputs() Block {
	g := d.beside("input", "unit")
	seen := map[string]bool{}
	for _, c := range d.clocks {
		for _, q := range c.Scenario.Quantities() {
			row := []string{q.Words, q.Unit}
			for _, c := range d.clocks {
				cell := "–"
				if v, err := c.Scenario.Value(q.Key); err == nil {
					cell = fmt.Sprintf("%.6g", *v)
				}
				row = append(row, cell)
			}
			if !seen[q.Key] && len(slices.Compact(slices.Clone(row[2:]))) > 1 {
				g.Row(row...)
			}
			seen[q.Key] = true
		}
	}
	return table("Inputs that differ", 1, g)
}

// beside begins a table with a column for every clock.
func (d *Document) beside(head ...string) text.Grid {
	g := text.Grid{Right: map[int]bool{}}
	for i, title := range d.titles() {
		g.Right[len(head)] = true
		head = append(head, fmt.Sprintf("%d: %s", i+1, title))
	}
	g.Row(head...)
	return g
}
