package vary

import (
	"context"
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
