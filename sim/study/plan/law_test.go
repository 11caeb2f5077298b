package plan

import (
	"math"
	"math/rand/v2"
	"testing"
)

// The step of a meter spreads as a rectangle: q²/12 in all, of which repeats that scatter
// widely have nothing in common, and repeats that do not scatter everything.
func TestRounding(t *testing.T) {
	for jitter, want := range map[float64][2]float64{0: {0, 1.0 / 12}, 10: {1.0 / 12, 0}} {
		own, common := rounding(2, jitter)
		closeTo(t, "own", own, 4*want[0], 1e-9)
		closeTo(t, "common", common, 4*want[1], 1e-9)
	}
	own, common := rounding(1, 1e-3)
	closeTo(t, "hardly any jitter", common, 1.0/12, 0.02)
	closeTo(t, "in all", own+common, 1.0/12, 1e-12)
	if own, common = rounding(0, 1); own != 0 || common != 0 {
		t.Errorf("without a step: %v, %v", own, common)
	}
}

// What two repeats that round to a step have in common is what drawn ones have.
func TestRoundingOfDraws(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 6))
	const step, n = 2.0, 400_000
	for _, jitter := range []float64{0.2, 0.5, 0.8} {
		common, all := 0.0, 0.0
		for range n {
			truth := step * random.Float64()
			r := func() float64 {
				x := truth + jitter*random.NormFloat64()
				return step*math.Round(x/step) - x
			}
			a, b := r(), r()
			common, all = common+a*b/n, all+a*a/n
		}
		own, shared := rounding(step, jitter)
		if math.Abs(shared-common) > 0.003 || math.Abs(own+shared-all) > 0.003 {
			t.Errorf("jitter %v: %v of %v in common, drawn %v of %v", jitter, shared, own+shared, common, all)
		}
	}
}
