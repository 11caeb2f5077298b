// Package sure tells how sure a verdict is. No input is known exactly: each is drawn within
// its tolerance or, where none is given, its usual reading error, again and again, and the
// train is judged each time. What was observed is kept and what it tells is inferred anew: a
// misread thickness changes the steel that free coils tell of.
//
// The sureness is the share of the draws that end in the verdict, a pure number from 0 to 1;
// one that cannot be built counts against it. With the usual 2000 draws it is known to 0.011,
// one standard deviation, or better. What decides is the input whose exact knowledge would
// raise the sureness most, found without further runs from how the logarithm of each torque
// over its limit follows the inputs. The same seed gives the same figures on any number of
// cores. How far inputs may be off by default is common practice without a source.
package sure

import (
	"context"
	"slices"
	"strings"
	"sync/atomic"

	"evenpull/fusee"
	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"

	"golang.org/x/sync/errgroup"
)

// Draws is the number of draws where no other is asked for.
const Draws = 2000

// Options of the draws.
type Options struct {
	Draws int   // none: Draws
	Seed  int64 // of the draws
	Brief bool  // what decides is not asked
	// Anew is a spring set up anew, by whole clicks: good to a quarter of a click, where
	// one as it was found is good to one.
	Anew  bool
	Steel Steel
	Cone  *fusee.Cone // that is cut in place of the scenario's, to its own diameters; nil: none
	// Seen is told of every draw, counted from 0: the drive alone, or nil where it cannot be
	// built, which holds during the call. Blocks of vary.BlockRuns come from goroutines of their
	// own, a block in order.
	Seen func(draw int, r *sim.Result)
}

// Steel tells whose flow stress the scenario has.
type Steel uint8

const (
	AsRead   Steel = iota // as the scenario says
	Stated                // of a spring to be bought, by its dealer
	Unstated              // of a spring to be bought whose steel is not known
	Known                 // taken as exact
)

// Of tells how sure the verdict is on the train with the given number. The zero Sureness
// comes back where the train is not judged. It fails when the scenario as it is cannot be
// run, and with the error of ctx.
func Of(ctx context.Context, s *scenario.Scenario, number int, o Options) (sim.Sureness, error) {
	st, err := begin(s, number, o)
	if err != nil || st.own.Verdict.Code == rules.Unjudged {
		return sim.Sureness{}, err
	}
	if err := st.draw(ctx); err != nil {
		return sim.Sureness{}, err
	}
	var counts sim.Verdicts
	for _, c := range st.codes {
		if c != notBuilt {
			counts[c]++
		}
	}
	r := counts.Sureness(st.own.Verdict.Code, st.runs)
	if o.Brief {
		return r, nil
	}
	r.Assumed = st.assumed()
	if r.Same < sim.SureEnough {
		if r.Decides, err = st.decides(ctx, r.Same); err != nil {
			return sim.Sureness{}, err
		}
	}
	return r, nil
}

// study is the draws for one train.
type study struct {
	inputs []vary.Input
	own    *sim.Digest
	runs   int
	parts  int            // of all inputs
	places []float64      // of the parts of the first draw, then of the second
	codes  []rules.Code   // of the draws; notBuilt for one that cannot be built
	logs   [][4]float64   // of the draws: see logs
	tried  []*vary.Drawer // one for each core
	seen   func(draw int, r *sim.Result)
}

const notBuilt = rules.Overdriven + 1

func begin(s *scenario.Scenario, number int, o Options) (*study, error) {
	inputs, err := vary.Inputs(s, number)
	if err != nil {
		return nil, err
	}
	inputs = o.apply(inputs, s.Trains[number].Name)
	m, err := vary.Draws(s, number, vary.Length, o.Cone, inputs)
	if err != nil {
		return nil, err
	}
	st := &study{inputs: inputs, runs: o.Draws, parts: len(m.Keys()), seen: o.Seen}
	if st.runs == 0 {
		st.runs = Draws
	}
	_, st.own = m.Own()
	m.DriveOnly()
	if st.tried, err = vary.Drawers(m, inputs, o.Seed, st.runs); err != nil {
		return nil, err
	}
	st.places, st.codes, st.logs = make([]float64, st.runs*st.parts), make([]rules.Code, st.runs), make([][4]float64, st.runs)
	return st, nil
}

// apply makes the errors of a train those of what is asked for.
func (o *Options) apply(inputs []vary.Input, train string) []vary.Input {
	for i := range inputs {
		in := &inputs[i]
		e := &in.Parts[0].Error
		switch {
		case in.Tolerated:
		case o.Anew && in.Key == train+".barrel.set_up_turns":
			e.PlusMinus /= 4
		case (o.Steel == Stated || o.Steel == Unstated) && in.Key == train+".mainspring.yield_mpa":
			told := o.Steel == Stated
			*e, in.Assumed = scenario.FlowStressError(told), !told
		}
	}
	return slices.DeleteFunc(inputs, func(in vary.Input) bool {
		return o.Cone != nil && strings.HasPrefix(in.Key, train+".fusee.") || o.Steel == Known && in.Key == train+".mainspring.yield_mpa"
	})
}

// each calls do for the draws of every block, the blocks shared among the drawers.
func (st *study) each(ctx context.Context, do func(d *vary.Drawer, block, from, to int)) error {
	var next atomic.Int64
	group, ctx := errgroup.WithContext(ctx)
	for _, d := range st.tried {
		group.Go(func() error {
			for ctx.Err() == nil {
				block := int(next.Add(1)) - 1
				from := block * vary.BlockRuns
				if from >= st.runs {
					break
				}
				do(d, block, from, min(from+vary.BlockRuns, st.runs))
			}
			return ctx.Err()
		})
	}
	return group.Wait()
}

// draw draws the inputs and judges the train with each draw.
func (st *study) draw(ctx context.Context) error {
	return st.each(ctx, func(d *vary.Drawer, block, from, to int) {
		d.Begin(block)
		for i := from; i < to; i++ {
			copy(st.at(i), d.Draw())
			r, err := d.Run(st.at(i), nil)
			if err != nil {
				r = nil
			}
			st.codes[i], st.logs[i] = judgement(r)
			if st.seen != nil {
				st.seen(i, r)
			}
		}
	})
}

// at are the places of a draw.
func (st *study) at(draw int) []float64 { return st.places[draw*st.parts : (draw+1)*st.parts] }

func judged(d *vary.Drawer, places, scale []float64) (rules.Code, [4]float64) {
	r, err := d.Run(places, scale)
	if err != nil {
		r = nil
	}
	return judgement(r)
}

// judgement is that of a run; nil for one that cannot be built.
func judgement(r *sim.Result) (rules.Code, [4]float64) {
	if r == nil {
		return notBuilt, [4]float64{}
	}
	return r.Verdict.Code, logs(&r.Digest)
}
