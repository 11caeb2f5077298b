package sweep

import (
	"context"
	"math"
	"testing"

	"evenpull/sim/internal/trial"
)

// BenchmarkSweep is a sweep over the thickness from a read scenario: 41 points,
// the exponent, the changes of the verdict found.
func BenchmarkSweep(b *testing.B) {
	s, _ := trial.Compile(b, "eight-day")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Run(context.Background(), s, 0, Options{Over: Axis{Key: "going.mainspring.thickness_mm", From: math.NaN(), To: math.NaN(), Steps: 41}}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkMap is a map of 100 by 100 points.
func BenchmarkMap(b *testing.B) {
	s, _ := trial.Compile(b, "eight-day")
	b.ReportAllocs()
	for b.Loop() {
		o := Options{
			Over:    Axis{Key: "going.mainspring.thickness_mm", From: math.NaN(), To: math.NaN(), Steps: 100},
			Against: &Axis{Key: "going.mainspring.width_mm", From: math.NaN(), To: math.NaN(), Steps: 100},
		}
		if _, err := Run(context.Background(), s, 0, o); err != nil {
			b.Fatal(err)
		}
	}
}
