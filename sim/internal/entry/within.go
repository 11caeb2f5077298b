package entry

import (
	"strconv"
	"strings"

	"evenpull/sim/internal/document"
	"evenpull/sim/scenario"
)

// Within is the range of a number, its ends included.
type Within struct {
	Lo, Hi float64
	Unit   string
	Words  string // what the number is, to follow "the"; "" when only its key says so
}

// Range is the range from lo to hi in a unit, "" for none.
func Range(lo, hi float64, unit string) Within { return Within{Lo: lo, Hi: hi, Unit: unit} }

// Input is the range of an input of scenarios, by its name below a train. It panics
// when there is none of that name, which is a fault of the program.
func Input(name string) Within {
	f, ok := scenario.Input(name)
	if !ok {
		panic("entry: a scenario has no input " + name)
	}
	return Within{Lo: f.Lo, Hi: f.Hi, Unit: f.Unit, Words: f.Words}
}

// Holds tells whether a number lies in it.
func (w Within) Holds(v float64) bool { return v >= w.Lo && v <= w.Hi }

// String says what is wanted: a number from 1 to 2 mm.
func (w Within) String() string {
	return strings.TrimSuffix("a number from "+document.Figure(w.Lo)+" to "+document.Figure(w.Hi)+" "+w.Unit, " ")
}

// Want says what is wanted in place of a value, and points at its quotes.
func (w Within) Want(v any) string {
	if s, ok := v.(string); ok {
		if _, err := strconv.ParseFloat(s, 64); err == nil {
			return "want " + w.String() + " without quotes"
		}
		if cure := document.Cure(s); cure != "" {
			return "want " + w.String() + " without quotes and " + cure
		}
	}
	return "want " + w.String()
}

// wantMissing says what is wanted where nothing is.
func (w Within) wantMissing() string {
	if w.Words == "" {
		return "want " + w.String()
	}
	return "want the " + w.Words + ", " + w.String()
}
