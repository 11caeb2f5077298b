package dossier

import (
	"context"
	"errors"
	"strings"
	"sync/atomic"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/bench/book"
	"evenpull/sim/internal/trial"
	"evenpull/sim/study/sure"
)

// midway is a context that ends when it was asked so often, and counts what it refused.
type midway struct {
	context.Context
	end            context.CancelFunc
	after          int64
	asked, refused atomic.Int64
}

func endsAfter(t *testing.T, after int64) *midway {
	ctx, end := context.WithCancel(t.Context())
	return &midway{Context: ctx, end: end, after: after}
}

func (m *midway) Err() error {
	if m.asked.Add(1) > m.after {
		m.end()
	}
	err := m.Context.Err()
	if err != nil {
		m.refused.Add(1)
	}
	return err
}

func (m *midway) Done() <-chan struct{} {
	if m.asked.Add(1) > m.after {
		m.end()
	}
	return m.Context.Done()
}

// Wherever they are stopped the studies fail with the error of the context, and of a
// clock nothing is given.
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
		whole := endsAfter(t, 1<<40)
		if given, err := do(whole); !given || err != nil {
			t.Fatal(name, err)
		}
		asked := whole.asked.Load()
		stopped := 0
		for k := int64(0); k < asked; k += max(1, asked/40) {
			ctx := endsAfter(t, k)
			given, err := do(ctx)
			if err != nil {
				stopped++
			}
			if err != nil && (given || !errors.Is(err, context.Canceled)) || err == nil && ctx.refused.Load() > 0 {
				t.Errorf("%s stopped after %d of %d: %v, given %v", name, k, asked, err, given)
			}
			ctx.end()
		}
		if stopped < 3 {
			t.Errorf("%s was stopped %d times", name, stopped)
		}
	}
}
