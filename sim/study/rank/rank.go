// Package rank tells which inputs of a scenario a result depends on most.
package rank

import (
	"cmp"
	"context"
	"math"
	"slices"

	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"
)

// Default are the names of the results that are ranked by when none is asked for.
func Default() []string {
	return []string{outcome.MeanTorque, outcome.Unevenness, outcome.LeastReserve}
}

// DefaultChange is the share by which inputs without a tolerance are moved when no
// other is asked for.
const DefaultChange = 0.01

// Options of a ranking.
type Options struct {
	Of     []outcome.Figure // none: the default ones
	Change float64          // by which inputs without a tolerance are moved, as a share of their value; 0: DefaultChange
}

// Input is what one input does to a result. Changes of the result are in its unit.
type Input struct {
	Quantity    scenario.Quantity
	Value       float64
	Elasticity  vary.Slope // ∂ ln(result)/∂ ln(value); NaN where the result is 0 or cannot be had
	By          float64    // by which it is moved, in its unit
	Tolerated   bool       // By is its own tolerance
	Minus, Plus float64    // change of the result with the input moved down and up; NaN when it cannot be built
}

// Effect is the greater of the two changes of the result, either way.
func (in *Input) Effect() float64 { return max(size(in.Minus), size(in.Plus)) }

// Ranking is every input by its effect on a result, the greatest first; of equal
// ones the greater elasticity.
type Ranking struct {
	Of     outcome.Figure
	Value  float64 // of the result in the scenario as it is
	Inputs []Input
}

// Moves tells whether an input has more effect on the result than rounding has.
func (r *Ranking) Moves(in *Input) bool {
	const rounding = 1e-9
	return in.Effect() > rounding*math.Abs(r.Value) || size(in.Elasticity.Value) > rounding
}

// Study is the rankings of a train.
type Study struct {
	Own      sim.Digest // the scenario as it is
	Change   float64
	Rankings []Ranking
}

// Run ranks the inputs of the train with the given number, and those of the
// whole clock: every real number that the scenario has a value for, given or
// assumed. It fails when the scenario as it is cannot be run, and with the error of
// ctx.
func Run(ctx context.Context, s *scenario.Scenario, number int, o Options) (*Study, error) {
	if len(o.Of) == 0 {
		var err error
		if o.Of, err = outcome.Several(Default()...); err != nil {
			return nil, err
		}
	}
	if o.Change == 0 {
		o.Change = DefaultChange
	}
	st := &Study{Change: o.Change, Rankings: make([]Ranking, len(o.Of))}
	for _, q := range s.Quantities() {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if !vary.Concerns(s, number, q.Key) {
			continue
		}
		if err := st.input(s, number, q, o.Of); err != nil {
			return nil, err
		}
	}
	for i := range st.Rankings {
		st.Rankings[i].Of, st.Rankings[i].Value = o.Of[i], o.Of[i].Of(&st.Own)
		slices.SortStableFunc(st.Rankings[i].Inputs, func(a, b Input) int {
			return cmp.Or(cmp.Compare(b.Effect(), a.Effect()), cmp.Compare(size(b.Elasticity.Value), size(a.Elasticity.Value)))
		})
	}
	return st, nil
}

// input adds what one input does to each of the results.
func (st *Study) input(s *scenario.Scenario, number int, q scenario.Quantity, of []outcome.Figure) error {
	m, err := vary.New(s, number, vary.Length, q.Key)
	if err != nil {
		return err
	}
	_, own := m.Own()
	st.Own = *own
	value := m.Nominal()[0]
	by, tolerated := s.Tolerance(q.Key)
	if !tolerated {
		by = st.Change * math.Abs(value)
	}
	slopes := m.Slopes(0, 0, of)
	below, above := figures(m, value-by, of), figures(m, value+by, of)
	for i := range of {
		middle := of[i].Of(own)
		st.Rankings[i].Inputs = append(st.Rankings[i].Inputs, Input{
			Quantity: q, Value: value, By: by, Tolerated: tolerated, Elasticity: slopes[i].Elasticity(value, middle),
			Minus: below[i] - middle, Plus: above[i] - middle,
		})
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
