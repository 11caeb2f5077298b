package chart

import (
	"math"
	"slices"

	"gonum.org/v1/plot/plotter"
)

// lattice is a quantity on a rectangular grid. Its contours are made here and not by
// plotter.Contour, which gives them in another order each time and joins only ends
// that are equal to the last bit, so that dashes break; nor does it fill them.
type lattice struct {
	xs, ys []float64
	at     func(i, j int) float64
}

// framed is the lattice with all that is no number, and a frame on its edge, below
// every level: there its contours close.
func (l *lattice) framed() *lattice {
	frame := func(v []float64) []float64 { return slices.Concat(v[:1], v, v[len(v)-1:]) }
	return &lattice{frame(l.xs), frame(l.ys), func(i, j int) float64 {
		if i > 0 && j > 0 && i <= len(l.xs) && j <= len(l.ys) && finite(l.at(i-1, j-1)) {
			return l.at(i-1, j-1)
		}
		return math.Inf(-1)
	}}
}

// edge is a side of a cell: from the grid point (i, j) along x, or along y.
type edge struct {
	i, j  int
	along bool
}

// contour gives the lines along which the quantity is level, nowhere between them, by
// marching squares: within each cell straight from side to side, higher values at the
// right, in cells of which every corner is a number. Closed lines end where they begin.
func (l *lattice) contour(level float64) (lines plotter.XYs) {
	var order []edge
	next, entered := map[edge]edge{}, map[edge]bool{}
	for j := range len(l.ys) - 1 {
		for i := range len(l.xs) - 1 {
			for _, way := range l.across(i, j, level) {
				order = append(order, way[0])
				next[way[0]], entered[way[1]] = way[1], true
			}
		}
	}
	for _, closed := range []bool{false, true} { // an open line is to begin at its end
		for _, e := range order {
			to, on := next[e]
			if !on || entered[e] != closed {
				continue
			}
			lines = append(lines, l.crossing(e, level))
			for ; on; to, on = next[e] {
				delete(next, e)
				e = to
				lines = append(lines, l.crossing(e, level))
			}
			lines = append(lines, nowhere())
		}
	}
	return lines
}

// across are the ways of the level across a cell, each from a side to a side.
func (l *lattice) across(i, j int, level float64) (ways [][2]edge) {
	corners := [4]float64{l.at(i, j), l.at(i+1, j), l.at(i+1, j+1), l.at(i, j+1)} // around the cell
	sides := [4]edge{{i, j, true}, {i + 1, j, false}, {i, j + 1, true}, {i, j, false}}
	mean := (corners[0] + corners[1] + corners[2] + corners[3]) / 4
	if math.IsNaN(mean) {
		return nil
	}
	above := func(k int) bool { return corners[k%4] >= level }
	for k := range 4 {
		if above(k) || !above(k+1) {
			continue
		}
		// In by the side where it rises, out by one where it falls. Of a saddle's two
		// that is the next one when the middle is low, which cuts the high corner off.
		turns := []int{1, 2, 3}
		if mean >= level {
			turns = []int{3, 2, 1}
		}
		out := slices.IndexFunc(turns, func(n int) bool { return above(k+n) && !above(k+n+1) })
		ways = append(ways, [2]edge{sides[k], sides[(k+turns[out])%4]})
	}
	return ways
}

// crossing is where the quantity passes the level on a side; beside a point below every
// level, at the other.
func (l *lattice) crossing(e edge, level float64) plotter.XY {
	i2, j2 := e.i, e.j+1
	if e.along {
		i2, j2 = e.i+1, e.j
	}
	a, b := l.at(e.i, e.j), l.at(i2, j2)
	u := (level - a) / (b - a)
	if math.IsInf(a, 0) {
		u = 1
	}
	return plotter.XY{X: l.xs[e.i] + u*(l.xs[i2]-l.xs[e.i]), Y: l.ys[e.j] + u*(l.ys[j2]-l.ys[e.j])}
}
