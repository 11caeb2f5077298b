package measure

import (
	"math"
	"testing"

	"evenpull/sim/bench/book"
)

var nan = math.NaN()

const standardGravity = 9.80665 // m/s², 3rd CGPM (1901)

// near compares within a relative tolerance; NaN is near NaN.
func near(got, want, tolerance float64) bool {
	return math.Abs(got-want) <= tolerance*math.Max(math.Abs(want), 1e-300) || math.IsNaN(got) && math.IsNaN(want) || got == want
}

func wantNear(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !near(got, want, tolerance) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

func down(lists ...[]float64) *book.Torque {
	return &book.Torque{Train: "going", Spring: "A", RunningDown: lists}
}

// ran is a trial of a train that goes or does not.
func ran(mass float64, runs bool) book.Trial {
	return book.Trial{MassG: mass, Runs: &runs, BlowIntervalS: nan}
}

func struck(mass, interval float64) book.Trial {
	return book.Trial{MassG: mass, BlowIntervalS: interval}
}

// meter100 is a pulley on which a gram pulls a millinewton metre when gravity is
// 10 m/s².
func meter100(trials ...book.Trial) *book.Weights {
	return &book.Weights{Train: "going", PulleyRadiusMM: 100, Trials: trials}
}
