package spread

import (
	"context"
	"testing"

	"evenpull/sim/internal/trial"
)

// BenchmarkRuns is ten thousand run-downs of the eight-day going train with the
// main results gathered: a million take a hundred times as long.
func BenchmarkRuns(b *testing.B) {
	s, _ := trial.Compile(b, "eight-day")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Run(context.Background(), s, 0, Options{Runs: 10_000, Seed: 1}); err != nil {
			b.Fatal(err)
		}
	}
}
