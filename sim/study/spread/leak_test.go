package spread

import (
	"context"

	"runtime"
	"testing"
	"time"

	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
)

// TestLeavesNoGoroutine: where the function that is told the progress ends this goroutine,
// those that draw end too.
func TestLeavesNoGoroutine(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	mean, err := outcome.Named(outcome.MeanTorque)
	if err != nil {
		t.Fatal(err)
	}
	before := runtime.NumGoroutine()
	func() {
		defer func() {
			if recover() == nil {
				t.Error("the panic was lost")
			}
		}()
		_, _ = Run(context.Background(), s, 0, Options{Runs: 100000, Of: []outcome.Figure{mean}, Progress: func(int) { panic("given up") }})
	}()
	for range 100 { // the one that closes the channel ends a moment later
		if runtime.NumGoroutine() <= before {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Errorf("%d goroutines, %d before", runtime.NumGoroutine(), before)

}
