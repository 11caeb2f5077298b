// Package assign tells which of several springs in their barrels belongs to which train, from
// torques and weights measured at the bench. A spring in a train is judged as a run of that
// train is.
//
// Every spring is tried in every train, and of all ways to give each train a spring, none
// twice, the one with the best verdicts is taken, then with the fewest faults, then with mean
// torques nearest to the middle of the range that suits (rules.Standard.Suiting). Sure is the
// share of draws, of what the readings leave open, in which the same way is the best: a pure
// number. Without a scenario the readings stand as they were taken, whatever train they were
// taken in. Torques are in N·m at the winding square; terms are those of package sim. Springs
// in their barrels are under tension until they are let down.
package assign

import (
	"context"
	"errors"
	"fmt"
	"math"
	"runtime"
	"slices"

	"evenpull/sim"
	"evenpull/sim/bench/book"
	"evenpull/sim/bench/found"
	"evenpull/sim/bench/readings"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"

	"golang.org/x/sync/errgroup"
)

// Most is the greatest number of springs, or of trains, of which the fewer are.
const Most = 12

// Pair is one spring in one train.
type Pair struct {
	// Digest is the run of the train with the spring. Where it is not whole, the
	// readings stand as they are: only torque, need and verdict are known.
	sim.Digest
	Label  string  // of the spring
	Train  string  // by its name
	ReadIn string  // the train it was read in
	Whole  bool    // the scenario has the train, and the spring was put into it
	Off    float64 // mean torque over the middle of what suits, less 1
	Chosen bool    // in the best choice
	Risky  bool    // it might bind: fewer than rules.SpareOfCounted turns are left, or it binds with its packing as loose as it may be
	Why    error   // why the digest is not whole; nil without a scenario

	share float64       // half the 95 % interval of readings as they stand over their mean; NaN when nothing tells it
	in    *found.Placed // the clock with the spring in the train; nil where it is not whole
}

// Carried tells whether the spring was read in another train.
func (p *Pair) Carried() bool { return p.Whole && p.ReadIn != p.Train }

// Sound tells whether the spring suits the train without a fault: only then is it
// said to suit.
func (p *Pair) Sound() bool {
	s := p.Standing()
	return s.Sound()
}

// Study is every spring against every train, and the choice.
type Study struct {
	Title    string          // of the bench book
	Scenario bool            // there is one
	Needs    []Need          // of the trains, in the order of the scenario; of the bench book without one
	Refused  []error         // why trains of the scenario are left out
	Springs  []string        // labels, in the order of the bench book
	Found    []*found.Spring // what the readings tell of each set of them; nil without a scenario
	Pairs    []Pair          // those of the first spring with every train, then of the second
	Best     []int           // places in Pairs, in the order of Needs: none that binds, or could not be judged
	Second   []int           // the best of the others; nil when there is none
	Sure     float64         // share of the draws in which Best is the best; NaN when none were made
	Settles  Reading         // what would make surer

	home bool // only pairs of a spring with the train it was read in are judged
}

// PairsOf are the pairs of a choice, Best or Second.
func (st *Study) PairsOf(choice []int) []Pair {
	list := make([]Pair, len(choice))
	for i, at := range choice {
		list[i] = st.Pairs[at]
	}
	return list
}

// Bare are the needs of the trains that a choice, Best or Second, has no spring for.
func (st *Study) Bare(choice []int) []Need {
	var list []Need
	for i := range st.Needs {
		if !slices.ContainsFunc(choice, func(at int) bool { return at%len(st.Needs) == i }) {
			list = append(list, st.Needs[i])
		}
	}
	return list
}

// Errors of Of.
var (
	ErrNoTorque = errors.New("no torque was read: want tables [[torque]] with the readings of the springs")
	ErrNoNeed   = errors.New("no need is known: want tables [[weights]], or a scenario whose trains have one")
	ErrMany     = fmt.Errorf("want at most %d springs or at most %d trains", Most, Most)
	ErrUnknown  = errors.New("nothing tells what it needs: want weights, a need, or the work of its escapement or strike")
)

