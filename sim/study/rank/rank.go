// Package rank tells which inputs of a scenario a result depends on most: each is moved by as
// much as it may be off (nineteen readings in twenty lie within that), and what was observed
// is kept. Beside that stand the shares that they have in the variance of the result, of
// package shares, and the elasticity ∂ ln y/∂ ln x of the result y by the input x, a pure
// number.
//
// An input is moved alone and to both sides, so that what inputs do together is only in the
// shares. Changes are in the unit of the result.
package rank

import (
	"context"
	"errors"
	"math"
	"runtime"
	"slices"

	"golang.org/x/sync/errgroup"

	"evenpull/fusee/numeric"
	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/scenario"
	"evenpull/sim/study/shares"
	"evenpull/sim/vary"
)

// Default are the names of the results that are ranked by when none is asked for.
func Default() []string {
	return []string{outcome.MeanTorque, outcome.Unevenness, outcome.LeastReserve}
}

// DefaultChange is the share of their value by which inputs are moved that are taken as
// exact.
const DefaultChange = 0.01

// Options of a ranking.
type Options struct {
	Of     []outcome.Figure // none: the default ones
	Change float64          // by which every input is moved, as a share of its value; 0: each by its own error, where it has one
	// Shares asks for the shares in the variance, which take a hundred thousand runs; they
	// are those of the errors, and there are none with a Change.
	Shares bool
	Total  bool  // the inputs are put in order by their total-order shares, which are then estimated
	Seed   int64 // of the shares
}

// ErrTotal tells that there are no shares to go by.
var ErrTotal = errors.New("shares in the variance are of the errors of the inputs, and where all are moved alike there are none")

// Moved tells by what an input is moved.
type Moved uint8

const (
	ByTolerance Moved = iota // of the scenario
	ByReading                // its usual reading error
	ByShare                  // a share of its value
)

// Input is what one input does to a result. Changes of the result are in its unit.
type Input struct {
	Quantity    scenario.Quantity
	Value       float64               // in the scenario, in the unit of Quantity
	Elasticity  vary.Slope            // ∂ ln(result)/∂ ln(value); NaN where the result is 0 or cannot be had
	Error       scenario.ReadingError // how far it may be off; see Moved
	Moved       Moved                 // what Error is
	From, To    float64               // between which it is moved, in its unit: within Error and its range
	Minus, Plus float64               // change of the result with the input moved down and up; NaN when it cannot be built
	Share       shares.Input          // in the variance of the result; NaN where it was not asked for or the input is taken as exact
}

// Effect is the greater of the two changes of the result, either way.
func (in *Input) Effect() float64 { return max(size(in.Minus), size(in.Plus)) }

// Ranking is every input by its effect on a result, or by its total-order share, the
// greatest first and those without one last; of equal ones by effect, then by elasticity.
type Ranking struct {
	Of     outcome.Figure // the result
	Value  float64        // of the result in the scenario as it is
	Inputs []Input        // the greatest effect first
	Shares *shares.Result // nil where they were not asked for
}

// Input is that of a key; nil for none.
func (r *Ranking) Input(key string) *Input {
	for i := range r.Inputs {
		if r.Inputs[i].Quantity.Key == key {
			return &r.Inputs[i]
		}
	}
	return nil
}

// Moves tells whether an input has more effect on the result than rounding has.
func (r *Ranking) Moves(in *Input) bool {
	const rounding = 1e-9
	return in.Effect() > rounding*math.Abs(r.Value) || size(in.Elasticity.Value) > rounding
}

// Study is the rankings of a train.
type Study struct {
	Own      sim.Digest // the scenario as it is
	Change   float64    // by which inputs are moved whose own error is not taken
	Alike    bool       // all are moved so
	Total    bool       // the inputs stand in the order of their total-order shares
	Rankings []Ranking  // one for each result asked for
}

// Run ranks the inputs of the train with the given number, and those of the
// whole clock: every real number that the scenario has a value for, given or
// assumed. It fails when the scenario as it is cannot be run, with ErrTotal, and with the
// error of ctx.
func Run(ctx context.Context, s *scenario.Scenario, number int, o Options) (*Study, error) {
	if o.Total && o.Change > 0 {
		return nil, ErrTotal
	}
	if len(o.Of) == 0 {
		var err error
		if o.Of, err = outcome.Several(Default()...); err != nil {
			return nil, err
		}
	}
	st := &Study{Change: o.Change, Alike: o.Change > 0, Total: o.Total, Rankings: make([]Ranking, len(o.Of))}
	if !st.Alike {
		st.Change = DefaultChange
	}
	unsure, err := vary.Inputs(s, number)
	if err != nil {
		return nil, err
	}
	if err := st.inputs(ctx, s, number, unsure, o.Of); err != nil {
		return nil, err
	}
	if (o.Shares || o.Total) && !st.Alike {
		if err := st.shares(ctx, s, number, unsure, o); err != nil {
			return nil, err
		}
	}
	for i := range st.Rankings {
		st.Rankings[i].Of, st.Rankings[i].Value = o.Of[i], o.Of[i].Of(&st.Own)
		numeric.Descending(st.Rankings[i].Inputs, st.keys()...)
	}
	return st, nil
}

