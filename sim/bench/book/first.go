package book

import (
	"math"
	"slices"

	"evenpull/sim/scenario"
)

// Resolved is the book with the first turn of all its torques: as it says; or by the turn
// at which their spring went solid and the turns of the fusee, where the scenario, which
// may be nil, has the train; else 0.
func (b *Book) Resolved(s *scenario.Scenario) *Book {
	r := *b
	r.Torques = slices.Clone(b.Torques)
	for i := range r.Torques {
		t := &r.Torques[i]
		if math.IsNaN(t.FirstTurn) {
			t.FirstTurn = b.firstOf(t, s)
		}
	}
	return &r
}

func (b *Book) firstOf(t *Torque, s *scenario.Scenario) float64 {
	if sp := b.solid(t); sp != nil && s != nil {
		if turns := turnsOf(s, t.Train); turns > sp.SolidAtTurn {
			return turns - sp.SolidAtTurn
		}
	}
	return 0
}

// solid is the spring of a torque where it went solid in its train; nil where it is not
// said that it did.
func (b *Book) solid(t *Torque) *Spring {
	if sp := b.Spring(t.Spring); sp != nil && sp.Train == t.Train && sp.SolidAtTurn >= 0 {
		return sp
	}
	return nil
}

// Spring is what was measured of the spring with a label; nil when nothing was.
func (b *Book) Spring(label string) *Spring {
	for i := range b.Springs {
		if b.Springs[i].Label == label {
			return &b.Springs[i]
		}
	}
	return nil
}
