package spread

import (
	"context"
	"sync"
	"sync/atomic"

	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/vary"
)

const blockRuns = vary.BlockRuns

// maxFailures is the number of keys at fault that are counted apart.
const maxFailures = 32

// block is a number of successive runs.
type block struct {
	number   int
	runs     int
	codes    [blockRuns]rules.Code
	failed   [blockRuns]bool
	values   []float64 // of all results of the first run, then of the second
	failures []Failure
}

// draw carries out the runs: workers fill blocks, taken in the order of their
// numbers, and this goroutine gathers them in that order. Memory is bounded by
// the blocks under way. It returns when every worker has ended.
func (st *Study) draw(ctx context.Context, m *vary.Model, inputs []vary.Input, o Options) error {
	workers, err := vary.Drawers(m, inputs, o.Seed, o.Runs)
	if err != nil {
		return err
	}
	free, done := make(chan *block, 4*len(workers)), make(chan *block, 4*len(workers))
	for range cap(free) {
		free <- &block{values: make([]float64, blockRuns*len(o.Of))}
	}
	var next atomic.Int64
	var group sync.WaitGroup
	for _, d := range workers {
		group.Go(func() {
			for b := range free {
				b.number = int(next.Add(1)) - 1
				b.runs = min(blockRuns, o.Runs-b.number*blockRuns)
				if b.runs <= 0 || ctx.Err() != nil {
					return
				}
				b.fill(d, o.Of)
				done <- b
			}
		})
	}
	go func() {
		group.Wait()
		close(done)
	}()
	defer func() { // where the progress that is told ends this goroutine
		close(free)
		for range done {
		}
	}()
	st.gather(done, free, o.Progress)
	st.finish()
	if st.Runs == 0 {
		return ctx.Err()
	}
	return nil
}

// gather takes the blocks in their order. Every block that was begun is
// finished, so that they have no gaps.
func (st *Study) gather(done <-chan *block, free chan<- *block, progress func(int)) {
	waiting, next := map[int]*block{}, 0
	for b := range done {
		waiting[b.number] = b
		for ; waiting[next] != nil; next++ {
			st.add(waiting[next])
			free <- waiting[next]
			delete(waiting, next)
			if progress != nil {
				progress(st.Runs)
			}
		}
	}
}

// add takes the figures of a block.
func (st *Study) add(b *block) {
	n := len(st.Results)
	for i := range b.runs {
		if b.failed[i] {
			continue
		}
		st.Verdicts[b.codes[i]]++
		for k := range st.Results {
			st.Results[k].tally.add(b.values[i*n+k])
		}
	}
	st.Runs += b.runs
	for _, f := range b.failures {
		st.Failed += f.Runs
		st.Failures = count(st.Failures, f)
	}
}

// count adds a failure to those of its key.
func count(list []Failure, f Failure) []Failure {
	for i := range list {
		if list[i].Key == f.Key || i == maxFailures-1 {
			list[i].Runs += f.Runs
			return list
		}
	}
	return append(list, f)
}

// fill draws the runs of a block and keeps what they come to.
func (b *block) fill(d *vary.Drawer, of []outcome.Figure) {
	d.Begin(b.number)
	b.failures = b.failures[:0]
	for i := range b.runs {
		r, err := d.Run(d.Draw(), nil)
		if b.failed[i] = err != nil; err != nil {
			b.fail(err)
			continue
		}
		b.codes[i] = r.Verdict.Code
		for k := range of {
			b.values[i*len(of)+k] = of[k].Of(&r.Digest)
		}
	}
}

// fail notes why a run could not be built; the words are those of the first.
func (b *block) fail(err error) {
	f := Failure{Key: vary.WhyKey(err), Runs: 1}
	for _, g := range b.failures {
		if g.Key == f.Key {
			b.failures = count(b.failures, f)
			return
		}
	}
	f.Why = vary.Why(err)
	b.failures = count(b.failures, f)
}
