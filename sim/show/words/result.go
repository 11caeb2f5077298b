package words

import (
	"math"
	"strings"

	"evenpull/sim/outcome"
)

// Value is a result as people read it, without its unit: see ValueUnit.
func Value(q *outcome.Quantity, v float64) string {
	if q.Share {
		return Share(v)
	}
	return Figure(v)
}

// ValueUnit is the unit that goes with Value; "" for none.
func ValueUnit(q *outcome.Quantity) string {
	if q.Share {
		return "%"
	}
	return q.Unit
}

// Valued is a result with its unit.
func Valued(q *outcome.Quantity, v float64) string {
	return strings.TrimSpace(Value(q, v) + " " + ValueUnit(q))
}

// Changed is a change of a result, with sign and unit; without a value it is that
// of a train that cannot be built.
func Changed(q *outcome.Quantity, v float64) string {
	switch {
	case math.IsNaN(v):
		return "not built"
	case v > 0:
		return "+" + strings.TrimSpace(Figure(q.Shown(v))+" "+ValueUnit(q))
	}
	return Minus(strings.TrimSpace(Figure(q.Shown(v)) + " " + ValueUnit(q)))
}
