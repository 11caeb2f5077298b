package mainspring

import (
	"fmt"
	"math"

	"evenpull/fusee/numeric"
)

// CountError is the ErrCount of a strip of any length.
type CountError struct {
	Counted     float64 // turns that were counted from rest to solid
	Least, Most float64 // turns that strips of this thickness make
}

// Error tells the turns counted, and those that there can be.
func (e *CountError) Error() string {
	return fmt.Sprintf("%v: %.4g, and strips of this thickness make %.2f to %.2f", ErrCount, e.Counted, e.Least, e.Most)
}

// Unwrap gives ErrCount.
func (e *CountError) Unwrap() error { return ErrCount }

// HalfFill is the length (m) at which a strip of this thickness fills half the free area
// of the barrel.
func (s *Strip) HalfFill(in Housing) float64 { return s.LongestFor(in) / 2 }

// LengthFor is the length (m) at which the strip makes available the turns that were
// counted from rest to solid: the one below the length that makes the most turns, which
// fills about half the barrel, or with beyond the longer one. The steel is that of the strip
// or, where coils is not NaN, the one that such coils lying free tell of at each length. It
// is good to 1e-12 of the longest that goes in, but near the most turns, where a hair of a
// turn is much length.
//
// With more turns than the most it fails with a CountError and is the length that makes
// these. With fewer than any strip made in so many coils makes, or with the errors of New,
// it is NaN.
func LengthFor(s Strip, in Housing, counted, coils float64, beyond bool) (float64, error) {
	from, to := s.lengths(in, coils)
	s.Length = from/2 + to/2
	if err := s.check(in); err != nil {
		return math.NaN(), err
	}
	lacks := func(length float64) float64 { return s.turnsAt(in, length, coils) - counted }
	top := max(s.HalfFill(in), s.Length)
	over := lacks(top)
	if !(over > 0) { // about half fill is not good enough
		top = numeric.Minimum(from, to, 1e-7*to, func(length float64) float64 { return -lacks(length) })
		over = lacks(top)
	}
	switch {
	case over == 0:
		return top, nil
	case !(counted > 0 && over > 0):
		return top, &CountError{Counted: counted, Most: counted + over}
	}
	if s.Form == Even && math.IsNaN(coils) { // coils that tell the steel leave no turns in the limit
		if least := lacks(math.Nextafter(from, to)); least > 0 {
			return math.NaN(), &CountError{counted, counted + least, counted + over}
		}
	}
	end := from
	if beyond {
		end = to
	}
	_, length := numeric.Root(end, top, 1e-12*to, lacks)
	return length, nil
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
