package batch

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"

	"evenpull/sim/scenario"
	"evenpull/sim/study/shares"
	"evenpull/sim/vary"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distmv"
	"gonum.org/v1/gonum/stat/samplemv"
)

// Designs are the names of the ways to lay out a table over the tolerances: grid, every level
// of one with every level of the others, levels in the middle of as many parts of equal
// probability; latin, a Latin hypercube (M. D. McKay, R. J. Beckman, W. J. Conover,
// Technometrics 21, 1979, from memory); sobol, Sobol' points (package shares).
func Designs() []string { return []string{"grid", "latin", "sobol"} }

// Errors of a design.
var (
	ErrDesign  = errors.New("want grid, latin or sobol")
	ErrNothing = errors.New("a design is over the tolerances of the train, and there are none: give it some [[tolerance]]")
	ErrFew     = errors.New("too few for two levels of each")
)

// Design is a table over the tolerances of the train with the given number, of at most so
// many rows; grid has fewer where levels to the power of the inputs do not come out even. The
// header is the KEYs, the cells are values in their units, to nine figures, by the law of each
// tolerance and within the range of the KEY; next gives a row, io.EOF after the last. It
// fails with ErrDesign, ErrNothing and ErrFew.
func Design(s *scenario.Scenario, number int, name string, runs int, seed int64) (header []string, next func() ([]string, error), n int, err error) {
	inputs, err := vary.Inputs(s, number)
	if err != nil {
		return nil, nil, 0, err
	}
	var parts []vary.Part
	for _, in := range inputs {
		if in.Tolerated {
			parts = append(parts, in.Parts...)
		}
	}
	if len(parts) == 0 {
		return nil, nil, 0, ErrNothing
	}
	at, n, err := places(name, len(parts), runs, seed)
	if err != nil {
		return nil, nil, 0, err
	}
	for i := range parts {
		header = append(header, parts[i].Quantity.Key)
	}
	row := 0
	return header, func() ([]string, error) {
		if row == n {
			return nil, io.EOF
		}
		cells := make([]string, len(parts))
		for i := range parts {
			p := &parts[i]
			v := p.Error.At(p.Value, p.Error.Place(at(row, i)))
			cells[i] = strconv.FormatFloat(min(max(v, p.Quantity.Lo), p.Quantity.Hi), 'g', 9, 64)
		}
		row++
		return cells, nil
	}, n, nil
}

// places gives where in its distribution a coordinate of a row lies, from 0 to 1.
func places(name string, dimensions, runs int, seed int64) (at func(row, i int) float64, n int, err error) {
	switch slices.Index(Designs(), name) {
	case 0:
		levels := int(math.Pow(float64(runs), 1/float64(dimensions)) * (1 + 1e-12))
		if levels < 2 {
			return nil, 0, fmt.Errorf("%d runs are %w of %d tolerances, which take %.0f", runs, ErrFew, dimensions, math.Pow(2, float64(dimensions)))
		}
		return func(row, i int) float64 {
			for range dimensions - 1 - i { // the last turns fastest
				row /= levels
			}
			return (float64(row%levels) + 0.5) / float64(levels)
		}, int(math.Round(math.Pow(float64(levels), float64(dimensions)))), nil
	case 1:
		var key [32]byte
		binary.LittleEndian.PutUint64(key[:], uint64(seed))
		points := mat.NewDense(runs, dimensions, nil)
		source := rand.NewChaCha8(key)
		samplemv.LatinHypercube{Q: distmv.NewUnitUniform(dimensions, source), Src: source}.Sample(points)
		return points.At, runs, nil
	case 2:
		points := shares.Sobol(seed, dimensions, runs)
		return func(row, i int) float64 { return points[row*dimensions+i] }, runs, nil
	}
	return nil, 0, ErrDesign
}
