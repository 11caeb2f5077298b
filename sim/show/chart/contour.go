package chart

import "gonum.org/v1/plot/plotter"

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
// a number. A saddle is taken as split by the mean of its corners.
func (l *lattice) contour(level float64) []plotter.XYs {
	links := map[edge][]edge{}
	var order []edge
	join := func(a, b edge) {
		for _, e := range []edge{a, b} {
			if links[e] == nil {
				order = append(order, e)
			}
		}
		links[a], links[b] = append(links[a], b), append(links[b], a)
	}
	for j := range len(l.ys) - 1 {
		for i := range len(l.xs) - 1 {
			l.cell(i, j, level, join)
		}
	}
	return l.chains(links, order, level)
}

// cell joins the sides of a cell that the level passes.
func (l *lattice) cell(i, j int, level float64, join func(a, b edge)) {
	corners := [4]float64{l.at(i, j), l.at(i+1, j), l.at(i+1, j+1), l.at(i, j+1)}
	sum := 0.0
	for _, v := range corners {
		sum += v
	}
	if !finite(sum) {
		return
	}
	sides := [4]edge{{i, j, true}, {i + 1, j, false}, {i, j + 1, true}, {i, j, false}}
	var passed []int
	for k := range 4 {
		if (corners[k] >= level) != (corners[(k+1)%4] >= level) {
			passed = append(passed, k)
		}
	}
	switch len(passed) {
	case 2:
		join(sides[passed[0]], sides[passed[1]])
	case 4:
		// Sides 0 and 1 meet at corner 1; it is cut off when the middle is on the
		// other side of the level.
		if (corners[1] >= level) != (sum/4 >= level) {
			join(sides[0], sides[1])
			join(sides[2], sides[3])
		} else {
			join(sides[3], sides[0])
			join(sides[1], sides[2])
		}
	}
}

// chains strings the joined sides together, open ones from an end.
func (l *lattice) chains(links map[edge][]edge, order []edge, level float64) []plotter.XYs {
	var lines []plotter.XYs
	used := map[edge]bool{}
	follow := func(start edge) {
		line := plotter.XYs{l.crossing(start, level)}
		used[start] = true
		for at := start; ; {
			next, found := edge{}, false
			for _, e := range links[at] {
				if !used[e] {
					next, found = e, true
					break
				}
			}
			if !found {
				break
			}
			used[next] = true
			line = append(line, l.crossing(next, level))
			at = next
		}
		if len(line) > 2 && len(links[start]) == 2 {
			line = append(line, line[0]) // closed
		}
		if len(line) > 1 {
			lines = append(lines, line)
		}
	}
	for _, ends := range []int{1, 2} {
		for _, e := range order {
			if !used[e] && len(links[e]) == ends {
				follow(e)
			}
		}
	}
	return lines
}

// crossing is where the quantity passes the level on a side.
func (l *lattice) crossing(e edge, level float64) plotter.XY {
	i2, j2 := e.i, e.j+1
	if e.along {
		i2, j2 = e.i+1, e.j
	}
	a, b := l.at(e.i, e.j), l.at(i2, j2)
	u := 0.5
	if a != b {
		u = (level - a) / (b - a)
	}
	return plotter.XY{X: l.xs[e.i] + u*(l.xs[i2]-l.xs[e.i]), Y: l.ys[e.j] + u*(l.ys[j2]-l.ys[e.j])}
}
