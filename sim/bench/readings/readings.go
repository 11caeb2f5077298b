// Package readings sets torques read at the bench beside what a scenario predicts, and finds
// the inputs that explain them.
//
// The fit is weighted least squares (package fit) of the predicted torque at the square, with
// one to MaxInputs inputs free within their ranges. χ² is the sum of the squared residuals
// over their variances; per degree of freedom it is about 1 where the model holds and the
// scatter is as known. Errors are standard errors, intervals 95 %, by JCGM 100:2008; both
// count run-downs as wholes and hold the meter's part apart. Inputs that do nearly the same to
// the torque, such as thickness and modulus, cannot be told apart by it, and the study says
// so. That the other inputs of the scenario are right is taken for granted; package found does
// not.
//
// Torques are in N·m, turns those of the fusee paid out, 0 fully wound.
package readings

import (
	"math"
	"sort"

	"evenpull/sim"
	"evenpull/sim/bench/measure"
	"evenpull/sim/scenario"
)

// Point is what was read and what is predicted at one fusee turn, N·m.
type Point struct {
	FuseeTurn float64 // paid out: 0 is fully wound
	Winding   bool    // while winding; else running down
	Measured  float64 // mean of the repeats, clear of how a repeat that lacks the reading differs as a whole
	SD        float64 // standard uncertainty of Measured from scatter from turn to turn and the meter's step; NaN when neither is known
	along     float64 // on the way from fully wound, 0, to the last turn read, 1
	level     float64 // N·m, mean torque of its way
	Predicted float64 // NaN at a turn that the run does not have
}

// Residual is measured less predicted.
func (p *Point) Residual() float64 { return p.Measured - p.Predicted }

// Comparison is readings beside their prediction.
//
// Scatter from turn to turn within a run is one figure for all turns of a set: that
// of single turns, from a few repeats each, is no sound weight. What all readings have
// in common is left out of SD: the meter's bound, told apart as Meter, and how
// run-downs differ as wholes, which χ² allows for.
type Comparison struct {
	Points          []Point // running down, then winding, each in order
	RMS             float64 // N·m, of the residuals
	ChiSquarePerDOF float64 // NaN when no SD is known
	Ratio           float64 // measured over predicted, in the mean over the points
	Meter           float64 // standard uncertainty of the meter, as a share of the reading
	Reserve         Reserve
	common          [2]float64 // standard uncertainty of a share common to all readings running down, and winding; 0 where it is not known
}

// Lost counts the points at turns that the predicted run does not have.
func (c *Comparison) Lost() (n int) {
	for i := range c.Points {
		if math.IsNaN(c.Points[i].Predicted) {
			n++
		}
	}
	return n
}

// Reserve is the readings running down over the need; NaN where none is known.
type Reserve struct {
	Need      float64 // N·m at the winding square
	Mean, Min float64 // ratios of the mean and of the least torque to Need
}

// Spring is the readings of one spring: what record makes of them, and the
// meter's part.
type Spring struct {
	*measure.Supply
	MeterRelative   float64 // bound of the instrument's error, a share
	MeterResolution float64 // N·m
}

// Compare sets the readings of a spring beside the scenario's own prediction for
// the train they were taken in. It fails with a scenario.NoTrainError, and when that train
// cannot be run.
func Compare(sp Spring, s *scenario.Scenario) (*Comparison, error) {
	c, _, err := compare(sp, s)
	return c, err
}

// compare is Compare with the predicted run.
func compare(sp Spring, s *scenario.Scenario) (*Comparison, *sim.Result, error) {
	n, err := s.Train(sp.Train)
	if err != nil {
		return nil, nil, err
	}
	r, err := sim.RunTrain(s, n, sim.Options{})
	if err != nil {
		return nil, nil, err
	}
	c := &Comparison{Points: PointsOf(sp), Meter: sp.MeterRelative / math.Sqrt(3)}
	for way, set := range []*measure.Set{&sp.Down, &sp.Up} {
		c.common[way] = orZero(sp.Mean.Between) / math.Sqrt(float64(max(1, set.N)))
	}
	c.predict(r)
	c.sum()
	c.Reserve = reserveOf(sp.Supply, r.Need.Used)
	return c, r, nil
}

