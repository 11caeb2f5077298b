package scenario

// How the values that a tolerance allows are distributed.
const (
	Normal  = "normal"
	Uniform = "uniform"
)

// Tolerance is how far a quantity may be from its value, for studies that vary
// it. One of PlusMinus and Percent is given, the other is NaN.
type Tolerance struct {
	Key       string  // as Value takes it
	PlusMinus float64 // in the unit of the quantity
	Percent   float64 // of the value
	Shape     string  // Normal or Uniform
}

// Error is the tolerance as the error of a value.
func (t *Tolerance) Error() ReadingError {
	e := ReadingError{PlusMinus: t.PlusMinus, Uniform: t.Shape == Uniform}
	if !Given(t.PlusMinus) {
		e.PlusMinus, e.Percent = 0, t.Percent
	}
	return e
}
