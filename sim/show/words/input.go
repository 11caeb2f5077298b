package words

import (
	"strings"

	"evenpull/sim/scenario"
)

// Input is the name of an input in a sentence, a table or on an axis. A train that
// is named already, or "", is left out of it.
func Input(q *scenario.Quantity, train string) string {
	if train == "" {
		return q.Words
	}
	s := strings.TrimSuffix(q.Words, " of the "+train+" train")
	return strings.Replace(s, " the "+train+" ", " the ", 1)
}

// InputLabel is Input with the unit, for axes and headings.
func InputLabel(q *scenario.Quantity, train string) string {
	if q.Unit == "" {
		return Input(q, train)
	}
	return Input(q, train) + ", " + q.Unit
}
