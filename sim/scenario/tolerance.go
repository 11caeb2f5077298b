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

// Of gives what the tolerance allows to both sides of a value, in the unit of
// the value: half the width when Uniform, two standard deviations when Normal.
func (t *Tolerance) Of(value float64) float64 {
	e := t.Error()
	return e.half(value)
}

// Tolerance gives what the scenario allows the quantity that a KEY names to
// both sides of its value, in its unit, and whether it has a tolerance for it.
func (s *Scenario) Tolerance(key string) (plusMinus float64, given bool) {
	v, err := s.Value(key)
	if err != nil {
		return 0, false
	}
	for i := range s.Tolerances {
		t := &s.Tolerances[i]
		if of, err := s.Value(t.Key); err == nil && of == v {
			return t.Of(*v), true
		}
	}
	return 0, false
}
