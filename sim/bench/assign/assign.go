// Package assign tells which of several springs in their barrels belongs to which
// train, from torques and weights measured at the bench. A spring in a train is
// judged as a run of that train is.
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
	"evenpull/sim/bench/readings"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"

	"golang.org/x/sync/errgroup"
)

// Most is the greatest number of springs, or of trains, of which the fewer are.
const Most = 12

// Pair is one spring in one train.
type Pair struct {
	// Digest is the run of the train with the spring. Where it is not whole, the
	// readings stand as they are: only torque, need and verdict are known.
	sim.Digest
	Label  string // of the spring
	Train  string
	ReadIn string  // the train it was read in
	Whole  bool    // the scenario has the train, and the spring was carried over into it
	Share  float64 // half the 95 % interval of the torque over its mean; NaN when nothing tells it
	Off    float64 // mean torque over the middle of what suits, less 1
	Chosen bool    // in the best choice
	Why    error   // why the digest is not whole; nil without a scenario
}

// Carried tells whether the readings were carried over from another train.
func (p *Pair) Carried() bool { return p.Whole && p.ReadIn != p.Train }

// Sound tells whether the spring suits the train without a fault: only then is it
// said to suit.
func (p *Pair) Sound() bool {
	s := p.Standing()
	return s.Sound()
}

// Study is every spring against every train, and the choice.
type Study struct {
	Title    string
	Scenario bool // there is one
	Needs    []Need
	Refused  []error // why trains of the scenario that no weight was hung from are left out
	Springs  []string
	Pairs    []Pair  // those of the first spring with every train, then of the second
	Best     []int   // places in Pairs, in the order of Needs
	Second   []int   // the best of the others; nil when there is none
	NearTie  bool    // Second has the same verdicts and is hardly further off
	Sure     float64 // share of the draws in which Best is the best; NaN when none were made
}

// PairsOf are the pairs of a choice, Best or Second.
func (st *Study) PairsOf(choice []int) []Pair {
	list := make([]Pair, len(choice))
	for i, at := range choice {
		list[i] = st.Pairs[at]
	}
	return list
}

// Errors of Of.
var (
	ErrNoTorque = errors.New("no torque was read: want tables [[torque]] with the readings of the springs")
	ErrNoNeed   = errors.New("no need is known: want tables [[weights]], or a scenario whose trains have one")
	ErrMany     = fmt.Errorf("want at most %d springs or at most %d trains", Most, Most)
)

// Of finds the choice from a bench file and a scenario, which may be nil. It fails
// with ErrNoTorque, ErrNoNeed, ErrMany, and the error of ctx.
//
// A train is judged as in a run, with the need that weights tell in place of the
// scenario's. The choice is that with the fewest pairs of the worst verdict, then of
// the next; among these with the fewest that have faults, or too few turns to spare;
// and among these the one whose mean torques together lie nearest to the middle of
// what suits.
func Of(ctx context.Context, b *book.Book, s *scenario.Scenario) (*Study, error) {
	st := &Study{Title: b.Title, Scenario: s != nil}
	if len(b.Torques) == 0 {
		return nil, ErrNoTorque
	}
	s = st.needs(b, s)
	if len(st.Needs) == 0 {
		return nil, ErrNoNeed
	}
	read := readings.Of(b.Resolved(s), nil) // beside no prediction
	for i := range read.Springs {
		if label := read.Springs[i].Spring; !slices.Contains(st.Springs, label) {
			st.Springs = append(st.Springs, label)
		}
	}
	if min(len(st.Springs), len(st.Needs)) > Most {
		return nil, fmt.Errorf("%d springs, %d trains: %w", len(st.Springs), len(st.Needs), ErrMany)
	}
	if err := st.pairs(ctx, read, s); err != nil {
		return nil, err
	}
	st.choose()
	st.Sure = math.NaN()
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
func (st *Study) pairs(ctx context.Context, read *readings.Study, s *scenario.Scenario) error {
	st.Pairs = make([]Pair, len(st.Springs)*len(st.Needs))
	var carrier *readings.Carrier
	if s != nil {
		carrier = readings.NewCarrier(s)
	}
	group, ctx := errgroup.WithContext(ctx)
	group.SetLimit(runtime.GOMAXPROCS(0))
	for k := range st.Needs {
		group.Go(func() error {
			n := &st.Needs[k]
			var to *readings.Target // nil where the scenario cannot run the train
			if carrier != nil && n.Why == nil {
				to = carrier.To(n.Number)
			}
			for i, label := range st.Springs {
				sp := spring(read, label, n.Train)
				p := &st.Pairs[i*len(st.Needs)+k]
				*p = Pair{Label: label, Train: n.Train, ReadIn: sp.Train, Why: n.Why}
				if err := p.fill(ctx, sp, n, to); err != nil {
					return err
				}
				p.Share = sp.Mean.HalfWidth / sp.Mean.Value
				p.JudgeBy(n.Standard)
				p.Off = n.off(p.Torque.Mean)
			}
			return nil
		})
	}
	return group.Wait()
}

// spring is the readings of a label in a train, or else those first made of it.
func spring(read *readings.Study, label, train string) *readings.Spring {
	if sp := read.Find(label, train); sp != nil {
		return sp
	}
	return &read.Springs[slices.IndexFunc(read.Springs, func(s readings.Spring) bool { return s.Spring == label })]
}

// fill sets what the spring gives in the train. It fails with the error of ctx only.
func (p *Pair) fill(ctx context.Context, sp *readings.Spring, n *Need, to *readings.Target) error {
	if to != nil {
		d, err := to.Carry(ctx, *sp)
		if ended := ctx.Err(); ended != nil {
			return ended
		}
		if err == nil {
			p.Digest, p.Whole = *d, true
			return nil
		}
		p.Why = err
	}
	p.Digest = sim.Unknown()
	p.Name, p.Need, p.Wanted, p.Advice = n.Train, n.Need, n.Wanted, rules.DefaultAdvice()
	p.Torque = sim.Summary{Mean: sp.Mean.Value, Min: sp.Min, Max: sp.Max, Unevenness: sp.Unevenness, MinAt: math.NaN(), MaxAt: math.NaN(), CV: math.NaN()}
	for i := len(sp.Turns) - 1; i >= 0; i-- {
		t := &sp.Turns[i]
		if t.Mean == sp.Min {
			p.Torque.MinAt = float64(t.FuseeTurn)
		}
		if t.Mean < n.Standard.Limits()[0] {
			p.StopsAt = float64(t.FuseeTurn)
		}
	}
	if len(sp.Turns) > 0 && sp.Turns[0].FuseeTurn == 0 { // read fully wound
		p.TurnsLost = 0
	}
	return nil
}