// PointsOf are the points of a spring's readings, without their predictions.
func PointsOf(sp Spring) []Point {
	var points []Point
	for _, way := range []struct {
		turns   []measure.Turn
		set     *measure.Set
		winding bool
	}{{sp.Turns, &sp.Down, false}, {sp.Supply.Winding, &sp.Up, true}} {
		step := sp.MeterResolution / math.Sqrt(12)
		for i := range way.turns {
			t := &way.turns[i]
			p := Point{FuseeTurn: t.FuseeTurn, Winding: way.winding, Measured: way.set.Torque[i], Predicted: math.NaN(), along: way.set.Along[i], level: way.set.Level}
			p.SD = math.Hypot(orZero(way.set.Scatter)/math.Sqrt(float64(t.N)), step)
			if p.SD == 0 {
				p.SD = math.NaN()
			}
			points = append(points, p)
		}
	}
	return points
}

// predict fills in the predictions from a run at quarter turns.
func (c *Comparison) predict(r *sim.Result) {
	for i := range c.Points {
		p := &c.Points[i]
		p.Predicted = predicted(r, p)
	}
}

// TorqueAt is the torque (N·m) that a run has running down at a fusee turn paid out; NaN at
// one that it has not.
func TorqueAt(r *sim.Result, turn float64) float64 { return predicted(r, &Point{FuseeTurn: turn}) }

// predicted is the torque that a run has at a point; NaN at a turn it has not.
func predicted(r *sim.Result, p *Point) float64 {
	a, b, share := rowsAt(r, p.FuseeTurn)
	switch {
	case a == nil:
		return math.NaN()
	case p.Winding:
		return a.WindingTorque + share*(b.WindingTorque-a.WindingTorque)
	}
	return a.FuseeTorque + share*(b.FuseeTorque-a.FuseeTorque)
}

// rowsAt are the rows of a run about a turn, a quarter turn apart at most, and the share of
// the way from the first to the second; twice the same at a turn of its own, up to
// rounding; nil where the run does not reach.
func rowsAt(r *sim.Result, turn float64) (a, b *sim.Row, share float64) {
	const rounding = 1e-6
	i := sort.Search(len(r.Rows), func(i int) bool { return r.Rows[i].FuseeTurn > turn-rounding })
	switch {
	case i == len(r.Rows):
		return nil, nil, 0
	case r.Rows[i].FuseeTurn < turn+rounding:
		return &r.Rows[i], &r.Rows[i], 0
	case i == 0:
		return nil, nil, 0
	}
	a, b = &r.Rows[i-1], &r.Rows[i]
	return a, b, (turn - a.FuseeTurn) / (b.FuseeTurn - a.FuseeTurn)
}

// sum works the figures out. χ² is the least that a share common to all readings of
// a way leaves, with its own square over its variance: that of their full covariance.
func (c *Comparison) sum() {
	squares, measured, foretold, n := 0.0, 0.0, 0.0, 0
	var own, across [2]float64 // sums of residual² and of residual × level over SD²
	var along [2]float64       // and of level²
	for i := range c.Points {
		p := &c.Points[i]
		d := p.Residual()
		if math.IsNaN(d) {
			continue
		}
		n++
		squares, measured, foretold = squares+d*d, measured+p.Measured, foretold+p.Predicted
		way, weight := wayOf(p.Winding), 1/(p.SD*p.SD)
		own[way], across[way], along[way] = own[way]+weight*d*d, across[way]+weight*d*p.level, along[way]+weight*p.level*p.level
	}
	chi := 0.0
	for way := range own {
		chi += own[way]
		if u := c.common[way]; u > 0 {
			chi -= across[way] * across[way] / (along[way] + 1/(u*u))
		}
	}
	// Each is 0/0, which is NaN, where nothing is predicted.
	c.RMS, c.ChiSquarePerDOF, c.Ratio = math.Sqrt(squares/float64(n)), chi/float64(n), measured/foretold
}

func reserveOf(s *measure.Supply, need float64) Reserve {
	least := math.Inf(1)
	for i := range s.Turns {
		least = min(least, s.Turns[i].Mean)
	}
	return Reserve{Need: need, Mean: s.Mean.Value / need, Min: least / need}
}

func orZero(v float64) float64 {
	if math.IsNaN(v) {
		return 0
	}
	return v
}
