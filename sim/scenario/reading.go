package scenario

import "math"

// ReadingError is how far a value may be from the truth when it was read in the
// usual way (common practice, no source). The zero value is that of a value taken as
// exact. At most one of the kinds below is set.
type ReadingError struct {
	PlusMinus float64 // to both sides, in the unit of the value: two standard deviations of a normal distribution
	Percent   float64 // the same as a share of the value
	Lo, Hi    float64 // anything between is as likely, whatever the value read
	Times     float64 // from the value over it to the value times it, above 1: two standard deviations of the logarithm
}

// Exact tells that the value is taken as exact.
func (e ReadingError) Exact() bool { return e == ReadingError{} }

// Around gives what is within the error of a value, in its unit; the value itself
// twice when it is exact.
func (e ReadingError) Around(value float64) (lo, hi float64) {
	switch {
	case e.PlusMinus > 0:
		return value - e.PlusMinus, value + e.PlusMinus
	case e.Percent > 0:
		by := e.Percent / 100 * math.Abs(value)
		return value - by, value + by
	case e.Hi > e.Lo:
		return e.Lo, e.Hi
	case e.Times > 1:
		lo, hi = value/e.Times, value*e.Times
		return min(lo, hi), max(lo, hi)
	}
	return value, value
}

func within(plusMinus float64) ReadingError      { return ReadingError{PlusMinus: plusMinus} }
func withinPercent(percent float64) ReadingError { return ReadingError{Percent: percent} }
func withinTimes(times float64) ReadingError     { return ReadingError{Times: times} }

// usualClicks are the teeth of a set-up ratchet that nobody counted.
const usualClicks = 12

// oneClick is what a set-up as it was found may be off: a click of the ratchet.
func oneClick(t *Train) ReadingError {
	if t == nil || t.Barrel.Clicks < 1 {
		return within(1.0 / usualClicks)
	}
	return within(1 / float64(t.Barrel.Clicks))
}

// readingError is the usual one of a field, in a train or, with nil, in any.
func (f *field) readingError(t *Train) ReadingError {
	if f.usualFor != nil {
		return f.usualFor(t)
	}
	return f.usual
}
