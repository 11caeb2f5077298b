package found

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"evenpull/sim/bench/fit"

	"gonum.org/v1/gonum/mat"
)

// solve finds the places that explain the readings. From far off it goes nearer by readings
// that are taken to be rough first.
func (f *fitter) solve() (*fit.Result, error) {
	res, err := fit.Solve(f.problem())
	if err == nil && !f.ended(&res) {
		p := f.problem()
		for _, rough := range []float64{0.1, 0.02, 0} {
			p.SD = slices.Clone(f.sd)
			for i := range f.points {
				p.SD[i] = max(p.SD[i], rough*f.y[i])
			}
			if res, err = fit.Solve(p); err != nil {
				return nil, err
			}
			p.Start = res.B
		}
	}
	switch {
	case err != nil:
		return nil, err
	case !f.ended(&res):
		return nil, fmt.Errorf("no strip like the one that was measured gives these readings (%s)", res.Status)
	}
	return &res, nil
}

// ended tells whether a fit is at a least sum of squares. Where the fusee begins to be wound
// no further the torque has a corner, at which a fit may end: it is as good as its residuals.
func (f *fitter) ended(res *fit.Result) bool {
	switch res.Status {
	case fit.Converged, fit.AtBound:
		return true
	case fit.NotConverged:
		return f.misfit(res.B) < goodEnough
	}
	return false
}

// take keeps what a fit found.
func (f *fitter) take(res *fit.Result) (err error) {
	n := len(f.parts)
	misfit := f.misfit(res.B)
	widen := max(1, misfit*misfit) // by what the strip does not explain (R. T. Birge's ratio)
	f.at, f.errors = res.B[:n], mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			if c := res.Covariance.At(i, j); !math.IsNaN(c) { // on its bound it is held there
				f.errors.SetSym(i, j, c*widen)
			}
		}
	}
	f.root, err = rootOf(f.errors)
	return err
}

// rootOf is the lower triangle whose square a covariance is (Cholesky). What is held on its
// bound has no variance, and takes no part.
func rootOf(c *mat.SymDense) (*mat.TriDense, error) {
	n := c.SymmetricDim()
	whole := mat.NewSymDense(n, nil)
	whole.CopySym(c)
	for i := range n {
		if c.At(i, i) == 0 {
			whole.SetSym(i, i, 1)
		}
	}
	var factors mat.Cholesky
	if !factors.Factorize(whole) {
		return nil, errors.New("the readings leave open how far the strip may be off")
	}
	root := mat.NewTriDense(n, mat.Lower, nil)
	factors.LTo(root)
	for i := range n {
		if c.At(i, i) == 0 {
			root.SetTri(i, i, 0)
		}
	}
	return root, nil
}

// misfit is the residuals over what scatter explains, rms.
func (f *fitter) misfit(b []float64) float64 {
	squares := 0.0
	for i, v := range f.fitted(b)[:len(f.points)] {
		d := (f.y[i] - v) / f.sd[i]
		squares += d * d
	}
	return math.Sqrt(squares / float64(len(f.points)))
}
