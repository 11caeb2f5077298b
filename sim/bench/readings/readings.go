// Package readings sets torques read at the bench beside what a scenario
// predicts, and finds the inputs that explain them.
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
	FuseeTurn int
	Winding   bool    // while winding; else running down
	Measured  float64 // mean of the repeats
	SD        float64 // standard uncertainty of Measured from scatter and the meter's step; NaN when neither is known
	Predicted float64 // NaN at a turn that the run does not have
}

// Residual is measured less predicted.
func (p *Point) Residual() float64 { return p.Measured - p.Predicted }

// Comparison is readings beside their prediction.
//
// The scatter of single turns, from a few repeats each, is no sound weight: the
// variances of all turns are pooled (any text on the analysis of variance). The
// meter's bound is one error common to all readings. It is left out of SD and of
// χ², and told apart as Meter.
type Comparison struct {
	Points          []Point // running down, then winding, each in order
	RMS             float64 // N·m, of the residuals
	ChiSquarePerDOF float64 // NaN when no SD is known
	Ratio           float64 // measured over predicted, in the mean over the points
	Meter           float64 // standard uncertainty of the meter, as a share of the reading
	Reserve         Reserve
}

// Reserve is the readings running down over the need; NaN where none is known.
type Reserve struct{ Need, Mean, Min float64 }

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
	t, err := sim.CompileTrain(s, n)
	if err != nil {
		return nil, nil, err
	}
	r := new(sim.Result)
	if err := t.RunInto(r, sim.Options{}); err != nil {
		return nil, nil, sim.Blame(s, n, err)
	}
	c := &Comparison{Points: pointsOf(sp), Meter: sp.MeterRelative / math.Sqrt(3)}
	c.predict(r)
	c.sum()
	c.Reserve = reserveOf(sp.Supply, r.Need.Used)
	return c, r, nil
}

// pointsOf gives the points without their predictions.
func pointsOf(sp Spring) []Point {
	var points []Point
	for _, way := range []struct {
		turns   []measure.Turn
		winding bool
	}{{sp.Turns, false}, {sp.Supply.Winding, true}} {
		sd := pooled(way.turns)
		step := sp.MeterResolution / math.Sqrt(12)
		for i := range way.turns {
			t := &way.turns[i]
			p := Point{FuseeTurn: t.FuseeTurn, Winding: way.winding, Measured: t.Mean, Predicted: math.NaN()}
			p.SD = math.Hypot(orZero(sd)/math.Sqrt(float64(t.N)), step)
			if p.SD == 0 {
				p.SD = math.NaN()
			}
			points = append(points, p)
		}
	}
	return points
}

// pooled is the standard deviation of one reading over all turns that were read
// more than once; NaN when there is none.
func pooled(turns []measure.Turn) float64 {
	squares, dof := 0.0, 0
	for i := range turns {
		if t := &turns[i]; t.N > 1 {
			squares += t.SD * t.SD * float64(t.N-1)
			dof += t.N - 1
		}
	}
	if dof == 0 {
		return math.NaN()
	}
	return math.Sqrt(squares / float64(dof))
}

// predict fills in the predictions from a run at quarter turns.
func (c *Comparison) predict(r *sim.Result) {
	for i := range c.Points {
		p := &c.Points[i]
		p.Predicted = predicted(r, p)
	}
}

// predicted is the torque that a run has at a point; NaN at a turn it has not.
func predicted(r *sim.Result, p *Point) float64 {
	row := rowAt(r, float64(p.FuseeTurn))
	switch {
	case row == nil:
		return math.NaN()
	case p.Winding:
		return row.WindingTorque
	}
	return row.FuseeTorque
}

// rowAt is the row of a run at a turn, up to rounding; nil when the run has none
// there.
func rowAt(r *sim.Result, turn float64) *sim.Row {
	const rounding = 1e-6
	i := sort.Search(len(r.Rows), func(i int) bool { return r.Rows[i].FuseeTurn > turn-rounding })
	if i < len(r.Rows) && r.Rows[i].FuseeTurn < turn+rounding {
		return &r.Rows[i]
	}
	return nil
}

// sum works the figures out.
func (c *Comparison) sum() {
	squares, chi, measured, foretold := 0.0, 0.0, 0.0, 0.0
	n := 0
	for i := range c.Points {
		p := &c.Points[i]
		d := p.Residual()
		if math.IsNaN(d) {
			continue
		}
		n++
		squares += d * d
		chi += d * d / (p.SD * p.SD)
		measured += p.Measured
		foretold += p.Predicted
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
