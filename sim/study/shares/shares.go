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
// direction numbers of S. Joe and F. Y. Kuo (2008), scrambled after A. B. Owen (1995); the
// coordinates beyond the 256 that they are for are a Latin hypercube. The standard errors are
// from the scrambles. An input of which one is above Known is estimated again from MostPoints.
// Whatever the number of cores, the same seed gives the same shares. A pair of runs of which
// one cannot be built is left out: where many are, the shares are those of what can be built.
package shares

import (
	"context"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

const (
	// Scrambles is the number of independent scrambles.
	Scrambles = 8
	// Known is the standard error, as a share of the variance, that will do: three of them
	// are within a hundredth.
	Known = 0.003
)

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
	all := make([]int, len(p.Inputs))
	for i := range all {
		all[i] = i
	}
	found, err := scrambled(ctx, p, fewBits, all)
	if err != nil {
		return nil, err
	}
	unsure := slices.DeleteFunc(all, func(i int) bool {
		return !slices.ContainsFunc(found, func(of []parts) bool { return of[i].unsure() })
	})
	if len(unsure) > 0 {
		again, err := scrambled(ctx, p, mostBits, unsure)
		if err != nil {
			return nil, err
		}
		for r := range found {
			for k, i := range unsure {
				found[r][i] = again[r][k]
			}
		}
	}
	results := make([]Result, p.Results)
	for r := range results {
		results[r] = resultOf(found[r])
	}
	return results, nil
}

// parts are what an input has of the variance of a result, by each of the scrambles.
type parts struct {
	first, total  [Scrambles]float64 // as shares
	pairs, failed int
}

func (p *parts) input() Input {
	var joint [Scrambles]float64
	for s := range joint {
		joint[s] = p.total[s] - p.first[s]
	}
	return Input{"", estimate(p.first), estimate(p.total), estimate(joint)}
}

// unsure tells whether a share is not known well enough.
func (p *parts) unsure() bool {
	return estimate(p.first).Error > Known || estimate(p.total).Error > Known
}

// resultOf gathers what all inputs have.
func resultOf(all []parts) Result {
	r := Result{Inputs: make([]Input, len(all))}
	var left [Scrambles]float64
	for s := range left {
		left[s] = 1
		for i := range all {
			left[s] -= all[i].first[s]
		}
	}
	for i := range all {
		r.Inputs[i] = all[i].input()
		r.Pairs += all[i].pairs
		r.Failed += all[i].failed
	}
	r.Joint = estimate(left)
	return r
}

// estimate is the mean over the scrambles with its standard error.
func estimate(of [Scrambles]float64) Estimate {
	mean, sd := stat.MeanStdDev(of[:], nil)
	return Estimate{mean, stat.StdErr(sd, Scrambles)}
}
