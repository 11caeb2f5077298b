package readings

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"evenpull/sim/bench/fit"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"

	"github.com/golang/geo/r1"
)

// MaxInputs is the greatest number of inputs that are fitted at once.
const MaxInputs = 4

// Input is a fitted quantity.
type Input struct {
	scenario.Quantity
	Before        float64     // in the scenario
	Value         float64     // fitted, in the unit of the quantity as all that follow
	StandardError float64     // run-downs and meter; NaN where the readings leave it open or it lies on its bound
	FromMeter     float64     // the meter's part of it, bound and step
	Interval      r1.Interval // 95 %; NaN likewise
}

// Explanation is the inputs that bring the prediction nearest to the readings.
type Explanation struct {
	Train, Spring   string      // its name, and the label of the spring
	Inputs          []Input     // in the order in which they were asked for
	Covariance      [][]float64 // of the errors of Inputs, in their units; NaN likewise
	Correlation     [][]float64 // of the same, 1 or −1 where inputs cannot be told apart
	Freedom         int         // degrees of freedom of what is not the meter's part
	FromRuns        bool        // the errors are from how runs differ as wholes; else from the residuals alone
	ChiSquarePerDOF float64     // 1 for scatter as known; NaN when it is estimated from the residuals
	RMS             float64     // N·m, of the residuals left
	Status          fit.Status
	Apart           []fit.Pair  // inputs that can hardly be told apart
	After           *Comparison // the readings beside what is predicted with Inputs
	Fault           error       // why the train cannot be run as the readings have it; nil when it can
	Winding         bool        // there are readings while winding
}

// Errors of Explain.
var (
	ErrInputs = fmt.Errorf("want one to %d inputs, each once", MaxInputs)
	ErrFew    = errors.New("there are too few readings for so many inputs")
)

// Explain fits inputs of the train that readings were taken in, by weighted least
// squares on the means of the turns, within the ranges that the scenario may
// have. It fails with ErrInputs, ErrFew, a scenario.NoTrainError, when a key names no
// quantity of the train, when the scenario as it is cannot be run, and with the
// error of ctx.
//
// Run-downs differ as wholes: each is fitted alone, to first order about the fit of
// their means, and the estimate is the mean of these fits. Their covariance is
// pooled, as shares of the mean torque, over all sets that the same meter read. Where
// none was repeated it comes from the residuals, which know nothing of how runs
// differ. The meter's bound is one error common to all readings, and of the errors of
// its step those are common to repeats, and to turns that pull alike, that readings do not
// stray out of (measure.StepCovariance): what both make of the fitted values is added (JCGM
// 100:2008, 5.1.2). Intervals are value ± √((t·s)² + (1.96 u)²), of the run-downs and
// of the meter.
func Explain(ctx context.Context, sp Spring, s *scenario.Scenario, keys []string) (*Explanation, error) {
	n, err := s.Train(sp.Train)
	if err != nil {
		return nil, err
	}
	x, err := newExplainer(s, n, keys)
	if err != nil {
		return nil, err
	}
	return x.explain(ctx, sp)
}

// explainer explains readings by some inputs of a train, one spring after the other.
type explainer struct {
	m             *vary.Model
	inputs        []Input // as the scenario has them
	start, lo, hi []float64
	scale         []float64
	need          float64 // of the scenario as it is, N·m

	ctx    context.Context // of the fit that is carried out
	points []Point         // and its readings
}

