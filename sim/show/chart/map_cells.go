package chart

import (
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"
)

// fineRows is about the number of rows of boxes that the map is filled with, so
// many that their edges follow the lines between the steps.
const fineRows = 240

// cells fills the map with boxes finer than the grid; neighbours of one step along
// a row are one box. Each reaches into the row above, which covers the seam.
func (d *mapDrawing) cells() {
	fine := func(n int) int { return (n - 1) * max(1, fineRows/(n-1)) }
	nx, ny := fine(len(d.Xs)), fine(len(d.Ys))
	x := func(i int) float64 { return along(d.Xs, i, nx) }
	for j := range ny {
		y0, y1 := along(d.Ys, j, ny), along(d.Ys, min(j+2, ny), ny)
		step := func(i int) int { return d.step(d.between((float64(i)+0.5)/float64(nx), (float64(j)+0.5)/float64(ny))) }
		for i := 0; i < nx; {
			s, from := step(i), i
			for i < nx && step(i) == s {
				i++
			}
			if s >= 0 {
				d.area("", box(x(from), y0, x(i), y1), d.tone(s), draw.LineStyle{})
			}
		}
	}
}

// mostCrosses is about the number of crosses along an axis.
const mostCrosses = 24

// crosses marks the grid points that cannot be built, or some of them.
func (d *mapDrawing) crosses() {
	var at plotter.XYs
	every := func(n int) int { return max(1, n/mostCrosses) }
	for j := 0; j < len(d.Ys); j += every(len(d.Ys)) {
		for i := 0; i < len(d.Xs); i += every(len(d.Xs)) {
			if !finite(d.At(i, j)) {
				at = append(at, plotter.XY{X: d.Xs[i], Y: d.Ys[j]})
			}
		}
	}
	d.points("cannot be built", at, unbuiltDot)
}

// along is the value at part i of n equal shares of a grid.
func along(v []float64, i, n int) float64 {
	u := float64(i) / float64(n) * float64(len(v)-1)
	k := min(int(u), len(v)-2)
	return v[k] + (u-float64(k))*(v[k+1]-v[k])
}

// between is the quantity at shares of the grid's width and height, straight
// between its corners; beside a corner that is no number, that of the nearest.
func (d *mapDrawing) between(u, v float64) float64 {
	x, y := u*float64(len(d.Xs)-1), v*float64(len(d.Ys)-1)
	i, j := min(int(x), len(d.Xs)-2), min(int(y), len(d.Ys)-2)
	x, y = x-float64(i), y-float64(j)
	z := (d.At(i, j)*(1-x)+d.At(i+1, j)*x)*(1-y) + (d.At(i, j+1)*(1-x)+d.At(i+1, j+1)*x)*y
	if finite(z) {
		return z
	}
	return d.At(i+int(x+0.5), j+int(y+0.5))
}
