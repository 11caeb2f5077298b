package shares

import (
	"context"
	"math"
	"sync/atomic"

	"golang.org/x/sync/errgroup"
	"gonum.org/v1/gonum/stat"
)

// design is the runs of a problem: for each point those at A and B, which are half of its
// coordinates each, and for each input that is estimated that at A with the input as in B.
type design struct {
	Problem
	inputs []int     // that are estimated
	points int       // of a scramble
	width  int       // coordinates
	runs   int       // of a point: A, B, then those of the inputs
	y      []float64 // of the results, of the runs, of the points, of the scrambles
}

// scrambled estimates for each result what some of the inputs have, from scrambles of 2 to
// the power of bits points.
func scrambled(ctx context.Context, p Problem, bits int, inputs []int) ([][]parts, error) {
	d := design{Problem: p, inputs: inputs, points: 1 << bits, runs: len(inputs) + 2}
	for _, n := range p.Inputs {
		d.width += n
	}
	if err := d.run(ctx, bits); err != nil {
		return nil, err
	}
	found := make([][]parts, p.Results)
	for r := range found {
		found[r] = make([]parts, len(inputs))
		for s := range Scrambles {
			mean, variance := d.moments(s, r)
			for k := range inputs {
				in := &found[r][k]
				first, total, failed := d.compare(s, k, r, mean)
				in.first[s], in.total[s] = first/variance, total/variance
				in.pairs += d.points
				in.failed += failed
			}
		}
	}
	return found, nil
}

// rows is the number of points that are taken at a time.
const rows = 16

func (d *design) run(ctx context.Context, bits int) error {
	d.y = make([]float64, Scrambles*d.points*d.runs*d.Results)
	table := coordinates(bits)
	var at [Scrambles][]float64
	for s := range at {
		at[s] = points(d.Seed, s, bits, 2*d.width, table)
	}
	var next atomic.Int64
	group, ctx := errgroup.WithContext(ctx)
	for _, run := range d.Runs {
		group.Go(func() error {
			x := make([]float64, 2*d.width)
			for ctx.Err() == nil {
				from := rows * (int(next.Add(1)) - 1)
				if from >= Scrambles*d.points {
					break
				}
				for i := from; i < from+rows; i++ {
					d.point(i, at[i/d.points][i%d.points*2*d.width:], x, run)
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
	from, first := 0, 0
	for k, i := range d.inputs {
		for ; from < i; from++ {
			first += d.Inputs[from]
		}
		exchange := func() {
			for c := first; c < first+d.Inputs[i]; c++ {
				a[c], b[c] = b[c], a[c]
			}
		}
		exchange()
		once(2+k, a)
		exchange()
	}
}

// at are the results of a run.
func (d *design) at(number, which int) []float64 {
	i := (number*d.runs + which) * d.Results
	return d.y[i : i+d.Results]
}

// constant is the standard deviation, as a share of the mean, that is rounding only.
const constant = 1e-9

// moments are mean and variance of a result over the runs at A and B of a scramble; the
// variance is NaN where it is rounding only.
func (d *design) moments(scramble, result int) (mean, variance float64) {
	var y []float64
	for i := scramble * d.points; i < (scramble+1)*d.points; i++ {
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
	for i := scramble * d.points; i < (scramble+1)*d.points; i++ {
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
