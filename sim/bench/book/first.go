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
	if sp := b.Spring(t.Spring); sp != nil && sp.Train == t.Train && s != nil && sp.SolidAtTurn >= 0 {
		if n, err := s.Train(t.Train); err == nil {
			return math.Max(0, s.Trains[n].Fusee.Turns-sp.SolidAtTurn)
		}
	}
	return 0
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
