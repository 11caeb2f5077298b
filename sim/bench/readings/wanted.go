package readings

import (
	"evenpull/sim/bench/measure"
	"evenpull/sim/scenario"

	"github.com/golang/geo/r1"
)

// Wanted are the intervals from blow to blow, fastest and slowest (s), that a
// striking train is to have: those of its scenario, which may be nil, or 0.8 to 1.6
// (common practice, no source).
func Wanted(s *scenario.Scenario, train string) r1.Interval {
	if s != nil {
		if n, err := s.Train(train); err == nil && s.Trains[n].Demand.BlowIntervalS.Given() {
			r := s.Trains[n].Demand.BlowIntervalS
			return r1.Interval{Lo: r.Lo, Hi: r.Hi}
		}
	}
	return r1.Interval{Lo: 0.8, Hi: 1.6}
}

// Pace is the torque that strikes at an interval that is wanted.
type Pace struct {
	Interval float64 // s
	measure.Pace
}

// pacesOf are those of the slowest and the fastest interval wanted; none for a
// train whose blows were not timed.
func pacesOf(n *measure.Need, s *scenario.Scenario) []Pace {
	if n.Cadence == nil {
		return nil
	}
	wanted := Wanted(s, n.Train)
	return []Pace{{wanted.Hi, n.TorqueFor(wanted.Hi)}, {wanted.Lo, n.TorqueFor(wanted.Lo)}}
}
