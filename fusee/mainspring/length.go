package mainspring

import (
	"fmt"
	"math"

	"evenpull/fusee/numeric"
)

// HalfFill is the length (m) at which a strip of this thickness fills half the free area
// of the barrel.
func (s *Strip) HalfFill(in Housing) float64 { return s.LongestFor(in) / 2 }

// LengthFor are the lengths (m) at which the strip makes available the turns that were
// counted from rest to solid: one below, one beyond the length that makes the most turns,
// which fills about half the barrel. The steel is that of the strip or, where coils is not
// NaN, the one that such coils lying free tell of at each length. Both are good to 1e-12 of
// the longest that goes in, but near the most turns, where a hair of a turn is much length.
//
// With more turns than the most it fails with ErrCount, and both are the length that makes
// the most. With fewer than any strip of so many free coils makes, or with the errors of
// New, both are NaN.
func LengthFor(s Strip, in Housing, counted, coils float64) (below, beyond float64, err error) {
	nan := math.NaN()
	from, to := s.lengths(in, coils)
	s.Length = from/2 + to/2
	if err := s.check(in); err != nil {
		return nan, nan, err
	}
	turns := func(length float64) float64 { return s.turnsAt(in, length, coils) }
	top := max(s.HalfFill(in), s.Length)
	most := turns(top)
	if !(most > counted) { // about half fill is not good enough
		top = numeric.Minimum(from, to, 1e-7*to, func(length float64) float64 { return -turns(length) })
		most = turns(top)
	}
	switch {
	case counted == most:
		return top, top, nil
	case !(counted > 0 && counted < most):
		return top, top, fmt.Errorf("%w: %.4g, and a strip of this thickness makes %.2f at most, at any length", ErrCount, counted, most)
	}
	if least := turns(math.Nextafter(from, to)); least > counted && math.IsNaN(coils) { // of coils that tell the steel there are none in the limit
		return nan, nan, fmt.Errorf("%w: %.4g, and a strip that lies free in so many coils makes %.2f at least", ErrCount, counted, least)
	}
	lacks := func(length float64) float64 { return turns(length) - counted }
	_, below = numeric.Root(from, top, 0, lacks)
	_, beyond = numeric.Root(to, top, 0, lacks)
	return below, beyond, nil
}

// lengths are those between which a strip goes into the barrel and lies free in its coils.
func (s *Strip) lengths(in Housing, coils float64) (from, to float64) {
	switch {
	case s.Form == Even && math.IsNaN(coils): // n < L/2πrw
		each := s.FreeCoils * s.pitch()
		from = 2 * math.Pi * s.FreeCoils * (each + math.Hypot(each, in.Arbor))
	case coils > 0: // n < (rw − r)/h
		home := in.Arbor + coils*s.Thickness
		from = math.Pi * (home - in.Arbor) * (home + in.Arbor) / s.Thickness
	}
	return from, s.LongestFor(in)
}

// turnsAt are the turns that the strip makes available at a length; NaN at the ends of
// those that go.
func (s Strip) turnsAt(in Housing, length, coils float64) float64 {
	s.Length = length
	if !math.IsNaN(coils) {
		yield, err := YieldForCoils(s, in, coils)
		if s.Form, s.Yield = Set, yield; math.IsInf(yield, 1) {
			s.Form = Straight
		}
		if err != nil {
			return math.NaN()
		}
	}
	return s.TurnsPacked(in, s.Packing)
}
