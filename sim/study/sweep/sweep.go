// Package sweep takes one or two quantities of a scenario over a range and tells
// what becomes of a train: torque, reserve, verdict and faults point by point,
// and where the verdict changes.
package sweep

import (
	"context"
	"errors"
	"fmt"
	"math"

	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/rules"
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
	Over    Axis
	Against *Axis // nil: over one input alone
	Hold    vary.Hold
}

// Point is what a train comes to at one value, or pair of values.
type Point struct {
	Value, Value2  float64 // NaN for Value2 over one input
	Fault          string  // why the train cannot be built; nothing below applies then
	Verdict        rules.Code
	Faults         []sim.Fault // what does not fit or is unsafe
	Torque         sim.Summary // N·m at the fusee
	Need           float64     // N·m
	Reserve        sim.Spread
	TurnsAvailable float64
	TurnsLost      float64
	Runtime        float64 // hours
	PeakStress     float64 // Pa
	Stored         float64 // J
	Amplitude      float64 // rad, mean; NaN without a pendulum
	BlowInterval   float64 // s, mean; NaN without hammers

	margins [4]float64
}

// Built tells whether the train can be built with the values of the point.
func (p *Point) Built() bool { return p.Fault == "" }

// Study is a sweep carried out.
type Study struct {
	Train    *sim.Train // as the scenario has it
	Over     Axis
	Against  *Axis
	Hold     vary.Hold
	Own      Point      // the scenario's own
	Exponent vary.Slope // ∂ ln(mean torque)/∂ ln(value) at the scenario's own value; NaN when that is 0
	Changes  []Change   // of the verdict, over one input
	Limits   []Limit    // of what can be built, over one input
	Points   []Point    // Over first: those of the first value of Against, then of the second
	Caution  string
}

// Run sweeps the train with the given number. It fails when the scenario as it
// is cannot be run, when a key names no quantity, with ErrRange, and with the
// error of ctx.
func Run(ctx context.Context, s *scenario.Scenario, number int, o Options) (*Study, error) {
	axes := []*Axis{&o.Over}
	if o.Against != nil {
		axes = append(axes, o.Against)
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
	if len(keys) == 2 && (keys[0] == keys[1] || o.Over.Steps*o.Against.Steps > MaxPoints) {
		return nil, fmt.Errorf("%d × %d points of %s and %s: %w", o.Over.Steps, o.Against.Steps, keys[0], keys[1], ErrMap)
	}
	m, err := vary.New(s, number, o.Hold, keys...)
	if err != nil {
		return nil, err
	}
	st := &Study{Over: o.Over, Against: o.Against, Hold: o.Hold}
	if err := st.own(m); err != nil {
		return nil, err
	}
	if err := st.sweep(ctx, m); err != nil {
		return nil, err
	}
	if st.Against == nil {
		st.borders(m)
	}
	return st, nil
}

// Errors of a range, of an input that the train has no share in, and of a map.
var (
	ErrRange = fmt.Errorf("want a range of finite numbers, from the lower to the higher, and 2 to %d steps", MaxSteps)
	ErrApart = errors.New("this is no input of the train")
	ErrMap   = fmt.Errorf("a map is over two inputs, in at most %d points", MaxPoints)
)

// own takes the scenario's own point, and the exponent there.
func (st *Study) own(m *vary.Model) error {
	r, err := m.Run(m.Nominal())
	if err != nil {
		return err
	}
	st.Train, st.Caution = m.Own()
	st.Own.take(r)
	st.Own.Value, st.Own.Value2 = st.Over.Value, math.NaN()
	if st.Against != nil {
		st.Own.Value2 = st.Against.Value
	}
	mean, err := outcome.Several(outcome.MeanTorque)
	if err != nil {
		return err
	}
	st.Exponent = vary.Slope{Value: math.NaN(), Error: math.NaN()}
	if st.Over.Value != 0 {
		st.Exponent = m.Slopes(0, 0, mean)[0].Elasticity(st.Over.Value, st.Own.Torque.Mean)
	}
	return nil
}

// sweep takes every point.
func (st *Study) sweep(ctx context.Context, m *vary.Model) error {
	n := st.Over.Steps
	if st.Against == nil {
		st.Points = make([]Point, n)
		return m.Each(ctx, n, func(m *vary.Model, i int) {
			st.Points[i].Value2 = math.NaN()
			st.Points[i].run(m, []float64{st.Over.at(i)})
		})
	}
	st.Points = make([]Point, n*st.Against.Steps)
	return m.Each(ctx, len(st.Points), func(m *vary.Model, i int) {
		st.Points[i].Value2 = st.Against.at(i / n)
		st.Points[i].run(m, []float64{st.Over.at(i % n), st.Points[i].Value2})
	})
}

// run fills in the point for some values.
func (p *Point) run(m *vary.Model, values []float64) {
	p.Value = values[0]
	r, err := m.Run(values)
	if err != nil {
		p.Fault = vary.Why(err)
		return
	}
	p.take(r)
}

func (p *Point) take(r *sim.Result) {
	p.Verdict, p.Faults, p.margins = r.Verdict.Code, r.FaultList(), r.Margins()
	p.Torque, p.Need = r.Torque, r.Need.Used
	p.Reserve = sim.Spread{Mean: r.Reserve(r.Torque.Mean), Min: r.Reserve(r.Torque.Min), Max: r.Reserve(r.Torque.Max)}
	p.TurnsAvailable, p.TurnsLost, p.Runtime = r.Spring.Available, r.TurnsLost, r.Runtime
	p.PeakStress, p.Stored = r.Spring.PeakStress, r.Spring.Stored
	p.Amplitude, p.BlowInterval = r.Swing.Amplitude.Mean, r.Cadence.Interval.Mean
}
