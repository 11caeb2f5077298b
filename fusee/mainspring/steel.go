package mainspring

import (
	"errors"
	"math"

	"evenpull/fusee/numeric"
)

// ErrNoYield: no yield stress gives a strip the free coils it has.
var ErrNoYield = errors.New("no yield stress leaves these coils after the strip was wound home once")

// YieldForCoils is the yield stress (Pa) at which the strip, had it set when it
// was first wound home in this housing, would show the given coils lying free: the
// yield stress of a spring's own steel, from its shape on the bench. It is good
// to 1e-12 of itself. A strip that shows none never set: +Inf. It fails with
// ErrNoYield, or the errors of New.
func YieldForCoils(s Strip, in Housing, coils float64) (float64, error) {
	if coils == 0 {
		return math.Inf(1), nil
	}
	s.Form = Set
	shows := func(yield float64) (float64, error) {
		s.Yield = yield
		c, err := New(s, in)
		return c.FreeTurns(), err
	}
	// From the elastic stress at the arbor upwards nothing sets; a plate stops setting
	// somewhat below.
	hi := s.stiffModulus() * s.Thickness / (2 * in.Arbor)
	lo := hi * 1e-6
	most, err := shows(lo)
	switch {
	case err != nil:
		return math.NaN(), err
	case !(coils > 0 && coils < most):
		return math.NaN(), ErrNoYield
	}
	_, yield := numeric.Root(lo, hi, 0, func(yield float64) float64 {
		n, _ := shows(yield)
		return coils - n
	})
	return yield, nil
}
