package page

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"evenpull/sim/bench/assign"
	"evenpull/sim/bench/book"
	"evenpull/sim/bench/readings"
	"evenpull/sim/scenario"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
)

// Bench is what a bench file says of the first clock.
type Bench struct {
	Title    string
	Text     string // as record prints it
	Assign   string // as assign prints it; "" where nothing can be assigned
	Readings Picture
}

// Build makes a document of one scenario, or of several to compare, and of a bench
// file of the first, which may be nil. It fails when a scenario cannot be run, and
// with the error of ctx.
func Build(ctx context.Context, scenarios []*scenario.Scenario, b *book.Book, o Origin) (*Document, error) {
	d := &Document{Origin: o}
	for i, s := range scenarios {
		c, err := newClock(ctx, s, i)
		if err != nil {
			return nil, err
		}
		d.Clocks = append(d.Clocks, *c)
	}
	tellApart(d.Clocks, scenarios)
	if len(d.Clocks) > 1 {
		d.Compare = compare(d.Clocks)
		d.Compare.Inputs = differences(d.Clocks, scenarios)
	}
	if b != nil {
		if err := d.bench(ctx, b, scenarios[0]); err != nil {
			return nil, err
		}
	}
	d.Equations, d.Limits, d.Words = equations(d.Clocks), limits(d.Clocks), words()
	most, of := 0.0, ""
	for i := range d.Clocks {
		for k := range d.Clocks[i].run.Trains {
			if r := &d.Clocks[i].run.Trains[k]; r.Spring.Stored > most {
				most, of = r.Spring.Stored, r.Train.Name
			}
		}
	}
	d.Cautions = []string{"Of the springs here that of the " + of + " train holds most. " + words.Caution(most),
		"Where a fault tells that a spring binds before the fusee is wound, do not wind on against it.", "Changes to a historic movement cannot be undone: prefer a spring that suits it, keep every part that was taken out, and record what was done."}
	return d, nil
}

// tellApart adds the name of its file to a title that another clock has too.
func tellApart(clocks []Clock, scenarios []*scenario.Scenario) {
	for i, s := range scenarios {
		if slices.ContainsFunc(scenarios, func(o *scenario.Scenario) bool { return o != s && o.Title == s.Title }) {
			clocks[i].Title += " (" + filepath.Base(s.Source) + ")"
		}
	}
}

func (d *Document) bench(ctx context.Context, b *book.Book, s *scenario.Scenario) error {
	st := readings.Of(b, s)
	var record, choice strings.Builder
	if err := text.Record(&record, st, text.Options{}); err != nil {
		return err
	}
	p, err := draw("bench-readings", "Readings of the bench beside the prediction", "Measured torques of every spring with 95 % intervals, beside what is predicted",
		func(w io.Writer, format string) error { return chart.Record(w, format, st) })
	d.Bench = &Bench{Title: b.Title, Text: record.String(), Readings: p}
	if err != nil {
		return err
	}
	if st, err := assign.Of(ctx, b, s); err == nil { // else there is nothing to assign
		if err := text.Assign(&choice, st, text.Options{}); err != nil {
			return err
		}
		d.Bench.Assign = choice.String()
	}
	return nil
}

// Comparison is several clocks side by side.
type Comparison struct {
	Inputs  Table // the values that differ
	Results Table
}

// compare sets the figures of clocks beside each other, those that differ most
// first.
func compare(clocks []Clock) *Comparison {
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
		for _, f := range compared() {
			cells, differ := f.line(clocks, name)
			if cells != nil {
				lines = append(lines, line{append([]string{name, f.label}, cells...), differ})
			}
		}
	}
	slices.SortStableFunc(lines, func(a, b line) int {
		switch {
		case a.differ > b.differ:
			return -1
		case a.differ < b.differ:
			return 1
		}
		return 0
	})
	for _, l := range lines {
		c.Results.Rows = append(c.Results.Rows, l.cells)
	}
	return c
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
