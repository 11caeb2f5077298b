// Package assign tells which of several springs in their barrels belongs to which
// train, from torques and weights measured at the bench.
package assign

import (
	"errors"
	"fmt"
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"evenpull/sim/bench/book"
	"evenpull/sim/bench/measure"
	"evenpull/sim/bench/readings"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"

	"github.com/golang/geo/r1"
)

// Most is the greatest number of springs, or of trains, of which the fewer are.
const Most = 12

// Need is what a train wants at its winding square.
type Need struct {
	Train    string
	Least    float64     // N·m
	Between  r1.Interval // N·m, what is sure of Least
	Liked    r1.Interval // N·m, the torques that strike as fast as wanted; empty where only Least counts
	Weighed  bool        // from weights; else from the scenario
	Striking bool
}

// Pair is one spring in one train.
type Pair struct {
	Spring, Train string
	ReadIn        string // the train it was read in
	Carried       bool   // carried over to the train's own fusee by the scenario
	Mean, Min     float64
	ReserveMean   float64
	ReserveMin    float64
	Unevenness    float64
	TurnsLost     float64 // fusee turns
	Verdict       rules.Code
	Sure          bool    // the verdict holds over the 95 % interval of the torque and what is known of the need
	Off           float64 // mean torque over the middle of what suits, less 1
	Why           string  // why it could not be carried over; the readings then stand as they are
}

// Choice is a spring for a train.
type Choice struct{ Spring, Train string }

// Study is every spring against every train, and the choice.
type Study struct {
	Title    string
	Needs    []Need
	Springs  []string
	Pairs    []Pair // those of the first spring with every train, then of the second
	Best     []Choice
	Next     []Choice // the best of the others; nil when there is none
	NearTie  bool     // Next has the same verdicts and is hardly further off
	Unsure   bool     // a verdict of the best choice is not sure
	Bands    rules.Bands
	Caution  string
	scenario bool
}

// Errors of Of.
var (
	ErrNoTorque = errors.New("no torque was read: want tables [[torque]] with the readings of the springs")
	ErrNoNeed   = errors.New("no need is known: want tables [[weights]], or a scenario whose trains have one")
	ErrMany     = fmt.Errorf("want at most %d springs or at most %d trains", Most, Most)
)

// Of finds the choice from a bench file and a scenario, which may be nil.
//
// The verdicts are those of the scenario's bands. The choice is that with the
// fewest trains that stop; among these with the fewest that are overdriven, thin,
// strong, in this order; and among these the one whose mean torques together lie
// nearest to the middle of what suits.
func Of(b *book.Book, s *scenario.Scenario) (*Study, error) {
	st := &Study{Title: b.Title, Bands: rules.DefaultBands(), scenario: s != nil}
	gravity := readings.StandardGravity
	if s != nil {
		gravity = s.Place.GravityMS2
		st.Bands = rules.Bands{Stops: s.Verdict.StopsBelow, Thin: s.Verdict.ThinBelow, Suits: s.Verdict.SuitsUpTo, Strong: s.Verdict.StrongUpTo}
	}
	rec := measure.Of(b, gravity)
	if len(rec.Supplies) == 0 {
		return nil, ErrNoTorque
	}
	st.needs(rec.Needs, s)
	if len(st.Needs) == 0 {
		return nil, ErrNoNeed
	}
	all := readings.Of(b, nil) // beside no prediction
	st.Caution = all.Caution
	for i := range all.Springs {
		if label := all.Springs[i].Spring; !slices.Contains(st.Springs, label) {
			st.Springs = append(st.Springs, label)
		}
	}
	if min(len(st.Springs), len(st.Needs)) > Most {
		return nil, fmt.Errorf("%d springs, %d trains: %w", len(st.Springs), len(st.Needs), ErrMany)
	}
	st.pairs(all, s)
	st.choose()
	return st, nil
}

// pairs judges every spring in every train, on all cores: each pair stands by
// itself.
func (st *Study) pairs(all *readings.Study, s *scenario.Scenario) {
	st.Pairs = make([]Pair, len(st.Springs)*len(st.Needs))
	var carrier *readings.Carrier
	if s != nil {
		carrier = readings.NewCarrier(s)
	}
	var next atomic.Int64
	var group sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		group.Go(func() {
			for at := int(next.Add(1)) - 1; at < len(st.Pairs); at = int(next.Add(1)) - 1 {
				st.Pairs[at] = st.pair(all, st.Springs[at/len(st.Needs)], &st.Needs[at%len(st.Needs)], carrier)
			}
		})
	}
	group.Wait()
}

// pair judges a spring in a train.
func (st *Study) pair(all *readings.Study, label string, n *Need, carrier *readings.Carrier) Pair {
	p := Pair{Spring: label, Train: n.Train}
	sp := all.Find(label, n.Train)
	direct := sp != nil
	for i := range all.Springs {
		if sp == nil && all.Springs[i].Spring == label {
			sp = &all.Springs[i]
		}
	}
	p.ReadIn, p.Mean, p.Unevenness, p.Min = sp.Train, sp.Mean.Value, sp.Unevenness, math.Inf(1)
	for i := range sp.Turns {
		p.Min = min(p.Min, sp.Turns[i].Mean)
	}
	if !direct && carrier != nil {
		p.carry(sp, carrier)
	}
	share := sp.Mean.HalfWidth / sp.Mean.Value
	st.judge(&p, n, share)
	return p
}

// carry carries the readings over to the train's own fusee.
func (p *Pair) carry(sp *readings.Spring, carrier *readings.Carrier) {
	to := carrier.Number(p.Train)
	if to < 0 {
		p.Why = "the scenario has no train " + p.Train
		return
	}
	c, err := carrier.Carry(*sp, to)
	if err != nil {
		p.Why = err.Error()
		return
	}
	p.Carried, p.Mean, p.Min, p.Unevenness, p.TurnsLost = true, c.Mean, c.Min, c.Unevenness, c.TurnsLost
}

// judge fills in the verdict; share is half the 95 % interval of the torque.
func (st *Study) judge(p *Pair, n *Need, share float64) {
	p.ReserveMean, p.ReserveMin = p.Mean/n.Least, p.Min/n.Least
	code := func(torque, need float64) rules.Code {
		if n.Liked.IsEmpty() {
			return st.Bands.OfReserve(p.Min*torque/need, p.Mean*torque/need)
		}
		return st.Bands.OfBand(p.Min*torque, p.Mean*torque, need, n.Liked)
	}
	p.Verdict, p.Sure = code(1, n.Least), !math.IsNaN(share)
	for _, torque := range []float64{1 - share, 1 + share} {
		for _, need := range []float64{n.Between.Lo, n.Between.Hi} {
			if need > 0 && !math.IsInf(need, 1) && code(torque, need) != p.Verdict {
				p.Sure = false
			}
		}
	}
	middle := n.Least * (st.Bands.Thin + st.Bands.Suits) / 2
	if !n.Liked.IsEmpty() {
		middle = n.Liked.Center()
	}
	p.Off = p.Mean/middle - 1
}
