package assign

import (
	"context"
	"errors"

	"evenpull/sim/bench/book"
	"evenpull/sim/bench/found"
	"evenpull/sim/bench/readings"
	"evenpull/sim/scenario"
)

// Record is what a bench book says: what was measured, and what each spring comes to in the
// train it was read in.
type Record struct {
	*readings.Study
	Demands []found.Demand // what the weights tell of the scenario's trains, one for each of Needs; nil without a scenario
	Judged  *Study         // every spring in the train it was read in, or, of a whole record, in every train; nil where nothing can be judged
}

// RecordOf works a bench book out, with so many draws, or none, that tell how sure verdicts
// are; whole, also which spring belongs to which train. The clock that it was put into is
// nil without a scenario. It fails with ErrMany, and the error of ctx.
func RecordOf(ctx context.Context, b *book.Book, clock *found.Clock, whole bool, draws int, seed int64) (*Record, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	var s *scenario.Scenario
	r := new(Record)
	if clock != nil {
		s, r.Demands = clock.Scenario, clock.Demands
	}
	r.Study = readings.Of(b, s)
	st, err := of(ctx, b, clock, !whole)
	switch {
	case errors.Is(err, ErrNoTorque) || errors.Is(err, ErrNoNeed):
		return r, nil
	case err == nil && draws > 0:
		err = st.Draw(ctx, draws, seed)
	}
	r.Judged = st
	return r, err
}

// Read is the pair of a set of readings, by its place in Springs, in the train they were
// taken in; nil where that is not judged.
func (r *Record) Read(i int) *Pair {
	if r.Judged == nil {
		return nil
	}
	sp := &r.Springs[i]
	for k := range r.Judged.Pairs {
		if p := &r.Judged.Pairs[k]; p.Label == sp.Spring && p.Train == sp.Train && p.Why == nil {
			return p
		}
	}
	return nil
}

// Fitted is what a set of readings tells of its spring; nil without a scenario, or where it
// tells nothing.
func (r *Record) Fitted(i int) *found.Spring {
	if r.Judged == nil || len(r.Judged.Found) <= i || r.Judged.Found[i].Why != nil {
		return nil
	}
	return r.Judged.Found[i]
}

// Trains are the names of the trains that were weighed or read, in that order.
func (r *Record) Trains() (names []string) {
	seen := map[string]bool{}
	add := func(name string) {
		if !seen[name] {
			seen[name], names = true, append(names, name)
		}
	}
	for i := range r.Needs {
		add(r.Needs[i].Train)
	}
	for i := range r.Springs {
		add(r.Springs[i].Train)
	}
	return names
}
