package assign

import (
	"fmt"
	"math"
	"slices"

	"evenpull/sim"
	"evenpull/sim/bench/found"
	"evenpull/sim/rules"

	"github.com/golang/geo/r1"
)

// Need is what a train is judged by at its winding square.
type Need struct {
	Train    string // by its name
	Number   int    // of the train in the scenario
	Standard rules.Standard
	Need     sim.Need
	Between  r1.Interval // N·m, what is sure of the need
	Weighed  bool        // the need is from weights; else from the scenario
	advice   rules.Advice
	wanted   r1.Interval // s, from blow to blow, where there is no scenario; empty where nothing was timed
}

// off is a mean torque over the middle of what suits, less 1.
func (n *Need) off(mean float64) float64 { return mean/n.Standard.Suiting().Center() - 1 }

// Need is what a train is judged by; nil where that is not known, or of no study.
func (st *Study) Need(train string) *Need {
	if st != nil {
		if i := slices.IndexFunc(st.Needs, func(n Need) bool { return n.Train == train }); i >= 0 {
			return &st.Needs[i]
		}
	}
	return nil
}

// needs gathers what the trains of a clock are judged by.
func (st *Study) needs(clock *found.Clock) {
	s := clock.Scenario
	for i := range s.Trains {
		d, err := sim.RunTrain(s, i, sim.Options{})
		if err == nil && d.Standard.Basis == rules.ByNothing {
			err = fmt.Errorf("the %s train: %w", s.Trains[i].Name, ErrUnknown)
		}
		if err != nil {
			st.Refused = append(st.Refused, err)
			continue
		}
		n := Need{Train: s.Trains[i].Name, Number: i, Standard: d.Standard, Need: d.Need, Between: r1.IntervalFromPoint(d.Need.Used), advice: d.Advice}
		if k := slices.IndexFunc(clock.Demands, func(d found.Demand) bool { return d.Train == n.Train && d.Least }); k >= 0 {
			n.Weighed, n.Between = true, clock.Demands[k].Bracket.Between
		}
		st.Needs = append(st.Needs, n)
	}
}

// tolerable tells whether a number is one to reckon with.
func tolerable(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
