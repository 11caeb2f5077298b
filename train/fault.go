package train

import (
	"errors"
	"fmt"
	"math"
)

// What is wrong with a striking train; a Fault wraps one of them, with the
// value found. ErrTrain is for its meshes and loads.
var (
	ErrNoFly      = errors.New("the fly has no area to brake with")
	ErrInertia    = errors.New("the fly's moment of inertia cannot be known")
	ErrPinArbor   = errors.New("the pins are on no arbor before the fly's")
	ErrPins       = errors.New("the pin wheel has no pins, or too many sets of them")
	ErrLiftShare  = errors.New("a pin lifts longer than its pitch")
	ErrHammer     = errors.New("a hammer has a mass, lift or spring out of range")
	ErrMore       = errors.New("there are more hammers than pins")
	ErrEfficiency = errors.New("a hammer tail passes on all of its work at most")
	ErrRange      = errors.New("the striking train is beyond what can be computed")
)

// Why a wanted interval cannot be had.
var (
	ErrInterval = errors.New("an interval between blows is to be above 0 and finite")
	ErrTooSlow  = errors.New("the train stalls before it strikes so slowly")
	ErrTooFast  = errors.New("the train does not strike so fast")
	ErrNoDrive  = errors.New("the torque does not carry the train over a blow")
)

// Fault is an error: a value that makes no striking train.
type Fault struct {
	Kind  error   // one of the Err values
	Field string  // in words
	Found float64 // in the unit of Want
	Want  string  // what would be accepted
}

// Error says what was found and what would be accepted.
func (f Fault) Error() string {
	return fmt.Sprintf("%v: %s: found %.6g; want %s", f.Kind, f.Field, f.Found, f.Want)
}

// Unwrap is the Kind.
func (f Fault) Unwrap() error { return f.Kind }

// tiny is the least number above 0, for a bound.
const tiny = math.SmallestNonzeroFloat64

// bound is what a value may be: from least to most, both included.
type bound struct {
	field       string
	value       float64
	least, most float64
	want        string
}

// firstFault finds the first value out of its bounds; NaN is out of every one.
func firstFault(kind error, bounds ...bound) error {
	for _, b := range bounds {
		if !(b.value >= b.least && b.value <= b.most) {
			return Fault{kind, b.field, b.value, b.want}
		}
	}
	return nil
}
