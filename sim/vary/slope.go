package vary

import (
	"math"
	"slices"

	"evenpull/sim"
	"evenpull/sim/outcome"
)

// Slope is the Value of a derivative and the Error it may have to either side, both in the
// units of the figure over those of the input.
type Slope struct{ Value, Error float64 }

// Elasticity is the slope as a power: ∂ ln y/∂ ln x for the figure y and the
// input x. NaN for a figure that is 0.
func (s Slope) Elasticity(x, y float64) Slope {
	if y == 0 {
		return Slope{math.NaN(), math.NaN()}
	}
	return Slope{s.Value * x / y, math.Abs(s.Error * x / y)}
}

const (
	firstStep = 1.0 / 128 // of the input's value
	tries     = 4         // steps, each an eighth of the one before
	goodSlope = 1e-6      // relative error at which no smaller step is tried
	noSlope   = 1e-9      // likewise, as a share of figure over input
)

// slopes differentiates figures of a run by one input.
type slopes struct {
	m      *Model
	of     func(*sim.Result) []float64
	input  int
	x      []float64
	scale  float64
	middle []float64
	best   []Slope
}

// Slopes differentiates figures by the input with the given number at the
// nominal values: by central differences at three steps, each half of the one
// before, extrapolated after Richardson; the last correction is the error. Where
// it is not small against the slope, as it is across a kink, smaller steps are
// tried and the best is kept. Where the train cannot be built on one side the
// differences are taken to the other. Scale is the change that matters, in the
// unit of the input; 0 takes its value. A slope that cannot be had is NaN.
func (m *Model) Slopes(input int, scale float64, of []outcome.Figure) []Slope {
	return m.SlopesOf(input, scale, len(of), func(r *sim.Result) []float64 {
		y := make([]float64, len(of))
		for i := range of {
			y[i] = of[i].Of(&r.Digest)
		}
		return y
	})
}

// SlopesOf is Slopes of n numbers that are read off a run; nil where it lacks any.
func (m *Model) SlopesOf(input int, scale float64, n int, of func(*sim.Result) []float64) []Slope {
	s := slopes{m: m, of: of, input: input, x: slices.Clone(m.nominal), best: make([]Slope, n)}
	for i := range s.best {
		s.best[i] = Slope{math.NaN(), math.Inf(1)}
	}
	if scale == 0 {
		scale = math.Abs(m.nominal[input])
	}
	if scale == 0 {
		scale = 1
	}
	s.middle, s.scale = s.figures(0), scale
	step := scale * firstStep
	for range tries {
		if s.middle == nil || s.try(step) {
			break
		}
		step /= 8
	}
	return s.best
}

// figures are those of the run with the input moved; nil when it cannot be built.
func (s *slopes) figures(by float64) []float64 {
	s.x[s.input] = s.m.nominal[s.input] + by
	r, err := s.m.Run(s.x)
	if err != nil {
		return nil
	}
	return s.of(r)
}

// try takes differences at a step and its halves, and tells whether they will do.
func (s *slopes) try(step float64) bool {
	above, below := s.figures(step), s.figures(-step)
	up, down := above != nil, below != nil
	if !up && !down {
		return false
	}
	var table [3][]float64
	for k := range table {
		if k > 0 {
			if up {
				above = s.figures(step)
			}
			if down {
				below = s.figures(-step)
			}
		}
		switch {
		case up && above == nil || down && below == nil:
			return false
		case up && down:
			table[k] = quotients(above, below, 2*step)
		case up:
			table[k] = quotients(above, s.middle, step)
		default:
			table[k] = quotients(s.middle, below, step)
		}
		step /= 2
	}
	if up && down {
		return s.keep(table, 4)
	}
	return s.keep(table, 2)
}

func quotients(above, below []float64, h float64) []float64 {
	d := make([]float64, len(above))
	for i := range d {
		d[i] = (above[i] - below[i]) / h
	}
	return d
}

// keep extrapolates the quotients to a step of 0 and keeps what is better than
// before. Their error falls by the given factor with each half: 4 for central
// differences, whose next term then falls by 16; 2 for one-sided ones.
func (s *slopes) keep(table [3][]float64, factor float64) bool {
	good := true
	for i := range s.best {
		t0, t1, t2 := table[0][i], table[1][i], table[2][i]
		a, b := extrapolate(t0, t1, factor), extrapolate(t1, t2, factor)
		v := extrapolate(a, b, factor*factor) // one-sided too: h² comes after h
		err := math.Abs(v - b)
		if err < s.best[i].Error {
			s.best[i] = Slope{v, err}
		}
		if e := s.best[i].Error; !(e <= goodSlope*math.Abs(s.best[i].Value) || e <= noSlope*math.Abs(s.middle[i])/s.scale) {
			good = false
		}
	}
	return good
}

func extrapolate(coarse, fine, factor float64) float64 { return fine + (fine-coarse)/(factor-1) }
