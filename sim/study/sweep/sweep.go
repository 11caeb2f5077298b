// Package sweep takes one or two quantities of a scenario over a range and tells what becomes
// of a train: the digest of a run at every point, where the verdict changes, where the train
// can no longer be built, and with which power a result grows.
//
// Every point is a what-if of package vary: another spring is one of the same steel, and an
// even cone stays as it was cut. The points are evenly spaced and run on every core. Between
// them a change of the verdict, or a limit of what can be built, is closed in on; one that
// comes and goes between two points next to each other is not seen. The exponent is
// ∂ ln y/∂ ln x of the result y by the input x, a pure number, at the scenario's own value.
package sweep

import (
	"context"
	"errors"
	"fmt"
	"math"

	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"
)

// Bounds on the work of a sweep.
const (
	MaxSteps  = 10_001  // along one input
	MaxPoints = 250_000 // of a map
)

// Options of a sweep.
type Options struct {
	Over    Axis  // the input
	Against *Axis // nil: over one input alone
	Hold    vary.Hold
	Of      outcome.Figure // what is drawn, mapped and given its exponent; zero: the mean torque
}

// Point is what a train comes to at one value, or pair of values.
type Point struct {
	Value, Value2 float64 // NaN for Value2 over one input
	Fault         string  // why the train cannot be built
	*sim.Digest           // over one input, a blank one where the train cannot be built; of a map see Run

	brief brief // of a map
	again *again
}

// Built tells whether the train can be built with the values of the point.
func (p *Point) Built() bool { return p.Fault == "" }

// Run is the run-down with the values of the point; nil where the train cannot be built.
// That of a map is computed when it is asked for, and stands until that of another point
// of the map is.
func (p *Point) Run() *sim.Digest {
	if p.Built() && p.again != nil {
		return p.again.run(p)
	}
	return p.Digest.Where(p.Built())
}

// Study is a sweep carried out.
type Study struct {
	Train    *sim.Train // as the scenario has it
	Over     Axis       // the input
	Against  *Axis      // the second input of a map; nil: none
	Hold     vary.Hold
	Of       outcome.Figure // the result that has the exponent
	Own      Point          // the scenario's own
	Exponent vary.Slope     // ∂ ln(result)/∂ ln(value) at the scenario's own value; NaN when that is 0
	Changes  []Change       // of the verdict, over one input
	Limits   []Limit        // of what can be built, over one input
	Points   []Point        // Over first: those of the first value of Against, then of the second
}

// Errors of a range, of an input that the train has no share in, and of a map.
var (
	ErrRange = fmt.Errorf("want a range of finite numbers, from the lower to the higher, and 2 to %d steps", MaxSteps)
	ErrApart = errors.New("this is no input of the train")
	ErrMap   = fmt.Errorf("a map is over two inputs, in at most %d points", MaxPoints)
)

// Run sweeps the train with the given number. It fails when the scenario as it
// is cannot be run, when a key names no quantity, with ErrRange, ErrApart or
// ErrMap, and with the error of ctx.
func Run(ctx context.Context, s *scenario.Scenario, number int, o Options) (*Study, error) {
	st := &Study{Over: o.Over, Against: o.Against, Hold: o.Hold, Of: o.Of}
	if st.Of.Of == nil {
		var err error
		if st.Of, err = outcome.Named(outcome.MeanTorque); err != nil {
			return nil, err
		}
	}
	keys, err := st.axes(s, number)
	if err != nil {
		return nil, err
	}
	m, err := vary.New(s, number, o.Hold, keys...)
	if err != nil {
		return nil, err
	}
	st.own(m)
	if err := st.sweep(ctx, m); err != nil {
		return nil, err
	}
	if st.Against == nil {
		st.borders(m)
	}
	return st, nil
}

// axes fills the axes in and gives their keys.
func (st *Study) axes(s *scenario.Scenario, number int) ([]string, error) {
	axes := []*Axis{&st.Over}
	if st.Against != nil {
		second := *st.Against // the caller's stays as it is
		st.Against = &second
		axes = append(axes, st.Against)
	}
	keys := make([]string, len(axes))
	for i, a := range axes {
		if err := a.fill(s); err != nil {
			return nil, err
		}
		if keys[i] = a.Key; !vary.Concerns(s, number, a.Key) {
			return nil, fmt.Errorf("%s: %w %s", a.Key, ErrApart, s.Trains[number].Name)
		}
	}
	if st.Against != nil && (keys[0] == keys[1] || st.Over.Steps*st.Against.Steps > MaxPoints) {
		return nil, fmt.Errorf("%d × %d points of %s and %s: %w", st.Over.Steps, st.Against.Steps, keys[0], keys[1], ErrMap)
	}
	return keys, nil
}

// own takes the scenario's own point, and the exponent there.
func (st *Study) own(m *vary.Model) {
	train, digest := m.Own()
	own := *digest
	st.Train, st.Own = train, Point{Value: st.Over.Value, Value2: math.NaN(), Digest: &own}
	if st.Against != nil {
		st.Own.Value2 = st.Against.Value
	}
	st.Exponent = vary.Slope{Value: math.NaN(), Error: math.NaN()}
	if st.Over.Value != 0 {
		st.Exponent = m.Slopes(0, 0, []outcome.Figure{st.Of})[0].Elasticity(st.Over.Value, st.Of.Of(digest))
	}
}

// sweep takes every point.
func (st *Study) sweep(ctx context.Context, m *vary.Model) error {
	n := st.Over.Steps
	if st.Against == nil {
		st.Points = make([]Point, n)
		return m.Each(ctx, n, func(m *vary.Model, i int) {
			st.Points[i].run(m, st.Over.At(i), math.NaN())
		})
	}
	st.Points = make([]Point, n*st.Against.Steps)
	again := &again{m: m}
	return m.Each(ctx, len(st.Points), func(m *vary.Model, i int) {
		p := &st.Points[i]
		if d := p.at(m, st.Over.At(i%n), st.Against.At(i/n)); d != nil {
			p.brief, p.again = st.briefly(d), again
		}
	})
}

// run fills in the point for some values.
func (p *Point) run(m *vary.Model, value, value2 float64) {
	p.Digest = new(sim.Digest)
	if d := p.at(m, value, value2); d != nil {
		*p.Digest = *d
	}
}

// at runs the train with the values of the point, which it sets, as its fault; the digest
// is the model's.
func (p *Point) at(m *vary.Model, value, value2 float64) *sim.Digest {
	p.Value, p.Value2 = value, value2
	values := [...]float64{value, value2}
	r, err := m.Run(values[:len(m.Keys())])
	if err != nil {
		p.Fault = vary.Why(err)
		return nil
	}
	return &r.Digest
}

// Result is the result that the study is of, at a point; NaN where the train cannot
// be built.
func (st *Study) Result(p *Point) float64 {
	switch {
	case !p.Built():
		return math.NaN()
	case p.again != nil:
		return p.brief.result
	}
	return st.Of.Of(p.Digest)
}
