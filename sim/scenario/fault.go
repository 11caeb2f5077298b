package scenario

import (
	"cmp"
	"errors"
	"slices"
	"strconv"
	"strings"

	"evenpull/sim/internal/document"
)

// Fault is one thing that is wrong with a scenario.
//
// Key is spelt as --set spells it: going.barrel.set_up_turns, the train's name
// first, or place.gravity_m_s2. Where a name is missing or used twice its
// place stands for it, counted from 1: train.#2.kind, going.mesh.#3.wheel,
// going.load.centre#2.torque_nm. Hammers, sets of pins and tolerances count
// from 1, diameters_mm from 0, the turn they stand at.
type Fault struct {
	Source string // the file, or "--set KEY" when the value came from there
	Line   int    // counted from 1; 0 when there is none
	Key    string
	Found  string // what was found, such as "found -3" or "unknown key"
	Want   string // what would be accepted
}

// Error gives "file:line: key: found; want", leaving out what is not known.
func (f Fault) Error() string {
	parts := make([]string, 0, 3)
	if f.Source != "" {
		at := f.Source
		if f.Line > 0 {
			at += ":" + strconv.Itoa(f.Line)
		}
		parts = append(parts, at)
	}
	if f.Key != "" && f.Source != setSource(f.Key) {
		parts = append(parts, f.Key)
	}
	what := f.Found
	if f.Want != "" {
		what += "; " + f.Want
	}
	return strings.Join(append(parts, what), ": ")
}

// BySet tells whether the value came from Set, not from a file.
func (f Fault) BySet() bool { return strings.HasPrefix(f.Source, setSource("")) }

// setSource stands for the file when a value came from the command line.
func setSource(key string) string { return "--set " + key }

// OfText makes what is wrong with a text as a whole, a Fault of package document, Faults
// that name its source. Any other error stays as it is.
func OfText(source string, err error) error {
	var f *document.Fault
	if errors.As(err, &f) {
		return Faults{{Source: source, Line: f.Line, Found: f.Found, Want: f.Want}}
	}
	return err
}

// Faults is everything that is wrong with a scenario, sorted by line.
type Faults []Fault

// mostTold is how many faults are told; the others are counted.
const mostTold = 50

// Error gives one fault a line, and how many there are beyond the first 50.
func (fs Faults) Error() string {
	var lines []string
	for _, f := range fs[:min(len(fs), mostTold)] {
		lines = append(lines, f.Error())
	}
	if more := len(fs) - mostTold; more > 0 {
		lines = append(lines, "and "+plural(more, "fault")+" more")
	}
	return strings.Join(lines, "\n")
}

// Sorted orders by line, keeping the order of discovery within a line, and
// gives nil for none so that the result can be returned as an error.
func (fs Faults) Sorted() error {
	if len(fs) == 0 {
		return nil
	}
	slices.SortStableFunc(fs, func(a, b Fault) int { return cmp.Compare(a.Line, b.Line) })
	return fs
}
