package choose

import (
	"math"

	"evenpull/fusee/numeric"
	"evenpull/sim"
)

// Tolerance is the range of thickness (mm), From and To, over which a spring can still be
// ordered; NaN for both when it cannot itself.
type Tolerance struct{ From, To float64 }

// Known tells whether the spring can be ordered, so that there is a range.
func (t Tolerance) Known() bool { return t.From < t.To }

// Told is the range; nil when there is none.
func (t *Tolerance) Told() *Tolerance {
	if t.Known() {
		return t
	}
	return nil
}

var noTolerance = Tolerance{math.NaN(), math.NaN()}

// tolerate finds what tolerance the foremost candidates allow.
func (st *Study) tolerate() {
	f := newFitter(&st.shop)
	for i := range st.Candidates[:min(MostDrawn, len(st.Candidates))] {
		f.tolerate(&st.Candidates[i])
	}
}

// tolerate finds what tolerance a candidate allows.
func (f *fitter) tolerate(c *Candidate) {
	if c.Tolerance = noTolerance; !c.Orders() {
		return
	}
	c.Tolerance = around(c.ThicknessMM, func(h float64) bool {
		sp := c.Spring
		sp.ThicknessMM, sp.LengthMM = h, c.Length()
		f.strip = f.stripOf(&sp)
		r, err := f.run(c.Digest.Spring.SetUp, sim.Options{})
		return err == nil && advised(&r.Digest)
	})
}

// around finds the range about a thickness in which it is good, to a millionth of
// it; it goes no farther than to a half and to twice of it.
func around(h float64, good func(h float64) bool) Tolerance {
	if !good(h) {
		return noTolerance
	}
	end := func(factor float64) float64 {
		in := h
		out := in * factor
		for good(out) {
			if in, out = out, out*factor; math.Abs(math.Log(out/h)) > math.Ln2 {
				return in
			}
		}
		in, _ = numeric.Bisect(in, out, 1e-6*h, good)
		return in
	}
	return Tolerance{From: end(1 / 1.01), To: end(1.01)}
}
