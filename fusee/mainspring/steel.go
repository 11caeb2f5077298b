package mainspring

import (
	"errors"
	"fmt"
	"math"

	"evenpull/fusee/numeric"
)

// ErrNoYield: no flow stress leaves a strip the coils that it shows lying free.
var ErrNoYield = errors.New("wound home once, a strip lies free in fewer coils than it has round the arbor")

// YieldForCoils is the flow stress (Pa) of the steel of a strip that, wound home once
// in this housing, lies free in the given coils. There is just one from 0 coils up to
// those of the strip packed round the arbor, (rw − r)/h; it is good to 1e-12 of itself.
// A strip that shows none never set: +Inf. It fails with ErrNoYield, which gives that
// number, or the errors of New.
func YieldForCoils(s Strip, in Housing, coils float64) (float64, error) {
	s.Form = Straight
	if err := s.check(in); err != nil {
		return math.NaN(), err
	}
	if coils == 0 {
		return math.Inf(1), nil
	}
	most := (math.Sqrt(in.Arbor*in.Arbor+s.Thickness*s.Length/math.Pi) - in.Arbor) / s.Thickness
	if !(coils > 0 && coils < most) {
		return math.NaN(), fmt.Errorf("%w: %.4g coils, and it must be fewer than %.3f", ErrNoYield, coils, most)
	}
	var c Curve
	c.layOut(&s, in)
	hi := c.modulus * s.Thickness / (2 * in.Arbor) // at this elastic stress nothing sets
	_, yield := numeric.Root(0, hi, 0, func(yield float64) float64 {
		if yield == 0 { // all set: most coils, which rounding must not make fewer than those shown
			return coils - most
		}
		c.set(yield)
		return coils - c.FreeTurns()
	})
	return yield, nil
}
