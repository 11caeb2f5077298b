package sweep

import (
	"fmt"
	"math"

	"evenpull/sim/scenario"
)

// Axis is an input, by its KEY in Key, and the values it takes: Steps of them, evenly from
// From to To, in the unit of the KEY. NaN for From or To stands for a quarter of the
// scenario's value below or above it. A KEY in another unit than the format's, with From and
// To in it, is put into that of the format.
type Axis struct {
	Key      string
	From, To float64
	Steps    int

	Quantity scenario.Quantity // filled in
	Value    float64           // of the scenario, filled in
}

// fill looks the input up and sets its default range.
func (a *Axis) fill(s *scenario.Scenario) error {
	var by float64
	a.Key, by = s.InUnit(a.Key)
	a.From, a.To = a.From*by, a.To*by
	var err error
	if a.Quantity, err = s.Quantity(a.Key); err != nil {
		return err
	}
	v, err := s.Value(a.Key)
	if err != nil {
		return err
	}
	a.Value = *v
	room := math.Abs(a.Value) / 4
	if math.IsNaN(a.From) {
		a.From = a.Value - room
	}
	if math.IsNaN(a.To) {
		a.To = a.Value + room
	}
	if !(a.From < a.To) || math.IsInf(a.From, 0) || math.IsInf(a.To, 0) || a.Steps < 2 || a.Steps > MaxSteps {
		return fmt.Errorf("%s from %.4g to %.4g in %d steps: %w", a.Key, a.From, a.To, a.Steps, ErrRange)
	}
	return nil
}

// At is the value at a step from 0 to Steps−1, rounded to what a range of that size
// can tell apart so that it reads well.
func (a *Axis) At(i int) float64 {
	if i == a.Steps-1 {
		return a.To
	}
	v := a.From + (a.To-a.From)*float64(i)/float64(a.Steps-1)
	if unit := math.Pow(10, 12-math.Ceil(math.Log10(a.To-a.From))); i > 0 && !math.IsInf(v*unit, 0) && unit > 0 {
		v = math.Round(v*unit) / unit
	}
	// The scenario's own value is met exactly where the grid comes to it.
	if math.Abs(v-a.Value) < 1e-9*(a.To-a.From) {
		return a.Value
	}
	return v
}

// Values are those of all steps.
func (a *Axis) Values() []float64 {
	v := make([]float64, a.Steps)
	for i := range v {
		v[i] = a.At(i)
	}
	return v
}

// Holds tells whether the scenario's own value lies in the range.
func (a *Axis) Holds() bool { return a.Value >= a.From && a.Value <= a.To }
