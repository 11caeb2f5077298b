// Package choose finds which of the springs that can be had goes best into a train, and which
// one ought to be ordered.
//
// Each candidate is fitted as it would be at the bench: spacers beside it that leave the end
// shake, with the set that its own steel takes, set up by the whole clicks that the search for
// a set-up would advise, and cut shorter only where that changes the verdict for the better.
// Then the train is run down with it and judged as any other. A spring whose steel is not
// stated is taken to be of that of the present one.
//
// The best first: the largest share of draws that suit, shares within a figure of package
// rules being equal, then the least change of set-up, then the least unevenness. Draws are
// made of the best MostDrawn alone, and without Options.Sure of none: then verdict and
// evenness decide. A label is believed: whoever orders measures the strip that comes.
package choose

import (
	"context"
	"errors"
	"fmt"
	"math"
	"sync"

	"evenpull/fusee/mainspring"
	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/stock"
	"evenpull/sim/study/setup"
	"evenpull/sim/study/sure"
	"evenpull/sim/vary"
)

// MaxReserve is the greatest mean reserve that can be asked for.
const MaxReserve = 100

// Options of a choice.
type Options struct {
	// Reserve is the mean torque to aim at over the least needed, above 0 and up to
	// MaxReserve. NaN stands for the middle of the torques liked where a striking train
	// is judged by these, else for rules.TargetReserve.
	Reserve float64
	// EndShake (mm) takes the place of that of the stock list; NaN leaves it.
	EndShake float64
	// Sure are the draws that tell how sure a verdict is; nil: none are made.
	Sure *sure.Options
	// Progress, or nil, is told how many springs are done, one call at a time.
	Progress func(done int)
}

// Study is a choice carried out.
type Study struct {
	Stock      *stock.Stock // nil when only springs to have made were asked for
	Asked      int          // springs in the list; more than the candidates when it was stopped
	EndShake   float64      // mm
	Height     float64      // mm, of the barrel inside
	Takes      float64      // turns of the spring that the fusee takes
	Steel      float64      // Pa, from which on a spring sets whose own steel is not known; NaN: never
	ByCoils    bool         // that is inferred from the coils that the present spring shows
	Target     Target
	Lost       bool // the train has no spring: what Present holds stands in for it and is not told
	Present    Present
	SetUp      *setup.Study // of the present spring; nil where there is none, or with any set-up it binds
	First      rules.Step   // what is tried first
	Candidates []Candidate  // the best first
	Changes    []Change     // flow stresses at which the first two change places, rising; none without draws
	Ideals     []Ideal      // as wide as the barrel takes, then narrower

	shop shop
}

// Stopped tells whether the study ended before all springs were done.
func (st *Study) Stopped() bool { return len(st.Candidates) < st.Asked }

// MostStored is the energy (J) in the strongest of the springs, and its label: "" for the
// present one. NaN where nothing is known of any.
func (st *Study) MostStored() (joules float64, label string) {
	if joules = st.Present.Digest.Spring.Stored; st.Lost {
		joules = math.Inf(-1)
	}
	for i := range st.Candidates {
		if c := &st.Candidates[i]; c.Digest.Spring.Stored > joules {
			joules, label = c.Digest.Spring.Stored, c.Label
		}
	}
	if label == "" && st.Lost {
		joules = math.NaN()
	}
	return joules, label
}

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
	if len(list.Springs) == 0 {
		return nil, ErrEmpty
	}
	st := &Study{Stock: list, Asked: len(list.Springs), EndShake: list.EndShakeMM}
	s, err := st.begin(s, number, o)
	if err != nil {
		return nil, err
	}
	m, err := st.prepare(ctx, s, number, o)
	if err != nil {
		return nil, err
	}
	if err := st.try(ctx, m, o.Progress); err != nil {
		return nil, err
	}
	st.rank()
	if err := st.sure(ctx, s, number, o.Sure); err != nil {
		return nil, err
	}
	if err := st.turning(ctx, s, number, o.Sure); err != nil {
		return nil, err
	}
	st.tolerate()
	st.ideals()
	return st, st.drawMade(ctx, s, number, o.Sure, len(st.Ideals))
}

