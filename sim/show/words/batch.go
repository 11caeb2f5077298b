package words

import (
	"strings"

	"evenpull/sim/rules"
	"evenpull/sim/study/batch"
)

// Batch tells what the rows of a table came to, the verdicts first.
func Batch(b *batch.Batch, t *batch.Tally) []string {
	var says, ends told
	for c := range rules.Overdriven + 1 {
		ends.when(t.Verdicts[c] > 0, "%s in %d", Does(c), t.Verdicts[c])
	}
	says.when(!b.Sets() && t.Rows > 0, "no column of the table is a KEY: every row is of the scenario as it is")
	says.when(len(ends) > 0, "of %s run it %s", Count(t.Rows-t.NotRun, "row"), strings.Join(ends, ", "))
	says.when(t.NotRun > 0, "%d of %s could not be run, as the column fault says", t.NotRun, Count(t.Rows, "row"))
	says.when(t.Rows == 0, "there were no rows to run")
	says.when(t.AtFault > 0, "something does not fit or is unsafe in %d, as the column faults says", t.AtFault)
	of := b.Of()
	for i := range t.Results {
		r, q := t.Results[i], &of[i].Quantity
		says.when(!r.IsEmpty(), "%s: %s to %s", q.Words, Value(q, r.Lo), Valued(q, r.Hi))
	}
	return says
}
