package chart

import (
	"slices"

	"gonum.org/v1/plot/plotter"
)

// lattice is a quantity on a rectangular grid. Its contours are made here and not by
// plotter.Contour, which gives them in another order each time and joins only ends
// that are equal to the last bit, so that dashes break.
type lattice struct {
	xs, ys []float64
	at     func(i, j int) float64
}

// edge is a side of a cell: from the grid point (i, j) along x, or along y.
type edge struct {
	i, j  int
	along bool
}

// contour gives the lines along which the quantity is level, by marching squares:
// within each cell straight from side to side, in cells of which every corner is
// a number. Open lines begin at an end.
func (l *lattice) contour(level float64) []plotter.XYs {
	links := map[edge][]edge{} // one, or two where the line goes on
	var order []edge
	for j := range len(l.ys) - 1 {
		for i := range len(l.xs) - 1 {
			passed := l.passed(i, j, level)
			for k, e := range passed {
				if links[e] == nil {
					order = append(order, e)
				}
				links[e] = append(links[e], passed[k^1])
			}
		}
	}
	var lines []plotter.XYs
	used := map[edge]bool{}
	for _, ends := range []int{1, 2} {
		for _, e := range order {
			if used[e] || len(links[e]) != ends {
				continue
			}
			var line plotter.XYs
			for next := []edge{e}; len(next) > 0; next = slices.DeleteFunc(links[e], func(e edge) bool { return used[e] }) {
				e = next[0]
				used[e] = true
				line = append(line, l.crossing(e, level))
			}
			if ends == 2 {
				line = append(line, line[0]) // closed
			}
			lines = append(lines, line)
		}
	}
	return lines
}

// passed are the sides of a cell that the level passes, in pairs to be joined. A
// saddle is taken as split by the mean of its corners.
func (l *lattice) passed(i, j int, level float64) []edge {
	corners := [4]float64{l.at(i, j), l.at(i+1, j), l.at(i+1, j+1), l.at(i, j+1)}
	sum := corners[0] + corners[1] + corners[2] + corners[3]
	if !finite(sum) {
		return nil
	}
	var passed []edge
	for k, side := range [4]edge{{i, j, true}, {i + 1, j, false}, {i, j + 1, true}, {i, j, false}} {
		if (corners[k] >= level) != (corners[(k+1)%4] >= level) {
			passed = append(passed, side)
		}
	}
	// The first two sides meet at corner 1; it is cut off when the middle is on the
	// other side of the level.
	if len(passed) == 4 && (corners[1] >= level) == (sum/4 >= level) {
		return []edge{passed[3], passed[0], passed[1], passed[2]}
	}
	return passed
}

// crossing is where the quantity passes the level on a side.
func (l *lattice) crossing(e edge, level float64) plotter.XY {
	i2, j2 := e.i, e.j+1
	if e.along {
		i2, j2 = e.i+1, e.j
	}
	a, b := l.at(e.i, e.j), l.at(i2, j2)
	u := (level - a) / (b - a)
	return plotter.XY{X: l.xs[e.i] + u*(l.xs[i2]-l.xs[e.i]), Y: l.ys[e.j] + u*(l.ys[j2]-l.ys[e.j])}
}
