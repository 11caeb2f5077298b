package mainspring

import (
	"math"
	"testing"

	"evenpull/fusee/numeric"
)

// The natural curvature integrates to the coils that lie free, its derivatives are its own, and
// where a strip did not set it is that of its form.
func TestNatural(t *testing.T) {
	in := Housing{Arbor: 7.5e-3, Inside: 22.5e-3}
	for _, s := range []Strip{
		{Form: Set, Yield: 1600e6}, {Form: Set, Yield: 1600e6, Packing: 1.1}, {Form: Set, Yield: 5000e6},
		{Form: Even, FreeCoils: 3}, {Form: Straight},
	} {
		s.Width, s.Thickness, s.Length, s.Modulus, s.Bending = 36e-3, 0.38e-3, 1.4, 206*GPa, Narrow
		c := mustCurve(t, s, in)
		end := c.xy * math.Pi / c.h // of the part that set
		natural := func(s float64) float64 { k, _, _ := c.Natural(s); return k }
		turned := numeric.Adaptive(0, end, 1e-9, natural) + numeric.Adaptive(end*(1+1e-12), s.Length, 1e-9, natural)
		closeTo(t, "coils lying free", turned/(2*math.Pi), c.FreeTurns(), 1e-7)
		for _, at := range []float64{0.2, 0.7, 1.3} {
			const by = 1e-4
			k, slope, second := c.Natural(at)
			up, down := natural(at+by), natural(at-by)
			if math.Abs((up-down)/(2*by)-slope) > 1e-4 || math.Abs((up-2*k+down)/(by*by)-second) > 1e-2*(1+math.Abs(second)) {
				t.Errorf("%+v at %v: slope %v, second derivative %v", s, at, slope, second)
			}
		}
		// all on the arbor, where κ = 1/√(r² + k h s/π), it turns by 2π (rw − r)/(k h)
		closeTo(t, "angle when home", c.Angle(c.Turns()), 2*math.Pi*(c.rw-c.r)/c.Pitch(), 1e-12)
		if c.Strip() != s || c.Housing() != in {
			t.Errorf("%+v in %+v", c.Strip(), c.Housing())
		}
	}
}