// Of finds the choice from a bench file and the clock that it was put into, nil without a
// scenario. It fails
// with ErrNoTorque, ErrNoNeed, ErrMany, and the error of ctx.
//
// A train is judged as in a run, with what weights tell in place of the scenario's. The
// choice is that with the fewest pairs that bind or cannot be judged, then of the worst
// verdict, then of the next; among these with the fewest that have faults; and among these
// the one whose mean torques together lie nearest to the middle of what suits.
func Of(ctx context.Context, b *book.Book, clock *found.Clock) (*Study, error) {
	return of(ctx, b, clock, false)
}

// of is Of; where it is for springs in the trains they were read in alone, nothing else is
// judged.
func of(ctx context.Context, b *book.Book, clock *found.Clock, home bool) (*Study, error) {
	st := &Study{Title: b.Title, Scenario: clock != nil, Sure: math.NaN(), home: home}
	if len(b.Torques) == 0 {
		return nil, ErrNoTorque
	}
	for i := range b.Torques {
		if label := b.Torques[i].Spring; !slices.Contains(st.Springs, label) {
			st.Springs = append(st.Springs, label)
		}
	}
	if clock == nil {
		st.weighed(b)
	} else {
		st.Found = clock.Springs
		st.needs(clock)
	}
	switch {
	case len(st.Needs) == 0:
		return nil, ErrNoNeed
	case min(len(st.Springs), len(st.Needs)) > Most:
		return nil, fmt.Errorf("%d springs, %d trains: %w", len(st.Springs), len(st.Needs), ErrMany)
	}
	st.Pairs = make([]Pair, len(st.Springs)*len(st.Needs))
	if clock == nil {
		st.asRead(readings.Of(b, nil))
	} else if err := st.pairs(ctx, clock); err != nil {
		return nil, err
	}
	if !home {
		st.choose()
	}
	return st, nil
}

// Stored is the energy (J) in the strongest of the springs, in any of the trains;
// NaN when it is not known.
func (st *Study) Stored() float64 {
	most := math.NaN()
	for i := range st.Pairs {
		if e := st.Pairs[i].Spring.Stored; e > most || math.IsNaN(most) { // that of a pair may not be known
			most = e
		}
	}
	return most
}

// pairs judges every spring in every train, the trains on all cores.
func (st *Study) pairs(ctx context.Context, clock *found.Clock) error {
	group, ctx := errgroup.WithContext(ctx)
	group.SetLimit(runtime.GOMAXPROCS(0))
	for k := range st.Needs {
		group.Go(func() error {
			n := &st.Needs[k]
			for i, label := range st.Springs {
				sp := clock.Find(label, n.Train)
				p := &st.Pairs[i*len(st.Needs)+k]
				*p = Pair{Label: label, Train: n.Train, ReadIn: sp.Train}
				if st.home && sp.Train != n.Train {
					continue
				}
				if p.Why = p.fill(ctx, clock, sp, n); vary.Stopped(p.Why) {
					return p.Why
				} else if p.Why != nil {
					p.Digest = sim.Unknown()
					p.Name, p.Need, p.Standard, p.Advice = n.Train, n.Need, n.Standard, n.advice
				}
				p.Off = n.off(p.Torque.Mean)
			}
			return nil
		})
	}
	return group.Wait()
}

// fill runs the train with the spring.
func (p *Pair) fill(ctx context.Context, clock *found.Clock, sp *found.Spring, n *Need) error {
	in, err := clock.In(ctx, sp, n.Number)
	if err != nil {
		return err
	}
	d, err := sim.RunTrain(in.Scenario, n.Number, sim.Options{})
	if err != nil {
		return err
	}
	p.Digest, p.Whole, p.in = d.Digest, true, in
	p.Risky = d.Left() < rules.SpareOfCounted || mayBind(in.Scenario, n.Number)
	return nil
}

// surely is how many standard deviations of its turns are left to a spring as room.
const surely = 3

// mayBind tells whether the spring of a train would bind, had it as few turns as it may.
func mayBind(s *scenario.Scenario, number int) bool {
	t := &s.Trains[number]
	key := t.Name + ".mainspring.packing"
	i := slices.IndexFunc(s.Tolerances, func(t scenario.Tolerance) bool { return t.Key == key })
	if i < 0 {
		return false
	}
	loose := s.Clone()
	m := &loose.Trains[number].Mainspring
	m.Packing += surely / 2.0 * s.Tolerances[i].PlusMinus // which is two of them
	d, err := sim.RunTrain(loose, number, sim.Options{TorqueOnly: true})
	return err != nil || d.TurnsLost > 0
}
