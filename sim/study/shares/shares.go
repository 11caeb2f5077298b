// Package shares tells what part each input has in the variance of a result: alone (the
// first-order share) and with all that it does together with others (the total-order share),
// after I. M. Sobol' (1993). Both are pure numbers from 0 to 1 but for their errors. An input
// may be several numbers, which are then exchanged together. Inputs are taken as independent.
//
// With f the result, A and B two independent draws of all inputs and Ai that is A but for the
// input i, which is as in B, the first-order share is the mean of f(B)(f(Ai) − f(A)) over the
// variance of f (A. Saltelli and others, Comput. Phys. Commun. 181, 2010), the total-order one
// half the mean of (f(A) − f(Ai))² over it (M. J. W. Jansen, Comput. Phys. Commun. 117, 1999).
// They are estimated from Scrambles independent scrambles of Points Sobol' points, with the
// direction numbers of S. Joe and F. Y. Kuo (2008); the standard errors are from the
// scrambles. Whatever the number of cores, the same seed gives the same shares.
package shares

import (
	"context"
	"math"
	"sync/atomic"

	"golang.org/x/sync/errgroup"
	"gonum.org/v1/gonum/stat"
)

// Scrambles is the number of independent scrambles.
const Scrambles = 8

// Problem is what is studied.
type Problem struct {
	Inputs  []int // the number of coordinates of each
	Results int   // how many a run has
	Seed    int64 // of the scrambles
	// Place is what a coordinate is where the share u of its distribution lies below, u
	// from 0 to 1; nil: u itself.
	Place func(coordinate int, u float64) float64
	// Runs, one for each core, put into y what the results are at x, NaN where one does not
	// apply, and tell whether there are any.
	Runs []func(x, y []float64) bool
}

// Estimate is the Value of a share (a pure number) and its standard Error; NaN where the
// result does not vary.
type Estimate struct{ Value, Error float64 }

// Input is the shares of an input in the variance of a result.
type Input struct {
	Words string   // what it is, to follow "the"; of a train only
	First Estimate // alone
	Total Estimate // alone and together with others
	Joint Estimate // the second less the first
}

// Unknown is the shares of an input that were not estimated.
func Unknown() Input {
	nan := Estimate{math.NaN(), math.NaN()}
	return Input{"", nan, nan, nan}
}

// Result is the shares in the variance of one result.
type Result struct {
	Inputs []Input  // in the order of the problem
	Joint  Estimate // what no input has alone: 1 less the sum of the first-order shares
	Pairs  int      // of runs that were to be compared
	Failed int      // of them left out, as one of the runs could not be built
}

// Of estimates the shares. It fails with the error of ctx only.
func Of(ctx context.Context, p Problem) ([]Result, error) {
	d := design{Problem: p, runs: len(p.Inputs) + 2}
	for _, n := range p.Inputs {
		d.width += n
	}
	if err := d.run(ctx); err != nil {
		return nil, err
	}
	results := make([]Result, p.Results)
	for i := range results {
		results[i] = d.result(i)
	}
	return results, nil
}

// design is the runs of a problem: for each point those at A and B, which are half of its
// coordinates each, and for each input that at A with the input as in B.
type design struct {
	Problem
	width int       // coordinates
	runs  int       // of a point: A, B, then those of the inputs
	y     []float64 // of the results, of the runs, of the points, of the scrambles
}

// rows is the number of points that are taken at a time.
const rows = 16

func (d *design) run(ctx context.Context) error {
	d.y = make([]float64, Scrambles*Points*d.runs*d.Results)
	table := coordinates()
	var at [Scrambles][]float64
	for s := range at {
		at[s] = points(d.Seed, s, 2*d.width, table)
	}
	var next atomic.Int64
	group, ctx := errgroup.WithContext(ctx)
	for _, run := range d.Runs {
		group.Go(func() error {
			x := make([]float64, 2*d.width)
			for ctx.Err() == nil {
				from := rows * (int(next.Add(1)) - 1)
				if from >= Scrambles*Points {
					break
				}
				for i := from; i < from+rows; i++ {
					d.point(i, at[i/Points][i%Points*2*d.width:], x, run)
				}
			}
			return ctx.Err()
		})
	}
	return group.Wait()
}

