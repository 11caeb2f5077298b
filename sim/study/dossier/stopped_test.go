package dossier

import (
	"context"
	"errors"
	"math"
	"runtime"
	"strings"
	"sync/atomic"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/bench/book"
	"evenpull/sim/internal/trial"
	"evenpull/sim/study/sure"
)

// midway is a context that has an error some times that it is asked, from after on: longer
// than a study takes to see it.
type midway struct {
	context.Context
	after, times int64
	asked        atomic.Int64
}

func (m *midway) Err() error {
	if n := m.asked.Add(1); n >= m.after && n < m.after+m.times {
		return context.Canceled
	}
	return nil
}

// Wherever one of the studies is stopped the whole fails with the error of the context,
// also where the others are not, and of a clock nothing is given.
func TestStoppedMidway(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	three, _ := trial.Compile(t, "three-trains")
	text, _ := scenarios.BenchText(scenarios.DefaultBench)
	b, err := book.Read(strings.NewReader(text), scenarios.DefaultBench, nil)
	if err != nil {
		t.Fatal(err)
	}
	few := &sure.Options{Draws: 20, Seed: 1}
	for name, do := range map[string]func(ctx context.Context) (given bool, err error){
		"clock": func(ctx context.Context) (bool, error) { c, err := OfClock(ctx, s, few); return c != nil, err },
		"plain": func(ctx context.Context) (bool, error) { c, err := OfClock(ctx, s, nil); return c != nil, err },
		"bench": func(ctx context.Context) (bool, error) { _, err := OfBench(ctx, b, three, few); return err == nil, err },
	} {
		whole := &midway{Context: t.Context(), after: math.MaxInt64 / 2}
		if given, err := do(whole); !given || err != nil {
			t.Fatal(name, err)
		}
		for k := range whole.asked.Load() {
			for _, times := range []int64{int64(runtime.GOMAXPROCS(0)) + 2, math.MaxInt64 / 2} {
				if given, err := do(&midway{Context: t.Context(), after: k + 1, times: times}); given || !errors.Is(err, context.Canceled) {
					t.Errorf("%s stopped at %d, %d times: %v, given %v", name, k, times, err, given)
				}
			}
		}
	}
}
