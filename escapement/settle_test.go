package escapement

import (
	"math"
	"testing"
)

// The arc nears its end by a factor of e every Q/2π periods, so that from a tenth
// beyond it settles to 1e-10 of it in ln(1e9) times as many.
func TestPeriodsToSettle(t *testing.T) {
	for _, q := range []float64{60, 300, 2000} {
		for _, kind := range kinds {
			e, p := bracketClock(kind)
			p.Quality = q
			c := mustNew(t, e, p)
			torque := 2 * c.LeastTorque()
			end := settled(t, &c, torque)
			b := mustBeat(t, &c, torque, 1.1*end.Amplitude)
			got := b.Settle(1 << 20)
			closeTo(t, "periods", float64(got.Periods), q/(2*math.Pi)*math.Log(1e9), 0.03)
			closeTo(t, "amplitude", float64(got.Amplitude), float64(end.Amplitude), 2e-10)
			closeTo(t, "where it stands", float64(b.Arc()), float64(got.Amplitude), 2e-10)
		}
	}
}
