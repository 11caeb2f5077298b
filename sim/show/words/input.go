package words

import (
	"strings"

	"evenpull/sim/scenario"
)

// Input is the name of an input in a sentence, a table or on an axis. A train that
// is named already, or "", is left out of it.
func Input(q *scenario.Quantity, train string) string { return strings.TrimPrefix(q.Key, train+".") }

// InputLabel is Input with the unit, for axes and headings.
func InputLabel(q *scenario.Quantity, train string) string {
	if q.Unit == "" {
		return Input(q, train)
	}
	return Input(q, train) + ", " + q.Unit
}
