package choose

import (
	"math"

	"evenpull/sim/rules"
)

// Tolerance is the range of thickness (mm) over which a spring still suits and
// covers the turns; NaN for both ends when it does not itself.
type Tolerance struct{ From, To float64 }

// Known tells whether there is such a range.
func (t Tolerance) Known() bool { return t.From < t.To }

var noTolerance = Tolerance{math.NaN(), math.NaN()}

// suits tells whether such a strip suits and covers the turns.
func (f *fitter) suits(width, thickness, length, setUp float64) bool {
	r := f.whole(width, thickness, length, setUp)
	return r != nil && r.Verdict.Code == rules.Suits && r.TurnsLost == 0
}

// around finds the range about a thickness in which it is good, to a millionth of
// it; it goes no farther than to a half and to twice of it.
func around(h float64, good func(h float64) bool) Tolerance {
	if !good(h) {
		return noTolerance
	}
	end := func(factor, limit float64) float64 {
		in, out := h, h*factor
		for good(out) {
			if in, out = out, out*factor; math.Abs(math.Log(out/h)) > limit {
				return in
			}
		}
		for math.Abs(out-in) > 1e-6*h {
			if mid := (in + out) / 2; good(mid) {
				in = mid
			} else {
				out = mid
			}
		}
		return in
	}
	return Tolerance{From: end(1/1.01, math.Ln2), To: end(1.01, math.Ln2)}
}
