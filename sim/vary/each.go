package vary

import (
	"context"
	"errors"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"

	"evenpull/sim"
	"evenpull/sim/scenario"
)

// leastShared is the least number of runs that is worth starting goroutines for.
const leastShared = 24

// Each calls do for every number from 0 to n−1, on all cores, each core with a
// model of its own. What do keeps must depend on the number alone: then the number
// of cores changes nothing. It stops early when ctx ends, with its error, and fails
// before any call where no further model can be made.
func (m *Model) Each(ctx context.Context, n int, do func(m *Model, i int)) error {
	models := []*Model{m}
	for len(models) < min(runtime.GOMAXPROCS(0), n/leastShared) {
		own, err := m.Copy()
		if err != nil {
			return err
		}
		models = append(models, own)
	}
	var group sync.WaitGroup
	defer group.Wait() // where do ends this goroutine, the others end before it
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	var next atomic.Int64
	chunk := max(1, n/(16*len(models)))
	work := func(own *Model) {
		for ctx.Err() == nil {
			from := int(next.Add(int64(chunk))) - chunk
			if from >= n {
				return
			}
			for i := from; i < min(from+chunk, n); i++ {
				do(own, i)
			}
		}
	}
	for _, own := range models[1:] {
		group.Go(func() { work(own) })
	}
	work(m) // here: a few runs cost less than to start a goroutine for them
	group.Wait()
	return ctx.Err()
}

// Stopped tells whether a study failed since its context ended.
func Stopped(err error) bool {
	return errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded)
}

// Why tells in a line why a train cannot be built, without the place in the file
// that the values did not come from; "" without an error.
func Why(err error) string {
	var apart *sim.Error
	var faults scenario.Faults
	switch {
	case err == nil:
		return ""
	case errors.As(err, &apart):
		return plainly(apart.Fault)
	case errors.As(err, &faults):
		lines := make([]string, len(faults))
		for i, f := range faults {
			lines[i] = plainly(f)
		}
		return strings.Join(lines, "; ")
	}
	return err.Error()
}

// WhyKey is the key at fault, "" when it is not known.
func WhyKey(err error) string {
	var apart *sim.Error
	var faults scenario.Faults
	switch {
	case errors.As(err, &apart):
		return apart.Fault.Key
	case errors.As(err, &faults):
		return faults[0].Key
	}
	return ""
}

func plainly(f scenario.Fault) string {
	f.Source, f.Line = "", 0
	return f.Error()
}
