package assign

import (
	"math"
	"slices"

	"evenpull/sim"
	"evenpull/sim/bench/measure"
	"evenpull/sim/bench/readings"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"

	"github.com/golang/geo/r1"
)

// needs gathers what the trains want: from weights where there are some that tell
// it, else from the scenario.
func (st *Study) needs(weighed []measure.Need, s *scenario.Scenario) {
	for i := range weighed {
		if n := ofWeights(&weighed[i], s); !math.IsNaN(n.Least) {
			st.Needs = append(st.Needs, n)
		}
	}
	if s == nil {
		return
	}
	for i := range s.Trains {
		known := slices.ContainsFunc(st.Needs, func(n Need) bool { return n.Train == s.Trains[i].Name })
		if n := ofScenario(s, i); !known && !math.IsNaN(n.Least) {
			st.Needs = append(st.Needs, n)
		}
	}
}

func ofWeights(w *measure.Need, s *scenario.Scenario) Need {
	n := Need{Train: w.Train, Least: w.Bracket.Least, Between: w.Bracket.Between, Liked: r1.EmptyInterval(), Weighed: true, Striking: w.Cadence != nil}
	if w.Cadence == nil {
		return n
	}
	if band := bandOf(s, w.Train); !band.IsEmpty() {
		n.Liked = band
		return n
	}
	wanted := readings.Wanted(s, w.Train)
	if slow, fast := w.TorqueFor(wanted.Hi), w.TorqueFor(wanted.Lo); slow.How != measure.Unknown && fast.How != measure.Unknown {
		n.Liked = r1.Interval{Lo: slow.Torque, Hi: math.Max(slow.Torque, fast.Torque)}
	}
	return n
}

// bandOf are the torques (N·m) liked at the bench that the scenario gives, which take
// the place of a cadence; empty where it gives none.
func bandOf(s *scenario.Scenario, train string) r1.Interval {
	if s != nil {
		for i := range s.Trains {
			if b := s.Trains[i].Demand.TorqueBandNM; s.Trains[i].Name == train && b.Given() {
				return r1.Interval{Lo: b.Lo, Hi: b.Hi}
			}
		}
	}
	return r1.EmptyInterval()
}

func ofScenario(s *scenario.Scenario, number int) Need {
	n := Need{Train: s.Trains[number].Name, Least: math.NaN(), Liked: r1.EmptyInterval()}
	t, err := sim.CompileTrain(s, number)
	var r sim.Result
	if err != nil || t.RunInto(&r, sim.Options{}) != nil {
		return n
	}
	n.Least, n.Between, n.Striking = r.Need.Used, r1.IntervalFromPoint(r.Need.Used), t.Strikes
	if liked, basis := t.Liked(); basis != rules.ByNothing {
		n.Liked = liked
	}
	return n
}
