package readings

import (
	"math"

	"evenpull/sim"
	"evenpull/sim/bench/book"
	"evenpull/sim/bench/measure"
	"evenpull/sim/scenario"
	"evenpull/sim/show/words"
	"evenpull/sim/vary"
)

// StandardGravity is the acceleration of gravity (m/s²) that weights are taken to
// hang in when no scenario says otherwise (CGPM 1901).
const StandardGravity = 9.80665

// Study is all that a bench file says, and beside a scenario all that it says of
// it.
type Study struct {
	Title     string
	Scenario  string // its title; "" without one
	Gravity   float64
	Needs     []measure.Need
	Paces     [][]Pace // for each of Needs the torques for the slowest and the fastest interval wanted; none where no blows were timed
	Springs   []Spring
	Compared  []*Comparison // one for each of Springs; nil without a scenario or with Refused
	Refused   []string      // why a spring could not be compared; "" where it was
	Trains    []*sim.Result // the predicted run of the train of each spring; nil likewise
	Explained *Explanation  // nil when nothing was fitted
	Caution   string
}

// Of works a bench file out. The scenario may be nil.
func Of(b *book.Book, s *scenario.Scenario) *Study {
	st := &Study{Title: b.Title, Gravity: StandardGravity}
	if s != nil {
		st.Scenario, st.Gravity = s.Title, s.Place.GravityMS2
	}
	rec := measure.Of(b, st.Gravity)
	st.Needs = rec.Needs
	for i := range st.Needs {
		st.Paces = append(st.Paces, pacesOf(&st.Needs[i], s))
	}
	stored := math.NaN()
	for i := range rec.Supplies {
		t := &b.Torques[i]
		st.Springs = append(st.Springs, Spring{&rec.Supplies[i], t.MeterRelative, t.MeterResolutionNM})
		if s == nil {
			continue
		}
		c, r, err := compare(st.Springs[i], s)
		why := ""
		if err != nil {
			why = vary.Why(err)
		} else if !(stored >= r.Spring.Stored) {
			stored = r.Spring.Stored
		}
		st.Compared, st.Refused, st.Trains = append(st.Compared, c), append(st.Refused, why), append(st.Trains, r)
	}
	st.Caution = words.Caution(stored)
	return st
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
