package mainspring

import (
	"errors"
	"fmt"
	"math"

	"evenpull/fusee/numeric"
)

// HandbookPacking is the packing that makes (√(2(R²+r²)) − R − r) π/(4h) turns of a
// barrel half filled, as handbooks of power springs print them (from memory).
const HandbookPacking = 4 / math.Pi

// overcount is how many turns more than ideal may be counted from rest to solid:
// a hundredth of a millimetre of thickness is a fifth of a turn.
const overcount = 0.5

// ErrCount: no packing gives a strip the turns counted from rest to solid.
var ErrCount = errors.New("the turns counted from rest to solid are not those of this strip in this barrel")

// TurnsPacked are the turns that the strip makes available in the housing with the
// given packing, as a hand counts them; NaN where it does not fit.
func (s Strip) TurnsPacked(in Housing, packing float64) float64 {
	s.Packing = packing
	if s.check(in) != nil {
		return math.NaN()
	}
	var c Curve
	c.shape(&s, in)
	c.lie()
	return c.Counted()
}

// PackingFor is the packing at which the strip makes available the turns that were
// counted from rest to solid. The more loosely coils lie the fewer turns there are, so
// there is one, good to 1e-12. It is 1 for a count up to half a turn above that of ideal
// packing. It fails with ErrCount for more than that, or none, and with the errors of New.
func PackingFor(s Strip, in Housing, counted float64) (float64, error) {
	s.Packing = 1
	if err := s.check(in); err != nil {
		return math.NaN(), err
	}
	ideal := s.TurnsPacked(in, 1)
	switch {
	case !(counted > 0 && counted <= ideal+overcount):
		return math.NaN(), fmt.Errorf("%w: %.4g, and it makes %.2f at most, with its coils packed without gaps", ErrCount, counted, ideal)
	case counted >= ideal:
		return 1, nil
	}
	most := math.Nextafter(freeArea(in)/(s.Thickness*s.Length), 1)
	_, packing := numeric.Root(most, 1, 0, func(k float64) float64 { return s.TurnsPacked(in, k) - counted })
	return packing, nil
}
