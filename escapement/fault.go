package escapement

import (
	"fmt"
	"math"
)

// Fault is an error: a value that makes no pendulum or escapement.
type Fault struct {
	Field string // as in Pendulum, Escapement or the argument's name
	Found any    // a number in the unit of Want, or a Kind
	Want  string // what would be accepted
}

// Error says what was found and what would be accepted.
func (f Fault) Error() string {
	found := fmt.Sprint(f.Found)
	if v, ok := f.Found.(float64); ok {
		found = fmt.Sprintf("%.6g", v)
	}
	return fmt.Sprintf("escapement: %s: found %s; want %s", f.Field, found, f.Want)
}

// span is what a value may be: from least to most, both included.
type span struct {
	field       string
	value       float64
	least, most float64
	want        string
}

// firstFault finds the first value out of its span; NaN is out of every one.
func firstFault(spans ...span) error {
	for i := range spans {
		s := &spans[i]
		if !(s.value >= s.least && s.value <= s.most) {
			return Fault{s.field, s.value, s.want}
		}
	}
	return nil
}

// tiny is the least number above 0, for a span.
const tiny = math.SmallestNonzeroFloat64