// point carries out the runs of a point; x has room for its coordinates. Of each two of
// the table one is of A and one of B: neighbours lie more evenly over their plane than
// others do.
func (d *design) point(number int, u, x []float64, run func(x, y []float64) bool) {
	a, b := x[:d.width], x[d.width:]
	for c := range a {
		if a[c], b[c] = u[2*c], u[2*c+1]; d.Place != nil {
			a[c], b[c] = d.Place(c, a[c]), d.Place(c, b[c])
		}
	}
	once := func(which int, x []float64) {
		y := d.at(number, which)
		if !run(x, y) {
			for i := range y {
				y[i] = math.NaN()
			}
		}
	}
	once(0, a)
	once(1, b)
	first := 0
	for i, n := range d.Inputs {
		for c := first; c < first+n; c++ {
			a[c], b[c] = b[c], a[c]
		}
		once(2+i, a)
		for c := first; c < first+n; c++ {
			a[c], b[c] = b[c], a[c]
		}
		first += n
	}
}

// at are the results of a run.
func (d *design) at(number, which int) []float64 {
	i := (number*d.runs + which) * d.Results
	return d.y[i : i+d.Results]
}

// constant is the standard deviation, as a share of the mean, that is rounding only.
const constant = 1e-9

// result gathers the shares in the variance of a result.
func (d *design) result(number int) Result {
	r := Result{Inputs: make([]Input, len(d.Inputs)), Pairs: Scrambles * Points * len(d.Inputs)}
	n := len(d.Inputs)
	var first, total, joint = make([][Scrambles]float64, n), make([][Scrambles]float64, n), make([][Scrambles]float64, n)
	var left [Scrambles]float64
	for s := range Scrambles {
		mean, variance := d.moments(s, number)
		left[s] = 1
		for i := range n {
			f, t, failed := d.compare(s, i, number, mean)
			first[i][s], total[i][s], joint[i][s] = f/variance, t/variance, (t-f)/variance
			left[s] -= f / variance
			r.Failed += failed
		}
	}
	for i := range r.Inputs {
		r.Inputs[i] = Input{"", estimate(first[i]), estimate(total[i]), estimate(joint[i])}
	}
	r.Joint = estimate(left)
	return r
}

// moments are mean and variance of a result over the runs at A and B of a scramble; the
// variance is NaN where it is rounding only.
func (d *design) moments(scramble, result int) (mean, variance float64) {
	var y []float64
	for i := scramble * Points; i < (scramble+1)*Points; i++ {
		for which := range 2 {
			if v := d.at(i, which)[result]; !math.IsNaN(v) {
				y = append(y, v)
			}
		}
	}
	if len(y) < 2 {
		return 0, math.NaN()
	}
	mean, variance = stat.PopMeanVariance(y, nil)
	if math.Sqrt(variance) <= constant*math.Abs(mean) {
		variance = math.NaN()
	}
	return mean, variance
}

// compare gives the parts of the variance that an input has alone and in all, and how
// many pairs were left out. The mean is taken off first: that changes no expectation, and
// makes the error small where the mean is large against the spread.
func (d *design) compare(scramble, input, result int, mean float64) (first, total float64, failed int) {
	n := 0.0
	for i := scramble * Points; i < (scramble+1)*Points; i++ {
		a, b, c := d.at(i, 0)[result], d.at(i, 1)[result], d.at(i, 2+input)[result]
		if math.IsNaN(a + b + c) {
			failed++
			continue
		}
		n++
		first += (b - mean) * (c - a)
		total += (c - a) * (c - a) / 2
	}
	return first / n, total / n, failed
}

// estimate is the mean over the scrambles with its standard error.
func estimate(of [Scrambles]float64) Estimate {
	mean, sd := stat.MeanStdDev(of[:], nil)
	return Estimate{mean, stat.StdErr(sd, Scrambles)}
}
