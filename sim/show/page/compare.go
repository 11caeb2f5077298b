package page

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"evenpull/fusee/numeric"
	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
	"evenpull/sim/study/dossier"
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
	g := text.Grid{Right: map[int]bool{}}
	g.Row(append([]string{"train", "result"}, d.numbers(&g, 2)...)...)
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
		if l.differ > 0 && len(slices.Compact(slices.Clone(l.cells[2:]))) > 1 {
			g.Row(l.cells...)
		}
	}
	return table("The verdicts, then the results that differ, the most first", 1, g)
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

// differing sets the inputs of the trains of a name side by side in which clocks differ, with
// those of the whole clock beside the first.
func (d *Document) differing(train string) Block {
	var have []*dossier.Clock
	for _, c := range d.clocks {
		if _, err := c.Scenario.Train(train); err == nil {
			have = append(have, c)
		}
	}
	if len(have) < 2 {
		return paragraph("", "The others do not have this train.")
	}
	g := text.Grid{Right: map[int]bool{}}
	g.Row(append([]string{"input"}, d.numbers(&g, 1)...)...)
	for _, q := range have[0].Scenario.Quantities() {
		of, _, _ := strings.Cut(q.Key, ".")
		if _, err := have[0].Scenario.Train(of); of != train && (err == nil || train != d.trains()[0]) {
			continue
		}
		row, differs := []string{words.InputLabel(&q)}, false
		first, has := given(have[0], q.Key)
		for _, c := range d.clocks {
			cell, is := given(c, q.Key)
			differs = differs || slices.Contains(have, c) && (cell != first || is != has)
			row = append(row, cell)
		}
		if differs {
			g.Row(row...)
		}
	}
	if len(g.Rows) == 1 {
		return paragraph("", "No input differs.")
	}
	return table("Inputs that differ", 1, g)
}

// given is a value as a scenario has it, and whether it has one.
func given(c *dossier.Clock, key string) (text string, is bool) {
	v, err := c.Scenario.Value(key)
	if err != nil {
		return "–", false
	}
	return fmt.Sprintf("%.6g", *v), true
}

// numbers are the headings of columns for every clock, from a column on.
func (d *Document) numbers(g *text.Grid, from int) (heads []string) {
	for i := range d.clocks {
		g.Right[from+i] = true
		heads = append(heads, fmt.Sprint(i+1))
	}
	return heads
}