// newExplainer looks the inputs up and makes the model.
func newExplainer(s *scenario.Scenario, number int, keys []string) (*explainer, error) {
	if len(keys) < 1 || len(keys) > MaxInputs {
		return nil, fmt.Errorf("%d inputs: %w", len(keys), ErrInputs)
	}
	x := new(explainer)
	keys = slices.Clone(keys)
	for i := range keys {
		keys[i], _ = s.InUnit(keys[i])
		key := keys[i]
		q, err := s.Quantity(key)
		if err != nil {
			return nil, err
		}
		v, _ := s.Value(key) // of a quantity that is there
		if slices.Contains(keys[:i], key) {
			return nil, fmt.Errorf("%s twice: %w", key, ErrInputs)
		}
		if !vary.Concerns(s, number, key) {
			return nil, fmt.Errorf("%s is no quantity of the train %s, in which the readings were taken: %w", key, s.Trains[number].Name, ErrInputs)
		}
		x.inputs = append(x.inputs, Input{Quantity: q, Before: *v, Value: *v})
		x.start, x.lo, x.hi = append(x.start, *v), append(x.lo, q.Lo), append(x.hi, q.Hi)
		x.scale = append(x.scale, max(math.Abs(*v)/4, 1e-3)) // near 0 a thousandth of its unit
	}
	var err error
	if x.m, err = vary.Drive(s, number, keys...); err != nil {
		return nil, err
	}
	_, own := x.m.Own()
	x.need = own.Need.Used
	return x, nil
}

func (x *explainer) explain(ctx context.Context, sp Spring) (*Explanation, error) {
	e := &Explanation{Train: sp.Train, Spring: sp.Spring, Inputs: slices.Clone(x.inputs), Winding: len(sp.Supply.Winding) > 0}
	res, err := x.fit(ctx, sp)
	if err != nil {
		return nil, err
	}
	e.take(&res)
	err = e.compare(x, sp, &res)
	e.errors(sp, x.points, &res)
	return e, err
}

// fit fits the means of the readings.
func (x *explainer) fit(ctx context.Context, sp Spring) (fit.Result, error) {
	if x.ctx, x.points = ctx, PointsOf(sp); len(x.points) < len(x.inputs) {
		return fit.Result{}, fmt.Errorf("%d readings, %d inputs: %w", len(x.points), len(x.inputs), ErrFew)
	}
	y := make([]float64, len(x.points))
	for i := range x.points {
		y[i] = x.points[i].Measured
	}
	res, err := fit.Solve(fit.Problem{Predict: x.predict, Y: y, SD: deviations(x.points), Start: x.start, Lo: x.lo, Hi: x.hi, Scale: x.scale})
	return res, cmp.Or(x.ctx.Err(), err)
}

// deviations are the standard deviations of the points; nil when not all are known.
func deviations(points []Point) []float64 {
	sd := make([]float64, len(points))
	for i := range points {
		if sd[i] = points[i].SD; math.IsNaN(sd[i]) {
			return nil
		}
	}
	return sd
}

var errTurn = errors.New("the run lacks a turn that was read")

func (x *explainer) predict(b, f []float64) error {
	if err := x.ctx.Err(); err != nil {
		return err
	}
	r, err := x.m.Run(b)
	if err != nil {
		return err
	}
	for i := range x.points {
		if f[i] = predicted(r, &x.points[i]); math.IsNaN(f[i]) {
			return errTurn
		}
	}
	return nil
}

// take keeps what a fit found.
func (e *Explanation) take(res *fit.Result) {
	e.Status, e.Apart, e.Fault = res.Status, res.Apart, res.Fault
	e.ChiSquarePerDOF = math.NaN()
	for i := range e.Inputs {
		e.Inputs[i].Value = res.B[i]
	}
}

// compare sets the readings beside the fitted prediction.
func (e *Explanation) compare(x *explainer, sp Spring, res *fit.Result) error {
	e.RMS = math.NaN()
	if res.Status == fit.Failed {
		return nil
	}
	r, err := x.m.Run(res.B)
	if err != nil {
		return err
	}
	e.After = &Comparison{Points: x.points, Meter: sp.MeterRelative / math.Sqrt(3)}
	e.After.predict(r)
	e.After.sum()
	e.After.Reserve = reserveOf(sp.Supply, x.need)
	e.RMS = e.After.RMS
	if known := !math.IsNaN(e.After.ChiSquarePerDOF); known && res.DegreesOfFreedom > 0 {
		e.ChiSquarePerDOF = res.ChiSquarePerDOF
		e.After.ChiSquarePerDOF = res.ChiSquarePerDOF
	}
	return nil
}
