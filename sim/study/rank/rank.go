// Package rank tells which inputs of a scenario a result hangs on most.
package rank

import (
	"cmp"
	"math"
	"slices"

	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"
)

// Options of a ranking.
type Options struct {
	Of     []outcome.Figure
	Change float64 // by which inputs without a tolerance are moved, as a share of their value
}

// Input is what one input does to a result.
type Input struct {
	Key, Unit   string
	Value       float64
	Elasticity  vary.Slope // ∂ ln(result)/∂ ln(value); NaN where the result is 0 or cannot be had
	By          float64    // by which it is moved, in its unit
	Tolerated   bool       // By is its own tolerance
	Minus, Plus float64    // change of the result, in its unit, with the input moved down and up; NaN when it cannot be built
}

// Effect is the greater of the two changes of the result, either way.
func (in *Input) Effect() float64 {
	return math.Max(orZero(math.Abs(in.Minus)), orZero(math.Abs(in.Plus)))
}

// Ranking is every input by the size of its elasticity, the greatest first.
type Ranking struct {
	Of     outcome.Figure
	Value  float64 // of the result in the scenario as it is
	Inputs []Input
}

// Moves tells whether an input has more effect on the result than rounding has.
func (r *Ranking) Moves(in *Input) bool {
	const rounding = 1e-9
	return in.Effect() > rounding*math.Abs(r.Value) || math.Abs(orZero(in.Elasticity.Value)) > rounding
}

// Study is the rankings of a train.
type Study struct {
	Train    *sim.Train
	Change   float64
	Rankings []Ranking
	Caution  string
}

// Run ranks the inputs of the train with the given number, and those of the
// whole clock: every real number that the scenario has a value for, given or
// assumed. It fails when the scenario as it is cannot be run.
func Run(s *scenario.Scenario, number int, o Options) (*Study, error) {
	st := &Study{Change: o.Change}
	for _, q := range s.Quantities() {
		if !vary.Concerns(s, number, q.Key) {
			continue
		}
		if err := st.input(s, number, q, o.Of); err != nil {
			return nil, err
		}
	}
	for i := range st.Rankings {
		slices.SortStableFunc(st.Rankings[i].Inputs, func(a, b Input) int {
			return cmp.Compare(orZero(math.Abs(b.Elasticity.Value)), orZero(math.Abs(a.Elasticity.Value)))
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
	value := m.Nominal()[0]
	by, tolerated := s.Tolerance(q.Key)
	if !tolerated {
		by = st.Change * math.Abs(value)
	}
	slopes := m.Slopes(0, 0, of)
	middle, err := figures(m, value, of)
	if err != nil {
		return err
	}
	if st.Train == nil {
		st.begin(m, of, middle)
	}
	below, _ := figures(m, value-by, of)
	above, _ := figures(m, value+by, of)
	for i := range of {
		st.Rankings[i].Inputs = append(st.Rankings[i].Inputs, Input{
			Key: q.Key, Unit: q.Unit, Value: value, By: by, Tolerated: tolerated,
			Elasticity: slopes[i].Elasticity(value, middle[i]),
			Minus:      below[i] - middle[i], Plus: above[i] - middle[i],
		})
	}
	return nil
}

// begin sets what the first model tells of the scenario as it is.
func (st *Study) begin(m *vary.Model, of []outcome.Figure, values []float64) {
	st.Train, st.Caution = m.Own()
	st.Rankings = make([]Ranking, len(of))
	for i := range of {
		st.Rankings[i] = Ranking{Of: of[i], Value: values[i]}
	}
}

// figures are the results with the input at x; all NaN, with the error, when the
// train cannot be built so.
func figures(m *vary.Model, x float64, of []outcome.Figure) ([]float64, error) {
	y := make([]float64, len(of))
	r, err := m.Run([]float64{x})
	for i := range of {
		if y[i] = math.NaN(); err == nil {
			y[i] = of[i].Of(&r.Digest)
		}
	}
	return y, err
}

func orZero(v float64) float64 {
	if math.IsNaN(v) {
		return 0
	}
	return v
}
