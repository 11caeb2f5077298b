package readings

import (
	"math"

	"evenpull/sim/bench/fit"
	"evenpull/sim/bench/measure"

	"github.com/golang/geo/r1"
	"gonum.org/v1/gonum/mat"
)

// errors fills standard errors, covariance and intervals.
func (e *Explanation) errors(sp Spring, points []Point, res *fit.Result) {
	runs, meter := unknown(len(e.Inputs)), unknown(len(e.Inputs))
	if res.Response != nil {
		var varies float64 // N·m, squared: a reading about its torque
		if runs, e.Freedom = ofRuns(sp, points, res.Response); e.Freedom > 0 {
			e.FromRuns = true
			varies = spread(sp, points)
		} else {
			runs, e.Freedom = ofResiduals(points, res), res.DegreesOfFreedom
			varies = orZero(res.ResidualSD) * orZero(res.ResidualSD)
		}
		meter = ofMeter(sp, points, res.Response, measure.Jitter(sp.MeterResolution, varies))
	}
	var sum mat.SymDense
	sum.AddSym(runs, meter)
	for i := range e.Inputs {
		in := &e.Inputs[i]
		in.StandardError, in.FromMeter = math.Sqrt(sum.At(i, i)), math.Sqrt(meter.At(i, i))
		half := measure.HalfWidth(math.Sqrt(runs.At(i, i)), e.Freedom, in.FromMeter)
		in.Interval = r1.Interval{Lo: in.Value - half, Hi: in.Value + half}
		e.Covariance = append(e.Covariance, mat.Row(nil, i, &sum))
		e.Correlation = append(e.Correlation, correlated(&sum, res.Correlation, i))
	}
}

// correlated is a row of correlations: what the fit says of inputs that have no
// variance.
func correlated(covariance, otherwise mat.Symmetric, i int) []float64 {
	row := mat.Row(nil, i, otherwise)
	for j := range row {
		if c := covariance.At(i, j) / math.Sqrt(covariance.At(i, i)*covariance.At(j, j)); !math.IsNaN(c) {
			row[j] = c
		}
	}
	return row
}

// ofRuns is the covariance of the mean of the runs, from how they differ, and its
// degrees of freedom: none where nothing was repeated, or all repeats read the same
// and nothing tells how well the meter could.
func ofRuns(sp Spring, points []Point, response *mat.Dense) (*mat.SymDense, int) {
	m, n := response.Dims()
	sum, freedom, differ := mat.NewSymDense(m, nil), math.MaxInt, sp.MeterResolution > 0
	for _, p := range partsOf(sp) {
		own := measure.Freedom(p.runs)
		freedom = min(freedom, own)
		for i := range p.runs {
			departs := mat.NewVecDense(n, p.departs(&p.runs[i], points))
			differ = differ || mat.Norm(departs, 1) > 0
			var moved mat.VecDense
			moved.MulVec(response, departs)
			sum.SymRankOne(sum, 1/float64(own)/float64(p.n), &moved)
		}
	}
	if !differ {
		freedom = 0
	}
	return sum, freedom
}

// part is readings that were repeated together.
type part struct {
	reads [2]bool // running down, winding
	n     int     // times
	runs  []measure.Run
}

// partsOf are both ways together where they were read equally often, and runs of both
// tell how they differ together; else each for itself, as if independent.
func partsOf(sp Spring) []part {
	var both []measure.Run
	for _, r := range sp.Runs {
		if r.Down != nil && r.Up != nil {
			both = append(both, r)
		}
	}
	if len(both) > 0 && sp.Down.N == sp.Up.N {
		return []part{{[2]bool{true, true}, sp.Down.N, both}}
	}
	parts := []part{{[2]bool{true, false}, sp.Down.N, runsOf(sp.Runs, false)}}
	if sp.Up.N > 0 {
		parts = append(parts, part{[2]bool{false, true}, sp.Up.N, runsOf(sp.Runs, true)})
	}
	return parts
}

// runsOf are the runs one way or, where none was repeated, all: as shares of their
// means they differ alike.
func runsOf(all []measure.Run, winding bool) []measure.Run {
	var list []measure.Run
	for _, r := range all {
		if winding && r.Up != nil || !winding && r.Down != nil {
			list = append(list, r)
		}
	}
	if list == nil {
		return all
	}
	return list
}

// departs is how the readings would depart (N·m), were they of a run: one way by how
// it does or, where it was read the other way only, by that.
func (p *part) departs(r *measure.Run, points []Point) []float64 {
	list := make([]float64, len(points))
	for k := range points {
		at := &points[k]
		if !p.reads[wayOf(at.Winding)] {
			continue
		}
		d := r.Down
		if at.Winding && r.Up != nil || d == nil {
			d = r.Up
		}
		list[k] = d.At(at.along) * at.level
	}
	return list
}

// wayOf is the place of a way: running down, winding.
func wayOf(winding bool) int {
	if winding {
		return 1
	}
	return 0
}

// ofResiduals is the covariance by what the fit leaves.
func ofResiduals(points []Point, res *fit.Result) *mat.SymDense {
	c := mat.NewSymDense(len(res.B), nil)
	c.CopySym(res.Covariance)
	if deviations(points) != nil { // which it is made of
		c.ScaleSym(res.ChiSquarePerDOF, c)
	}
	return c
}

// spread is the variance (N·m, squared) of a reading about the mean of its turn, the mean
// over the turns.
func spread(sp Spring, points []Point) float64 {
	sum, reads := 0.0, 0
	for _, p := range partsOf(sp) {
		freedom := float64(measure.Freedom(p.runs))
		for i := range p.runs {
			for _, d := range p.departs(&p.runs[i], points) {
				sum += d * d / freedom
			}
		}
		for k := range points {
			if p.reads[wayOf(points[k].Winding)] {
				reads++
			}
		}
	}
	return sum / float64(reads)
}

// ofStep is the covariance of what the errors of the meter's step leave in the means of the
// turns, however often they are read: those of turns that pull alike are alike, as far as
// readings stray by less than the step. What repeats do not have in common is in how they
// differ already.
func ofStep(sp Spring, points []Point, jitter float64) *mat.SymDense {
	c := mat.NewSymDense(len(points), nil)
	for k := range points {
		for l := k; l < len(points); l++ {
			c.SetSym(k, l, measure.StepCovariance(sp.MeterResolution, jitter, points[k].Predicted-points[l].Predicted))
		}
	}
	return c
}

// ofMeter is the covariance that the meter's bound, one error for all readings, and
// the errors of its step make.
func ofMeter(sp Spring, points []Point, response *mat.Dense, jitter float64) *mat.SymDense {
	m, n := response.Dims()
	sum, bound := mat.NewSymDense(m, nil), mat.NewVecDense(n, nil)
	var half, step mat.Dense
	half.Mul(response, ofStep(sp, points, jitter))
	step.Mul(&half, response.T())
	for i := range m {
		for j := i; j < m; j++ {
			sum.SetSym(i, j, step.At(i, j))
		}
	}
	for k := range points {
		bound.SetVec(k, points[k].Measured*sp.MeterRelative/math.Sqrt(3))
	}
	var moved mat.VecDense
	moved.MulVec(response, bound)
	sum.SymRankOne(sum, 1, &moved)
	return sum
}

// unknown is a covariance of which nothing is known.
func unknown(m int) *mat.SymDense {
	c := mat.NewSymDense(m, nil)
	for i := range m {
		for j := i; j < m; j++ {
			c.SetSym(i, j, math.NaN())
		}
	}
	return c
}
