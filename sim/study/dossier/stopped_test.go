package dossier

import (
	"context"
	"errors"
	"math"
	"runtime"
	"sync/atomic"
	"testing"

	"evenpull/sim/bench/found"
	"evenpull/sim/internal/trial"
	"evenpull/sim/internal/trial/books"
	"evenpull/sim/study/sure"
)

// midway is a context that has an error some times that it is asked, from after on: longer
// than a study takes to see it.
type midway struct {
	context.Context
	after, times int64
	asked        atomic.Int64
	refused      atomic.Bool
	owes         atomic.Bool  // the error, to those told that it is done
	made         atomic.Int64 // asked by those that follow from it, twice each: the first counts
}

func (m *midway) ended() bool {
	n := m.asked.Add(1)
	return n >= m.after && n < m.after+m.times
}

func (m *midway) Err() error {
	// Once is not enough for those who ask it themselves: some ask again.
	if m.ended() && m.times > 1 || m.owes.Swap(false) {
		m.refused.Store(true)
		return context.Canceled
	}
	return nil
}

// Done is what those that follow from it ask, when they are made.
func (m *midway) Done() <-chan struct{} {
	if m.made.Add(1)%2 == 0 || !m.ended() {
		return m.Context.Done()
	}
	m.owes.Store(true)
	done := make(chan struct{})
	close(done)
	return done
}

// AfterFunc and Value keep those that follow from it from asking in other ways.
func (m *midway) AfterFunc(func()) (stop func() bool) { return func() bool { return true } }
func (m *midway) Value(any) any                       { return nil }

// Wherever one of the studies is stopped the whole fails with the error of the context,
// also where the others are not, and of a clock nothing is given.
func TestStoppedMidway(t *testing.T) {
	if testing.Short() {
		t.Skip("takes some seconds")
	}
	s, _ := trial.Compile(t, "eight-day")
	three, _ := trial.Compile(t, "three-trains")
	b := books.Sample(t)
	few := &sure.Options{Draws: 20, Seed: 1}
	for name, do := range map[string]func(ctx context.Context) (given bool, err error){
		"clock": func(ctx context.Context) (bool, error) { c, err := OfClock(ctx, s, few); return c != nil, err },
		"bench": func(ctx context.Context) (bool, error) {
			clock, err := found.Of(ctx, b, three)
			if err == nil {
				_, err = OfBench(ctx, clock, few)
			}
			return err == nil, err
		},
	} {
		whole := &midway{Context: t.Context(), after: math.MaxInt64 / 2}
		if given, err := do(whole); !given || err != nil {
			t.Fatal(name, err)
		}
		for k := range whole.asked.Load() {
			for _, times := range []int64{1, int64(runtime.GOMAXPROCS(0)) + 2, math.MaxInt64 / 2} {
				if times == 1 && name == "bench" || times > 1 && k%5 > 0 {
					continue // a bench book that cannot be assigned is told without; enough is enough
				}
				ctx := &midway{Context: t.Context(), after: k + 1, times: times}
				if given, err := do(ctx); given == ctx.refused.Load() || errors.Is(err, context.Canceled) == given {
					t.Errorf("%s stopped at %d, %d times: %v, given %v", name, k, times, err, given)
				}
			}
		}
	}
}