// keys are what the inputs are put in order by, one where those before are equal.
func (st *Study) keys() []func(*Input) float64 {
	keys := []func(*Input) float64{(*Input).Effect, func(in *Input) float64 { return size(in.Elasticity.Value) }}
	if st.Total {
		keys = slices.Insert(keys, 0, func(in *Input) float64 { return in.Share.Total.Value })
	}
	return keys
}

// inputs fills in what each input does to each of the results, on all cores.
func (st *Study) inputs(ctx context.Context, s *scenario.Scenario, number int, unsure []vary.Input, of []outcome.Figure) error {
	var all []scenario.Quantity
	for _, q := range s.Quantities() {
		if vary.Concerns(s, number, q.Key) {
			all = append(all, q)
		}
	}
	for i := range of {
		st.Rankings[i].Inputs = make([]Input, len(all))
	}
	group, ctx := errgroup.WithContext(ctx)
	group.SetLimit(runtime.GOMAXPROCS(0))
	for k, q := range all {
		group.Go(func() error {
			if err := ctx.Err(); err != nil {
				return err
			}
			return st.input(k, s, number, q, unsure, of)
		})
	}
	return group.Wait()
}

// input is one of them, with a model of its own. The first also tells of the scenario as it is.
func (st *Study) input(k int, s *scenario.Scenario, number int, q scenario.Quantity, unsure []vary.Input, of []outcome.Figure) error {
	m, err := vary.Reading(s, number, vary.Length, q.Key)
	if err != nil {
		return err
	}
	_, own := m.Own()
	if k == 0 {
		st.Own = *own
	}
	in := Input{Quantity: q, Value: m.Nominal()[0], Share: shares.Unknown()}
	in.move(st, unsure)
	slopes := m.Slopes(0, 0, of)
	below, above := figures(m, in.From, of), figures(m, in.To, of)
	for i := range of {
		middle := of[i].Of(own)
		in.Elasticity, in.Minus, in.Plus = slopes[i].Elasticity(in.Value, middle), below[i]-middle, above[i]-middle
		st.Rankings[i].Inputs[k] = in
	}
	return nil
}

// move sets by what an input is moved, and between what.
func (in *Input) move(st *Study, unsure []vary.Input) {
	in.Error, in.Moved = scenario.ReadingError{Percent: 100 * st.Change}, ByShare
	for i := range unsure {
		for _, p := range unsure[i].Parts {
			if p.Quantity.Key == in.Quantity.Key && !st.Alike {
				if in.Error, in.Moved = p.Error, ByReading; unsure[i].Tolerated {
					in.Moved = ByTolerance
				}
			}
		}
	}
	lo, hi := in.Error.Around(in.Value)
	in.From, in.To = max(lo, in.Quantity.Lo), min(hi, in.Quantity.Hi)
}

// shares estimates the shares in the variance of each result. Every number is an input of
// its own here.
func (st *Study) shares(ctx context.Context, s *scenario.Scenario, number int, unsure []vary.Input, o Options) error {
	var single []vary.Input
	for _, in := range unsure {
		for _, p := range in.Parts {
			in.Words, in.Parts = p.Quantity.Words, []vary.Part{p}
			single = append(single, in)
		}
	}
	m, err := vary.Draws(s, number, vary.Length, nil, single)
	if err != nil {
		return err
	}
	m.For(o.Of)
	all, err := shares.OfTrain(ctx, m, single, o.Of, o.Seed)
	if err != nil {
		return err
	}
	for i := range st.Rankings {
		r := &st.Rankings[i]
		r.Shares = &all[i]
		for k := range single {
			n := slices.IndexFunc(r.Inputs, func(in Input) bool { return in.Quantity.Key == single[k].Parts[0].Quantity.Key })
			r.Inputs[n].Share = all[i].Inputs[k]
		}
	}
	return nil
}

// figures are the results with the input at x; all NaN when the train cannot be
// built so.
func figures(m *vary.Model, x float64, of []outcome.Figure) []float64 {
	y := make([]float64, len(of))
	r, err := m.Run([]float64{x})
	for i := range of {
		if y[i] = math.NaN(); err == nil {
			y[i] = of[i].Of(&r.Digest)
		}
	}
	return y
}

// size is a number without its sign; 0 for none.
func size(v float64) float64 {
	if math.IsNaN(v) {
		return 0
	}
	return math.Abs(v)
}
