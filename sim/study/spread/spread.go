// Package spread tells what the tolerances of a scenario do to its results, by
// drawing every toleranced quantity at random, over and over.
//
// The runs are drawn in blocks of a fixed size, each from a random stream of its
// own that depends on the seed and the block's number alone (ChaCha8, a counter
// mode cipher). The results are gathered in the order of the runs. So the same
// seed gives the same figures whatever the number of cores, and a study that is
// stopped early gives those of a shorter one.
package spread

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"
)

// MaxRuns is the greatest number of runs of a study.
const MaxRuns = 1_000_000_000

// Options of a study.
type Options struct {
	Runs int // 1 to MaxRuns
	Seed int64
	Of   []outcome.Figure // the first is the one that the inputs' shares are told of; none: the main ones that apply
	Hold vary.Hold
	// Progress, or nil, is told from time to time how many runs are done.
	Progress func(done int)
}

// Input is a toleranced quantity.
type Input struct {
	Quantity  scenario.Quantity
	Value     float64
	PlusMinus float64 // in its unit
	Shape     string  // scenario.Normal or Uniform
	// Share is the share that this input alone has in the variance of the first
	// result, by its slope: the delta method, good for small tolerances.
	Share float64
}

// SD is the standard deviation of the input: half the tolerance of a normal one,
// 1/√3 of a uniform one.
func (in *Input) SD() float64 {
	if in.Shape == scenario.Uniform {
		return in.PlusMinus / math.Sqrt(3)
	}
	return in.PlusMinus / 2
}

// varied are the inputs as they are drawn. Where a tolerance lets a value leave its range
// the run cannot be built, and is counted so.
func varied(inputs []Input) []vary.Input {
	list := make([]vary.Input, len(inputs))
	for i, in := range inputs {
		e := scenario.ReadingError{PlusMinus: in.PlusMinus, Uniform: in.Shape == scenario.Uniform}
		list[i] = vary.Input{Key: in.Quantity.Key, Parts: []vary.Part{{Quantity: in.Quantity, Value: in.Value, Error: e}}}
	}
	return list
}

// Failure is a reason why trains could not be built, and how many.
type Failure struct {
	Key  string // at fault
	Why  string // of the first of them
	Runs int
}

// Study is the runs carried out.
type Study struct {
	Own      sim.Digest // the scenario as it is
	Inputs   []Input
	Hold     vary.Hold
	Seed     int64
	Asked    int
	Runs     int // carried out, fewer than Asked when it was stopped
	Failed   int // that could not be built; they are in none of the results
	Failures []Failure
	Verdicts map[rules.Code]int // of those built
	Results  []Distribution
	DeltaSD  float64 // standard deviation of the first result by the delta method
}

// Built is the number of runs that could be built.
func (st *Study) Built() int { return st.Runs - st.Failed }

// Share is the share of the runs that could be built which have a verdict; NaN when
// none could be built.
func (st *Study) Share(c rules.Code) float64 { return float64(st.Verdicts[c]) / float64(st.Built()) }

// Stopped tells whether the study ended before all runs were done.
func (st *Study) Stopped() bool { return st.Runs < st.Asked }

// Errors of Run.
var (
	ErrNoTolerance = errors.New("no tolerance of the scenario concerns the train")
	ErrRuns        = fmt.Errorf("want 1 to %d runs", MaxRuns)
)

// Run draws the tolerances that concern the train with the given number. When
// ctx ends it stops and gives what it has; it fails with the error of ctx only
// when that is nothing. It fails also with ErrRuns, ErrNoTolerance, and when the
// scenario as it is cannot be run.
func Run(ctx context.Context, s *scenario.Scenario, number int, o Options) (*Study, error) {
	if o.Runs < 1 || o.Runs > MaxRuns {
		return nil, fmt.Errorf("%d runs: %w", o.Runs, ErrRuns)
	}
	st := &Study{Hold: o.Hold, Seed: o.Seed, Asked: o.Runs, Verdicts: map[rules.Code]int{}}
	if err := st.inputs(s, number); err != nil {
		return nil, err
	}
	keys := make([]string, len(st.Inputs))
	for i := range keys {
		keys[i] = st.Inputs[i].Quantity.Key
	}
	m, err := vary.New(s, number, o.Hold, keys...)
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
		st.Results = append(st.Results, Distribution{Of: f, Own: f.Of(own), tally: newTally()})
	}
	st.shares(m, o.Of)
	return st, st.draw(ctx, m, o)
}

// inputs gathers the tolerances that concern the train.
func (st *Study) inputs(s *scenario.Scenario, number int) error {
	for i := range s.Tolerances {
		t := &s.Tolerances[i]
		if !vary.Concerns(s, number, t.Key) {
			continue
		}
		q, err := s.Quantity(t.Key)
		if err != nil {
			continue // another way of saying it has taken its place, and its tolerance is not used
		}
		v, err := s.Value(t.Key)
		if err != nil {
			return err
		}
		st.Inputs = append(st.Inputs, Input{Quantity: q, Value: *v, PlusMinus: t.Of(*v), Shape: t.Shape})
	}
	if len(st.Inputs) == 0 {
		return fmt.Errorf("%w %s", ErrNoTolerance, s.Trains[number].Name)
	}
	return nil
}

// shares works out the delta method for the first result.
func (st *Study) shares(m *vary.Model, of []outcome.Figure) {
	if len(of) == 0 {
		return
	}
	sum := 0.0
	for i := range st.Inputs {
		in := &st.Inputs[i]
		slope := m.Slopes(i, in.PlusMinus, of[:1])[0].Value
		in.Share = slope * slope * in.SD() * in.SD()
		sum += in.Share
	}
	st.DeltaSD = math.Sqrt(sum)
	for i := range st.Inputs {
		st.Inputs[i].Share /= sum // NaN where nothing moves the result
	}
}

// finish orders the failures, the most frequent first.
func (st *Study) finish() {
	slices.SortStableFunc(st.Failures, func(a, b Failure) int { return cmp.Compare(b.Runs, a.Runs) })
	for i := range st.Results {
		st.Results[i].close()
	}
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
