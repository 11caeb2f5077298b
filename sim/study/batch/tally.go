package batch

import (
	"math"

	"evenpull/sim/rules"

	"github.com/golang/geo/r1"
)

// Tally is what the rows of a batch came to, all together.
type Tally struct {
	Rows, NotRun, AtFault int                // AtFault: run, with something that does not fit or is unsafe
	Verdicts              map[rules.Code]int // how many rows came to each
	Results               []r1.Interval      // least and greatest of each result, where it applies
}

// Tally begins the count of rows.
func (b *Batch) Tally() Tally {
	t := Tally{Verdicts: map[rules.Code]int{}}
	for range b.o.Of {
		t.Results = append(t.Results, r1.EmptyInterval())
	}
	return t
}

// Count takes a row into a tally.
func (b *Batch) Count(t *Tally, r *Row) {
	t.Rows++
	if r.Fault != "" {
		t.NotRun++
		return
	}
	t.Verdicts[r.Digest.Verdict.Code]++
	if r.Digest.Faults != 0 {
		t.AtFault++
	}
	for i := range b.o.Of {
		if v := b.o.Of[i].Of(&r.Digest); !math.IsNaN(v) {
			t.Results[i] = t.Results[i].AddPoint(v)
		}
	}
}
