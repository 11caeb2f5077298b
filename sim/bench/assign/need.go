package assign

import (
	"math"
	"slices"

	"evenpull/sim"
	"evenpull/sim/bench/book"
	"evenpull/sim/bench/measure"
	"evenpull/sim/bench/readings"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"

	"github.com/golang/geo/r1"
)

// Need is what a train is judged by at its winding square.
type Need struct {
	Train    string
	Number   int   // of the train in the scenario
	Why      error // why the scenario does not have it or cannot run it; nil when it can, or without one
	Standard rules.Standard
	Need     sim.Need
	Wanted   r1.Interval // s, the intervals from blow to blow that weights were timed for; empty where none were
	Between  r1.Interval // N·m, what is sure of the need
	Weighed  bool        // the need is from weights; else from the scenario
	Timed    bool        // so are the torques that strike as fast as wanted; else they are computed from the fly
}

// off is a mean torque over the middle of what suits, less 1.
func (n *Need) off(mean float64) float64 { return mean/n.Standard.Suiting().Center() - 1 }

// needs gathers what the trains are judged by: with the need that weights tell,
// else with that of the scenario. It gives the scenario with the needs by weights in
// it.
func (st *Study) needs(b *book.Book, s *scenario.Scenario) *scenario.Scenario {
	gravity := readings.StandardGravity
	if s != nil {
		s, gravity = s.Clone(), s.Place.GravityMS2
	}
	weighed := measure.Of(b, gravity).Needs
	for i := range weighed {
		if w := &weighed[i]; !math.IsNaN(w.Bracket.Least) {
			st.Needs = append(st.Needs, byWeights(w, s))
		}
	}
	if s == nil {
		return nil
	}
	for i := range s.Trains {
		n := Need{Train: s.Trains[i].Name, Number: i}
		if slices.ContainsFunc(st.Needs, func(m Need) bool { return m.Train == n.Train }) {
			continue
		}
		d, err := digestOf(s, i)
		if err != nil {
			st.Refused = append(st.Refused, err)
			continue
		}
		n.Need, n.Standard, n.Between = d.Need, d.Standard, r1.IntervalFromPoint(d.Need.Used)
		if n.Standard.Basis != rules.ByNothing {
			st.Needs = append(st.Needs, n)
		}
	}
	return s
}

// byWeights is the need of a train that weights tell. A scenario that has the train
// takes it, and judges by it.
func byWeights(w *measure.Need, s *scenario.Scenario) Need {
	n := Need{Train: w.Train, Need: sim.Unknown().Need, Between: w.Bracket.Between, Weighed: true}
	n.Need.Measured, n.Need.Used = w.Bracket.Least, w.Bracket.Least
	timed := r1.EmptyInterval()
	if n.Wanted = timed; w.Cadence != nil {
		n.Wanted = readings.Wanted(s, w.Train)
		timed = timedBy(w, n.Wanted)
	}
	n.Timed = !timed.IsEmpty()
	n.Standard = rules.NewStandard(n.Need.Used, bandsOf(s), r1.EmptyInterval(), timed)
	if s == nil {
		return n
	}
	if n.Number, n.Why = s.Train(w.Train); n.Why != nil {
		return n
	}
	s.Trains[n.Number].Demand.LeastTorqueNM = n.Need.Used
	d, err := digestOf(s, n.Number)
	if n.Why = err; err != nil {
		return n
	}
	n.Need, n.Standard = d.Need, d.Standard
	if d.Kind == sim.Striking {
		n.Standard = n.Standard.Timed(timed)
	}
	return n
}

// digestOf is the run of a train of a scenario.
func digestOf(s *scenario.Scenario, number int) (*sim.Digest, error) {
	t, err := sim.CompileTrain(s, number)
	if err != nil {
		return nil, err
	}
	r := new(sim.Result)
	if err := t.RunInto(r, sim.Options{TorqueOnly: true}); err != nil {
		return nil, sim.Blame(s, number, err)
	}
	return &r.Digest, nil
}

// timedBy are the torques (N·m) that were found to strike as fast as wanted; empty
// where the trials do not tell.
func timedBy(w *measure.Need, wanted r1.Interval) r1.Interval {
	slow, fast := w.TorqueFor(wanted.Hi), w.TorqueFor(wanted.Lo)
	if slow.How == measure.Unknown || fast.How == measure.Unknown {
		return r1.EmptyInterval()
	}
	return r1.Interval{Lo: slow.Torque, Hi: math.Max(slow.Torque, fast.Torque)}
}

// bandsOf are the bands of the verdict of a scenario, which may be nil.
func bandsOf(s *scenario.Scenario) rules.Bands {
	if s == nil {
		return rules.DefaultBands()
	}
	return rules.Bands{Stops: s.Verdict.StopsBelow, Thin: s.Verdict.ThinBelow, Suits: s.Verdict.SuitsUpTo, Strong: s.Verdict.StrongUpTo}
}
