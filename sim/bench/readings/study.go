package readings

import (
	"math"

	"evenpull/sim"
	"evenpull/sim/bench/book"
	"evenpull/sim/bench/measure"
	"evenpull/sim/scenario"
)

// StandardGravity is the acceleration of gravity (m/s²) that weights are taken to
// hang in when no scenario says otherwise (CGPM 1901).
const StandardGravity = 9.80665

// Study is all that a bench file says, and beside a scenario all that it says of
// it.
type Study struct {
	Book      *book.Book     // each of its torques with its first turn
	Scenario  string         // its title; "" without one
	Gravity   float64        // m/s², of the bench book
	Needs     []measure.Need // of the trains that were tried with weights
	Paces     [][]Pace       // for each of Needs the torques for the slowest and the fastest interval wanted; none where no blows were timed
	Springs   []Spring       // in the order of the bench book
	Compared  []*Comparison  // one for each of Springs; nil without a scenario or with Refused
	Refused   []error        // why a spring could not be compared; nil where it was
	Trains    []*sim.Result  // the predicted run of the train of each spring; nil likewise
	Explained *Explanation   // nil when nothing was fitted
}

// Of works a bench file out. The scenario may be nil.
func Of(b *book.Book, s *scenario.Scenario) *Study {
	if s == nil {
		return Read(b, StandardGravity)
	}
	st := Read(b.Resolved(s), s.Place.GravityMS2)
	st.Scenario = s.Title
	for i := range st.Needs {
		st.Paces[i] = pacesOf(&st.Needs[i], s)
	}
	for i := range st.Springs {
		st.Compared[i], st.Trains[i], st.Refused[i] = compare(st.Springs[i], s)
	}
	return st
}

// Read works a bench file out by itself, with the acceleration of gravity (m/s²) where its
// weights hung.
func Read(b *book.Book, gravity float64) *Study {
	b = b.Resolved(nil)
	rec := measure.Of(b, gravity)
	n := len(rec.Supplies)
	st := &Study{Book: b, Gravity: gravity, Needs: rec.Needs, Compared: make([]*Comparison, n), Refused: make([]error, n), Trains: make([]*sim.Result, n)}
	for i := range st.Needs {
		st.Paces = append(st.Paces, pacesOf(&st.Needs[i], nil))
	}
	for i := range rec.Supplies {
		t := &b.Torques[i]
		st.Springs = append(st.Springs, Spring{&rec.Supplies[i], t.MeterRelative, t.MeterResolutionNM})
	}
	return st
}

// Stored is the energy (J) in the strongest of the springs as it is predicted; NaN
// when none is.
func (st *Study) Stored() float64 {
	most := math.NaN()
	for _, r := range st.Trains {
		if r != nil && (r.Spring.Stored > most || math.IsNaN(most)) {
			most = r.Spring.Stored
		}
	}
	return most
}

// Reading is a turn that was read, and what is predicted there.
type Reading struct {
	measure.Turn
	Winding   bool    // while winding; else running down
	Predicted float64 // N·m; NaN where nothing is
}

// Residual is measured less predicted.
func (r *Reading) Residual() float64 { return r.Mean - r.Predicted }

// Readings are those of a spring by its place in Springs, running down or winding.
func (st *Study) Readings(i int, winding bool) []Reading {
	s, first := &st.Springs[i], 0
	turns := s.Turns
	if winding {
		turns, first = s.Supply.Winding, len(s.Turns)
	}
	list := make([]Reading, len(turns))
	for k, t := range turns {
		list[k] = Reading{t, winding, math.NaN()}
		if c := st.Compared[i]; c != nil {
			list[k].Predicted = c.Points[first+k].Predicted
		}
	}
	return list
}

// Find is the readings of the spring of a label in the train that a KEY names, or
// in any when train is "". It is nil when there are none, or several and no label.
func (st *Study) Find(spring, train string) *Spring {
	var found *Spring
	for i := range st.Springs {
		s := &st.Springs[i]
		if spring != "" && s.Spring != spring || train != "" && s.Train != train {
			continue
		}
		if found != nil {
			return nil
		}
		found = s
	}
	return found
}
