package numeric

import (
	"math"
	"testing"
)

// Each factor of 0.618 costs a call, two come first, and the trough is within half
// the width.
func TestMinimum(t *testing.T) {
	for _, at := range []float64{-2, -1.99, 0.1, 1 / math.Pi, 2.999, 3} {
		for _, width := range []float64{2, 0.5, 1e-2, 1e-6} {
			calls := 0
			got := Minimum(-2, 3, width, func(x float64) float64 { calls++; return math.Abs(x - at) })
			within(t, "trough", got, at, width/2)
			if want := 2 + int(math.Ceil(math.Log(5/width)/math.Log(math.Phi))); calls > want {
				t.Errorf("width %g: %d calls, at most %d wanted", width, calls, want)
			}
		}
	}
	smooth := Minimum(0, 3, 0, func(x float64) float64 { return -math.Sin(x) })
	within(t, "as fine as it goes", smooth, math.Pi/2, 1e-7)
	sharp := Minimum(0, 3, 0, func(x float64) float64 { return math.Abs(x - 0.7) })
	within(t, "a sharp trough", sharp, 0.7, 1e-15)
	if got := Minimum(2, 2, 0, math.Abs); got != 2 {
		t.Errorf("no room: %g", got)
	}
}
