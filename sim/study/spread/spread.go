// Package spread tells what the errors of inputs do to the results of a train: it is run down
// with everything that is not known exactly drawn at random, over and over, as it may have
// been misread: what was observed stays, and what it tells is inferred anew. Beside it stand
// the shares that each input has in the variance of the first result.
//
// The runs are drawn in blocks of a fixed size, each from a random stream of its own that
// depends on the seed and the block's number alone (ChaCha8, a counter mode cipher). The
// results are gathered in the order of the runs. So the same seed gives the same figures
// whatever the number of cores, and a study that is stopped early gives those of a shorter
// one.
//
// How far each input may be off and by which law is told by package vary; inputs are drawn
// each on its own. Results are in the unit of their figure. A share p of n runs is known to
// √(p(1−p)/n), one standard deviation. The 95 % range is of what is drawn: what the model
// leaves out is not in it but for what the input couple_ratio stands for.
package spread

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"sync"

	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/study/shares"
	"evenpull/sim/vary"
)

// MaxRuns is the greatest number of runs of a study.
const MaxRuns = 1_000_000_000

// Options of a study.
type Options struct {
	Runs int              // 1 to MaxRuns
	Seed int64            // of the draws
	Of   []outcome.Figure // none: the main ones that apply
	Hold vary.Hold
	// Shares asks for the shares of the inputs in the variance of the first result, which
	// take a hundred thousand runs of their own.
	Shares bool
	// Progress, or nil, is told from time to time how many runs are done.
	Progress func(done int)
}

// Input is something that was drawn, with its shares in the variance of the first result.
type Input struct {
	vary.Input
	Share shares.Input // in the variance of the first result
}

// Failure is a reason why trains could not be built, and how many.
type Failure struct {
	Key  string // at fault
	Why  string // of the first of them
	Runs int    // that could not be built for it
}

// Study is the runs carried out.
type Study struct {
	Own      sim.Digest // the scenario as it is
	Inputs   []Input    // the greatest total-order share first; in the order of the format where there are none
	Hold     vary.Hold
	Seed     int64              // of the draws
	Asked    int                // runs asked for
	Runs     int                // carried out, fewer than Asked when it was stopped
	Failed   int                // that could not be built; they are in none of the results
	Failures []Failure          // the most frequent first
	Verdicts map[rules.Code]int // of those built
	Results  []Distribution     // in the order of Options.Of
	Shares   *shares.Result     // in the variance of the first result; nil where they were not asked for or the study was stopped
}

// Built is the number of runs that could be built.
func (st *Study) Built() int { return st.Runs - st.Failed }

// Share is the share of the runs that could be built which have a verdict; NaN when
// none could be built.
func (st *Study) Share(c rules.Code) float64 { return float64(st.Verdicts[c]) / float64(st.Built()) }

// Stopped tells whether the study ended before all runs were done.
func (st *Study) Stopped() bool { return st.Runs < st.Asked }

// ErrRuns tells of a number of runs that there is not.
var ErrRuns = fmt.Errorf("want 1 to %d runs", MaxRuns)

// Run draws what is not known exactly of the train with the given number. When ctx ends
// it stops and gives what it has; it fails with the error of ctx only when that is
// nothing. It fails also with ErrRuns, and when the scenario as it is cannot be run.
func Run(ctx context.Context, s *scenario.Scenario, number int, o Options) (*Study, error) {
	if o.Runs < 1 || o.Runs > MaxRuns {
		return nil, fmt.Errorf("%d runs: %w", o.Runs, ErrRuns)
	}
	st := &Study{Hold: o.Hold, Seed: o.Seed, Asked: o.Runs, Verdicts: map[rules.Code]int{}}
	inputs, err := vary.Inputs(s, number)
	if err != nil {
		return nil, err
	}
	m, err := vary.Draws(s, number, o.Hold, nil, inputs)
	if err != nil {
		return nil, err
	}
	_, own := m.Own()
	st.Own = *own
	if len(o.Of) == 0 {
		if o.Of, err = st.main(); err != nil {
			return nil, err
		}
	}
	for _, f := range o.Of {
		st.Results = append(st.Results, Distribution{Of: f, Own: f.Of(own), tally: newTally(o.Runs)})
	}
	m.For(o.Of)
	for _, in := range inputs {
		st.Inputs = append(st.Inputs, Input{in, shares.Unknown()})
	}
	if err := st.draw(ctx, m, inputs, o); err != nil || !o.Shares {
		return st, err
	}
	return st, st.share(ctx, m, inputs, o)
}

// share estimates the shares, unless ctx ends.
func (st *Study) share(ctx context.Context, m *vary.Model, inputs []vary.Input, o Options) error {
	first := o.Of[:min(len(o.Of), 1)]
	m.For(first)
	all, err := shares.OfTrain(ctx, m, inputs, first, o.Seed)
	if ctx.Err() != nil || len(all) == 0 {
		return nil
	}
	if err != nil {
		return err
	}
	st.Shares = &all[0]
	for i := range st.Inputs {
		st.Inputs[i].Share = all[0].Inputs[i]
	}
	slices.SortStableFunc(st.Inputs, func(a, b Input) int { return cmp.Compare(b.Share.Total.Value, a.Share.Total.Value) })
	return nil
}

// finish orders the failures, the most frequent first.
func (st *Study) finish() {
	slices.SortStableFunc(st.Failures, func(a, b Failure) int { return cmp.Compare(b.Runs, a.Runs) })
	var group sync.WaitGroup
	for i := range st.Results {
		group.Go(st.Results[i].close)
	}
	group.Wait()
}

// mainResults are the figures looked at first.
var mainResults = [...]string{
	outcome.LeastReserve, outcome.MeanReserve, outcome.MeanTorque, outcome.LeastTorque, outcome.MostTorque, outcome.Unevenness,
	"least_torque_nm.used", "turns_lost", "spring.turns_available", "spring.turns_used", "spring.stored_energy_j",
	"line.max_winding_tension_n", "runtime_h", "amplitude_deg.mean", "amplitude_deg.min", "rate_swing_s_per_day", "wander_s",
	"blow_interval_s.mean", "blow_interval_s.min", "blow_interval_s.max", "strike_twelve_s.mean",
}

// main are the results to gather when none are asked for: those that apply to the
// train as it is.
func (st *Study) main() ([]outcome.Figure, error) {
	all, err := outcome.Several(mainResults[:]...)
	return slices.DeleteFunc(all, func(f outcome.Figure) bool { return math.IsNaN(f.Of(&st.Own)) }), err
}
