// Package batch runs a table of what-ifs: a row sets values of a scenario by their KEYs, and
// what the train then does stands beside it. Rows stream: however many there are, few are held
// at once, and what becomes of one depends on nothing but itself, so that the number of cores
// changes nothing. Another spring is one of the same steel, as in every what-if (package
// vary). Figures are in the units of package outcome, values in those of their KEYs; terms are
// those of package sim.
package batch

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/scenario"
)

// Options of a batch.
type Options struct {
	Train string           // the train looked at; "": the first that a column names, else the first
	Of    []outcome.Figure // what is told of each run beside its verdict
	Draws int              // to tell how sure the verdict of each row is; 0: not told
	Seed  int64            // of the draws
	// Open reads a scenario that a row names. It may be called by several goroutines at once.
	Open func(name string) (*scenario.Scenario, error)
}

// Batch is a table about to be run.
type Batch struct {
	base    *scenario.Scenario
	header  []string
	columns []column
	named   int // the column that names a scenario; −1: none
	keys    []string
	o       Options
}

// column is what a column of the table does.
type column struct {
	key     string // "" is carried through
	number  int    // place among the numbers that vary; −1 is set as a text
	numeric bool
}

// ScenarioColumn is the name of the column that names a scenario for each row.
const ScenarioColumn = "scenario"

// ErrHeader tells what is wrong with the names of the columns.
var ErrHeader = errors.New("the header of the table")

// New takes the header of a table. A column whose name is a KEY of the scenario sets that; one
// called scenario names another scenario for its row; all others are carried through. It
// fails with ErrHeader where a column has no name, stands twice, is one of those that come out, or looks
// like a KEY and is none.
func New(base *scenario.Scenario, header []string, o Options) (*Batch, error) {
	b := &Batch{base: base, header: header, named: -1, o: o}
	for i, name := range header {
		name = strings.TrimSpace(name)
		switch {
		case name == "":
			return nil, fmt.Errorf("%w: column %d has no name", ErrHeader, i+1)
		case slices.Contains(header[:i], header[i]):
			return nil, fmt.Errorf("%w: column %q stands twice", ErrHeader, name)
		case slices.Contains(b.Told(), name):
			return nil, fmt.Errorf("%w: column %q is one that comes out; give it another name", ErrHeader, name)
		}
		c := column{number: -1}
		_, err := base.Quantity(name)
		switch {
		case name == ScenarioColumn:
			b.named = i
		case err == nil:
			c = column{key: name, number: len(b.keys), numeric: true}
			b.keys = append(b.keys, name)
		case b.sets(name):
			c.key = name
		case keyLike(base, name):
			return nil, fmt.Errorf("%w: column %q: %w", ErrHeader, name, err)
		case strings.Contains(name, "."):
			return nil, fmt.Errorf("%w: column %q looks like a KEY and is none of this scenario's: %w; a column to carry through has no dot in its name", ErrHeader, name, err)
		}
		for k := range b.columns {
			if c.key != "" && sameInput(c.key, b.columns[k].key) {
				return nil, fmt.Errorf("%w: columns %q and %q set the same; want one of them", ErrHeader, b.columns[k].key, c.key)
			}
		}
		b.columns = append(b.columns, c)
	}
	return b, nil
}

// sameInput tells whether two KEYs are one in two units.
func sameInput(a, b string) bool {
	bare := func(key string) string {
		if at := strings.LastIndexByte(key, '_'); at > strings.LastIndexByte(key, '.') {
			return key[:at]
		}
		return key
	}
	return bare(a) == bare(b)
}

// Sets tells whether any column sets an input, or another scenario for its row.
func (b *Batch) Sets() bool {
	return b.named >= 0 || slices.ContainsFunc(b.columns, func(c column) bool { return c.key != "" })
}

// sets tells whether a KEY can be set that is no number in the unit of the format: a text, a
// list, or a number in another unit.
func (b *Batch) sets(key string) bool {
	if !strings.Contains(key, ".") {
		return false
	}
	err := b.base.Clone().Set(key, "0")
	var f scenario.Fault
	return err == nil || errors.As(err, &f) && strings.HasPrefix(f.Found, "found \"0\"")
}

// keyLike tells whether a name is meant to be a KEY: it begins with a train, or a table of
// the whole clock.
func keyLike(s *scenario.Scenario, name string) bool {
	owner, _, dotted := strings.Cut(name, ".")
	return dotted && (owner == "place" || owner == "verdict" || slices.ContainsFunc(s.Trains, func(t scenario.Train) bool { return t.Name == owner }))
}

// Header are the columns as they came in.
func (b *Batch) Header() []string { return b.header }

// Told are the names of the columns that come out beside those that came in.
func (b *Batch) Told() []string {
	names := []string{"train", "verdict"}
	if b.o.Draws > 0 {
		names = append(names, "sure", "else")
	}
	names = append(names, "faults", "fault")
	for i := range b.o.Of {
		names = append(names, b.o.Of[i].Name)
	}
	return names
}

// Of are the figures that are told.
func (b *Batch) Of() []outcome.Figure { return b.o.Of }

// Quantity is the number that a column sets; an error where it sets none.
func (b *Batch) Quantity(name string) (scenario.Quantity, error) {
	return b.base.Quantity(strings.TrimSpace(name))
}

// Sure tells whether it is told how sure each verdict is.
func (b *Batch) Sure() bool { return b.o.Draws > 0 }

// Row is a row of the table, and what it came to.
type Row struct {
	Cells  []string   // as they came in
	Train  string     // by its name
	Fault  string     // why it could not be run; "" where it was
	Digest sim.Digest // where it was
}

// train is the number of the train that is looked at.
func (b *Batch) train(s *scenario.Scenario) (int, error) {
	name := b.o.Train
	for _, c := range b.columns {
		owner, _, _ := strings.Cut(c.key, ".")
		if name == "" && slices.ContainsFunc(s.Trains, func(t scenario.Train) bool { return t.Name == owner }) {
			name = owner
		}
	}
	if name == "" {
		return 0, nil
	}
	return s.Train(name)
}
