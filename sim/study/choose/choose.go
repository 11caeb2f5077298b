// Package choose finds which of the springs that can be had goes best into a
// train, and which one ought to be ordered.
//
// Each candidate is fitted as it would be at the bench: spacers beside it that
// leave the end shake, cut to the length and set up by the turns that make the run
// most even, with the set that its own steel takes. Then the train is run down
// with it and judged as any other.
package choose

import (
	"context"
	"errors"
	"fmt"
	"math"
	"runtime"
	"sync"
	"sync/atomic"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/show/words"
	"evenpull/sim/stock"
	"evenpull/sim/vary"
)

// DefaultReserve is the mean reserve to aim at when none is asked for: within what
// suits, with room on both sides (common practice, no source).
const DefaultReserve = 1.3

// MaxReserve is the greatest mean reserve that can be asked for.
const MaxReserve = 100

// Options of a choice.
type Options struct {
	// Reserve is the mean torque to aim at over the least needed, above 0 and up to
	// MaxReserve. NaN stands for the middle of the torques liked where a striking train
	// is judged by these, else for DefaultReserve.
	Reserve float64
	// EndShake (mm) takes the place of that of the stock list; NaN leaves it.
	EndShake float64
	// Progress, or nil, is told how many springs are done, one call at a time.
	Progress func(done int)
}

// Candidate is a spring of the stock in the train.
type Candidate struct {
	stock.Spring
	Rank    int     // from 1
	Refused string  // why it cannot be fitted, "" when it can
	Miss    float64 // by how much it cannot, as a share of what it would have to be
	Fitted  bool    // the figures below apply; also of some that are refused

	Spacers    float64 // mm, beside the spring in all
	CutTo      float64 // mm
	SetUp      float64 // turns
	Verdict    rules.Code
	Reasons    []string
	Faults     []string
	Mean       float64 // N·m at the fusee
	Least      float64
	Reserve    sim.Spread
	Unevenness float64
	Available  float64 // turns of the spring
	Left       float64 // of them, when the fusee is fully wound
	Lost       float64 // fusee turns that the binding spring does not let be wound
	Stored     float64 // J
	Loses      string  // the first reason why it stands behind the best; "" for that one

	place int // in the list
}

// Study is a choice carried out.
type Study struct {
	Train      *sim.Train // as the scenario has it, its cone cut
	Stock      *stock.Stock
	Asked      int // springs in the list; more than the candidates when it was stopped
	EndShake   float64
	Target     Target
	Present    Present
	Candidates []Candidate // the best first
	Tolerance  Tolerance   // of the best, as it is fitted
	Ideals     []Ideal     // for the full width of the barrel, then for narrower ones
	Notes      []string    // what to mind of what was asked for
	Cautions   []string

	shop shop
}

// Stopped tells whether the study ended before all springs were done.
func (st *Study) Stopped() bool { return len(st.Candidates) < st.Asked }

// Errors of Run beside those of a run-down.
var (
	ErrNoNeed  = errors.New("there is nothing to choose by: no need is known; give demand.least_torque_nm, the least torque at the fusee arbor on which the train runs, found with weights on a pulley at the winding square; or, of a striking train, demand.torque_band_nm, the torques at which it strikes as liked")
	ErrReserve = fmt.Errorf("want a reserve above 0 and up to %d", MaxReserve)
	ErrShake   = errors.New("want an end shake from 0 to 20 mm")
	ErrEmpty   = errors.New("the stock list has no spring")
)

// Run tries every spring of the stock in the train with the given number. When ctx
// ends it stops and gives the springs that are done; it fails with the error of ctx
// only when that is none. It fails also with ErrNoNeed, ErrReserve, ErrShake,
// ErrEmpty, and when the scenario as it is cannot be run.
func Run(ctx context.Context, s *scenario.Scenario, number int, list *stock.Stock, o Options) (*Study, error) {
	st := &Study{Stock: list, Asked: len(list.Springs), EndShake: list.EndShakeMM}
	if !math.IsNaN(o.EndShake) {
		st.EndShake = o.EndShake
	}
	lo, hi := stock.ShakeRange()
	switch {
	case len(list.Springs) == 0:
		return nil, ErrEmpty
	case !(st.EndShake >= lo && st.EndShake <= hi):
		return nil, fmt.Errorf("%s mm: %w", words.Figure(st.EndShake), ErrShake)
	}
	if err := st.prepare(s, number, o); err != nil {
		return nil, err
	}
	if err := st.try(ctx, o.Progress); err != nil {
		return nil, err
	}
	st.rank()
	st.ideals()
	st.cautions()
	return st, nil
}

// ToHave finds the springs to have made, without a stock list: a study without
// candidates. It fails as Run does.
func ToHave(s *scenario.Scenario, number int, o Options) (*Study, error) {
	st := &Study{EndShake: stock.EndShakeMM}
	if !math.IsNaN(o.EndShake) {
		st.EndShake = o.EndShake
	}
	if err := st.prepare(s, number, o); err != nil {
		return nil, err
	}
	st.ideals()
	return st, nil
}

// prepare works out what every spring is tried in, and what is aimed at.
func (st *Study) prepare(s *scenario.Scenario, number int, o Options) error {
	m, err := vary.New(s, number, vary.Fill, s.Trains[number].Name+".mainspring.thickness_mm")
	if err != nil {
		return err
	}
	st.Train, _ = m.Own()
	st.shop = shopOf(st.Train, &s.Trains[number], st.EndShake)
	if err := st.present(m); err != nil {
		return err
	}
	if st.Target, err = targetOf(st.Train, st.Present.Need, o.Reserve); err != nil {
		return err
	}
	st.notes()
	if err := st.noteSetUp(s, number); err != nil {
		return err
	}
	st.Present.exponents(m, &st.shop)
	return nil
}

// try fits the springs on all cores. What becomes of each hangs on nothing but
// itself, so the number of cores changes nothing.
func (st *Study) try(ctx context.Context, progress func(done int)) error {
	springs := st.Stock.Springs
	all, done := make([]Candidate, len(springs)), make([]bool, len(springs))
	var next atomic.Int64
	var group sync.WaitGroup
	var told sync.Mutex
	finished := 0
	for range min(runtime.GOMAXPROCS(0), len(springs)) {
		f := newFitter(st.shop)
		group.Go(func() {
			for ctx.Err() == nil {
				i := int(next.Add(1)) - 1
				if i >= len(springs) {
					return
				}
				all[i] = f.fit(springs[i])
				all[i].place, done[i] = i, true
				if progress != nil {
					told.Lock()
					finished++
					progress(finished)
					told.Unlock()
				}
			}
		})
	}
	group.Wait()
	for i := range all {
		if done[i] {
			st.Candidates = append(st.Candidates, all[i])
		}
	}
	if len(st.Candidates) == 0 {
		return ctx.Err()
	}
	return nil
}