// ToHave finds the springs to have made, without a stock list: a study without
// candidates. How sure it is is told of the first that can be ordered. It fails as Run does.
func ToHave(ctx context.Context, s *scenario.Scenario, number int, o Options) (*Study, error) {
	st := &Study{EndShake: stock.EndShakeMM}
	s, err := st.begin(s, number, o)
	if err != nil {
		return nil, err
	}
	if _, err := st.prepare(ctx, s, number, o); err != nil {
		return nil, err
	}
	st.ideals()
	return st, st.drawMade(ctx, s, number, o.Sure, 1)
}

// begin judges the end shake, and gives the scenario to work with: as it is, or with a spring
// that stands in for one that is broken or lost.
func (st *Study) begin(s *scenario.Scenario, number int, o Options) (*scenario.Scenario, error) {
	if !math.IsNaN(o.EndShake) {
		st.EndShake = o.EndShake
	}
	if lo, hi := stock.ShakeRange(); !(st.EndShake >= lo && st.EndShake <= hi) {
		return nil, fmt.Errorf("%.3g mm: %w", st.EndShake, ErrShake)
	}
	if st.Lost = !s.Trains[number].Mainspring.Present; st.Lost {
		return standIn(s, number, st.EndShake)
	}
	return s, nil
}

// prepare works out what every spring is tried in, what is aimed at, and what is to
// be done with the present spring first.
func (st *Study) prepare(ctx context.Context, s *scenario.Scenario, number int, o Options) (*vary.Model, error) {
	m, err := vary.New(s, number, vary.Fill, s.Trains[number].Name+".mainspring.thickness_mm")
	if err != nil {
		return nil, err
	}
	train, now := m.Own()
	st.Height = s.Trains[number].Barrel.InsideHeightMM
	if st.Target, err = targetOf(now, o.Reserve); err != nil {
		return nil, err
	}
	st.shop = shopOf(s, train, now, st.Height, st.EndShake)
	st.Takes, st.Steel, st.ByCoils = st.shop.takes, math.NaN(), train.ByCoils
	if st.shop.steel.Form == mainspring.Set {
		st.Steel = st.shop.steel.Yield
	}
	if st.Present = presentOf(m, &st.shop); st.Lost {
		st.First = rules.AnotherSpring
		return m, nil
	}
	if st.SetUp, err = setup.Run(ctx, s, number); errors.Is(err, setup.ErrNoRoom) {
		is := now.Standing()
		st.First = now.Advice.First(&is, &is)
		return m, nil
	} else if err != nil {
		return nil, err
	}
	st.First = st.SetUp.First()
	return m, nil
}

// try fits the springs on all cores. What becomes of each depends on nothing but
// itself, so the number of cores changes nothing.
func (st *Study) try(ctx context.Context, m *vary.Model, progress func(done int)) error {
	springs := st.Stock.Springs
	all, done := make([]Candidate, len(springs)), make([]bool, len(springs))
	fitters := sync.Pool{New: func() any { return newFitter(&st.shop) }}
	var told sync.Mutex
	finished := 0
	stopped := m.Each(ctx, len(springs), func(_ *vary.Model, i int) {
		f := fitters.Get().(*fitter)
		all[i] = f.fit(springs[i])
		fitters.Put(f)
		all[i].place, done[i] = i, true
		if progress != nil {
			told.Lock()
			defer told.Unlock()
			finished++
			progress(finished)
		}
	})
	for i := range all {
		if done[i] {
			st.Candidates = append(st.Candidates, all[i])
		}
	}
	if len(st.Candidates) == 0 {
		return stopped
	}
	return nil
}

// Fine runs the train down with a candidate that can be fitted, at steps too fine to
// see.
func (st *Study) Fine(c *Candidate) (*sim.Result, error) {
	f := newFitter(&st.shop)
	f.strip = f.stripOf(&c.Spring)
	f.strip.Length = c.Length() * mm
	return f.run(c.Digest.Spring.SetUp, sim.Options{Step: sim.FineStep(f.train.Drive.Cone.Turns)})
}

// FineNow runs the train down with the present spring and a set-up in turns, at steps too
// fine to see.
func (st *Study) FineNow(setUp float64) (*sim.Result, error) {
	f := newFitter(&st.shop)
	f.strip = f.train.Drive.Spring
	return f.run(setUp, sim.Options{Step: sim.FineStep(f.train.Drive.Cone.Turns)})
}
