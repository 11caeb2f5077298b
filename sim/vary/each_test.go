package vary

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"testing"
	"time"

	"evenpull/sim/internal/trial"
)

// TestEachLeavesNoGoroutine: what do does may end the goroutine that it is called in, as a
// panic or a test that fails does; the other goroutines end with it.
func TestEachLeavesNoGoroutine(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	m := model(t, s, Length, "going.mainspring.thickness_mm")
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(4))
	before := runtime.NumGoroutine()
	func() {
		defer func() {
			if recover() == nil {
				t.Error("the panic was lost")
			}
			// One that has ended may be counted a moment longer.
			for wait := time.Millisecond; runtime.NumGoroutine() > before && wait < time.Second; wait *= 2 {
				time.Sleep(wait)
			}
			if n := runtime.NumGoroutine(); n > before {
				t.Errorf("%d goroutines, %d before", n, before)
			}
		}()
		_ = m.Each(context.Background(), 10000, func(own *Model, _ int) {
			time.Sleep(time.Millisecond)
			if own == m {
				panic("given up")
			}
		})
	}()
}

func TestStopped(t *testing.T) {
	for err, want := range map[error]bool{nil: false, errors.New("it breaks"): false, context.Canceled: true, context.DeadlineExceeded: true} {
		if got := Stopped(fmt.Errorf("spring A: %w", err)); got != want {
			t.Errorf("%v: stopped %v", err, got)
		}
	}
}
