package found

import (
	"math"
	"slices"
	"strings"

	"evenpull/sim/bench/fit"

	"github.com/golang/geo/r1"
	"gonum.org/v1/gonum/mat"
)

// Told is an input of the strip: as it was measured or assumed, and as the readings have it
// beside that.
type Told struct {
	Key           string      // below the train: mainspring.thickness_mm
	Words, Unit   string      // what it is, to follow "the", and the unit of its figures
	Measured      bool        // on the spring; else the scenario's, or assumed
	Before        float64     // as it was measured or assumed
	Value         float64     // as the readings have it
	StandardError float64     // of Value
	Interval      r1.Interval // 95 %
	Narrowed      float64     // standard error over what it was before the readings
	Off           float64     // value less what was known before, in standard deviations of that
}

// told is what became of a part of the strip.
func (f *fitter) told(k int) Told {
	p := f.parts[k]
	t := Told{Words: p.Quantity.Words, Unit: p.Quantity.Unit, Before: p.Value}
	_, t.Key, _ = strings.Cut(p.Quantity.Key, ".")
	t.Measured = f.given == nil && p.Quantity.Given || f.given[strings.TrimPrefix(t.Key, "mainspring.")]
	sd := math.Sqrt(f.errors.At(k, k))
	at := slices.Clone(f.at)
	value := func(place float64) float64 {
		at[k] = place
		return f.drawer.At(at)[k]
	}
	t.Value = value(f.at[k])
	lo, hi := value(f.at[k]-1.96*sd), value(f.at[k]+1.96*sd)
	t.Interval = r1.Interval{Lo: min(lo, hi), Hi: max(lo, hi)}
	t.StandardError = (t.Interval.Hi - t.Interval.Lo) / (2 * 1.96)
	t.Narrowed, t.Off = sd, f.at[k]
	if f.even[k] {
		t.Narrowed *= math.Sqrt(3)
	}
	return t
}

// alikeFrom is the correlation from which on two inputs cannot be told apart.
const alikeFrom = 0.95

// apart finds the parts of the strip that were not measured, and of which the readings see
// the same effect.
func (f *fitter) apart(told []Told, res *fit.Result) (pairs [][2]int) {
	n := len(f.points)
	column := func(k int) []float64 {
		b, d := slices.Clone(res.B), make([]float64, n)
		const step = 1e-3
		b[k] = res.B[k] + step
		up := slices.Clone(f.fitted(b)[:n])
		b[k] = res.B[k] - step
		down := f.fitted(b)
		for i := range d {
			d[i] = (up[i] - down[i]) / f.sd[i]
		}
		return d
	}
	var open []int
	var columns []*mat.VecDense
	for k := range told { // the strip's are the first of all
		switch told[k].Key {
		case "mainspring.thickness_mm", "mainspring.yield_mpa", "mainspring.free_coils", "mainspring.efficiency", "mainspring.friction_coefficient", "mainspring.length_mm":
			if !told[k].Measured {
				open, columns = append(open, k), append(columns, mat.NewVecDense(n, column(k)))
			}
		}
	}
	for i := range open {
		for j := range i {
			a, b := columns[j], columns[i]
			if c := mat.Dot(a, b) / (mat.Norm(a, 2) * mat.Norm(b, 2)); math.Abs(c) >= alikeFrom {
				pairs = append(pairs, [2]int{open[j], open[i]})
			}
		}
	}
	return pairs
}
