package scenario

import "math"

// ReadingError is how far a value may be from the truth, as a tolerance says or as it is
// read in the usual way (common practice, no source). The zero value is that of a value
// taken as exact. At most one of PlusMinus, Percent, Times and Lo with Hi is set.
type ReadingError struct {
	PlusMinus float64 // to both sides, in the unit of the value: two standard deviations of a normal distribution
	Percent   float64 // the same as a share of the value
	Uniform   bool    // PlusMinus or Percent is half the width of a uniform distribution instead
	Lo, Hi    float64 // anything between is as likely, whatever the value read
	Times     float64 // from the value over it to the value times it, above 1: two standard deviations of the logarithm
}

// Even tells that every value within the error is as likely: see At.
func (e ReadingError) Even() bool { return e.Uniform || e.Hi > e.Lo }

// At is the value at a place of the distribution about the value read: that of a
// standard normal variate or, where the error is Even, from −1 at its lower end to 1.
func (e ReadingError) At(value, place float64) float64 {
	switch {
	case e.Hi > e.Lo:
		return (e.Lo + e.Hi + place*(e.Hi-e.Lo)) / 2
	case e.Times > 1:
		return value * math.Pow(e.Times, place/2)
	}
	by := e.half(value)
	if !e.Uniform {
		by /= 2
	}
	return value + place*by
}

// Place is the place below which the share u of the distribution lies: see At.
func (e ReadingError) Place(u float64) float64 {
	if e.Even() {
		return 2*u - 1
	}
	return math.Sqrt2 * math.Erfinv(2*u-1)
}

// half is PlusMinus or Percent in the unit of the value.
func (e ReadingError) half(value float64) float64 {
	if e.Percent > 0 {
		return e.Percent / 100 * math.Abs(value)
	}
	return e.PlusMinus
}

// Exact tells that the value is taken as exact.
func (e ReadingError) Exact() bool { return e == ReadingError{} }

// Around gives what is within the error of a value, in its unit; the value itself
// twice when it is exact.
func (e ReadingError) Around(value float64) (lo, hi float64) {
	end := 2.0
	if e.Even() {
		end = 1
	}
	lo, hi = e.At(value, -end), e.At(value, end)
	return min(lo, hi), max(lo, hi)
}

func within(plusMinus float64) ReadingError      { return ReadingError{PlusMinus: plusMinus} }
func withinPercent(percent float64) ReadingError { return ReadingError{Percent: percent} }
func withinTimes(times float64) ReadingError     { return ReadingError{Times: times} }

// AssumedPacking is what a coil takes up over its thickness where nothing tells it.
const AssumedPacking = 1.065

// usualClicks are the teeth of a set-up ratchet that nobody counted.
const usualClicks = 12

// FlowStressError is what the flow stress of a strip may be off, told of it or assumed.
func FlowStressError(told bool) ReadingError {
	if told {
		return withinPercent(8)
	}
	return withinPercent(12)
}

func flowStress(_ *Train, given bool) ReadingError { return FlowStressError(given) }

// howPacked is what the packing may be off: anything that a barrel may show, or, when it
// was given, about what a quarter turn of those counted makes.
func howPacked(_ *Train, given bool) ReadingError {
	if given {
		return within(0.035)
	}
	return ReadingError{Lo: 1, Hi: 1.13}
}

// howLong is what the length may be off: as it was measured, or anything that fills the
// barrel as usual. What turns to solid tell is off by what they and the packing are.
func howLong(t *Train, _ bool) ReadingError {
	switch {
	case t == nil || t.Mainspring.LengthBy == LengthGiven:
		return withinPercent(1)
	case Given(t.Mainspring.SolidTurns):
		return ReadingError{}
	}
	half := t.Mainspring.LengthMM
	return ReadingError{Lo: leastFilled / 0.5 * half, Hi: mostFilled / 0.5 * half}
}

// oneClick is what a set-up as it was found may be off: a click of the ratchet.
func oneClick(t *Train, _ bool) ReadingError {
	if t == nil || t.Barrel.Clicks < 1 {
		return within(1.0 / usualClicks)
	}
	return within(1 / float64(t.Barrel.Clicks))
}

// coneEnd is what the end of a cone may be off that was measured; the end of one that is
// yet to be cut is what it is given as.
func coneEnd(t *Train, _ bool) ReadingError {
	if t != nil && t.Fusee.Profile == Even {
		return ReadingError{}
	}
	return within(0.1)
}

// readingError is the usual one of a field that was given, or assumed, in a train or,
// with nil, in any.
func (f *field) readingError(t *Train, given bool) ReadingError {
	if f.usualFor != nil {
		return f.usualFor(t, given)
	}
	return f.usual
}
