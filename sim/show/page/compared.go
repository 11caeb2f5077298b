package page

import (
	"fmt"
	"math"
	"slices"

	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/scenario"
	"evenpull/sim/show/words"
)

const verdict = "verdict"

// figure is a result that clocks are compared by.
type figure struct {
	label string
	of    func(*sim.Result) (text string, value float64)
}

// compared are the results that matter to a choice.
func compared() []figure {
	list := []figure{{verdict, func(r *sim.Result) (string, float64) { return word(r.Verdict.Code), float64(r.Verdict.Code) }}}
	names := []string{outcome.MeanReserve, outcome.LeastReserve, outcome.MeanTorque, outcome.LeastTorque, outcome.MostTorque, outcome.Unevenness,
		"turns_lost", "runtime_h", "spring.turns_available", "spring.peak_stress_mpa", "spring.stored_energy_j", "line.max_winding_tension_n",
		"amplitude_deg.mean", "rate_swing_s_per_day", "wander_s", "blow_interval_s.mean", "strike_twelve_s.mean"}
	all, err := outcome.Several(names)
	if err != nil {
		return list // a name above is misspelt: a test finds it
	}
	for _, o := range all {
		list = append(list, figure{o.Label(), func(r *sim.Result) (string, float64) {
			v := o.Of(&r.Digest)
			return words.Figure(o.Shown(v)), v
		}})
	}
	return append(list, figure{"hours that it goes before it stops or has run down", func(r *sim.Result) (string, float64) {
		v := r.GoesFor() * r.HoursPerTurn
		return words.Figure(v), v
	}})
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
			text, v := f.of(&clocks[i].run.Trains[k])
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
func differences(clocks []Clock, scenarios []*scenario.Scenario) Table {
	t := Table{Caption: "Inputs that differ", Heads: 1, Right: []bool{false, false}}
	head := []string{"input", "unit"}
	for i := range clocks {
		head = append(head, fmt.Sprintf("%d: %s", i+1, clocks[i].Title))
		t.Right = append(t.Right, true)
	}
	t.Rows = [][]string{head}
	var keys []string
	units := map[string]string{}
	for _, s := range scenarios {
		for _, q := range s.Quantities() {
			if !slices.Contains(keys, q.Key) {
				keys = append(keys, q.Key)
				units[q.Key] = q.Unit
			}
		}
	}
	for _, key := range keys {
		row := []string{key, units[key]}
		for _, s := range scenarios {
			cell := "–"
			if v, err := s.Value(key); err == nil {
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
