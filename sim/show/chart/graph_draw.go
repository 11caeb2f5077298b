package chart

import (
	"slices"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// graphDrawing is a graph on its way to the page.
type graphDrawing struct {
	*board
	*Graph
	x, y  r1.Interval
	end   float64   // of the x axis before the gutter
	top   float64   // of the y axis, the names of the stripes included
	width vg.Length // of the x axis
}

// names is the share of the height above the data that is kept for the names of
// the stripes.
const names = 0.09

func (g *Graph) draw(panel draw.Canvas) {
	d := graphDrawing{board: newBoard(g.Title, g.X, g.Y), Graph: g}
	d.x, d.y, d.end = g.extents()
	d.top = d.y.Hi
	if slices.ContainsFunc(g.Stripes, func(s Shade) bool { return !s.Plain }) {
		d.top += names * d.y.Length()
	}
	if g.Ticks != nil {
		d.board.X.Tick.Marker = plot.ConstantTicks(g.Ticks)
	}
	whole := r1.Interval{Lo: d.y.Lo, Hi: d.top}
	d.board.Y.Min, d.board.Y.Max = whole.Lo, whole.Hi // the width depends on the words beside the axis
	inner := d.DataCanvas(panel)
	d.width = inner.Max.X - inner.Min.X
	for _, add := range []func(){d.shades, d.areas, d.bars, d.curves, d.levels, d.uprights} {
		add()
	}
	d.dots(d.Dots, d.x, d.y)
	d.finish(panel, d.x, whole, 0)
}

func (d *graphDrawing) bars() {
	for _, b := range d.Bars {
		if !finite(b.From+b.To+b.Height) || b.Height <= 0 {
			continue
		}
		if b.To == b.From { // one value only
			b.To += 0.01 * d.x.Length()
		}
		d.area("", box(b.From, 0, b.To, b.Height), barFill, outline)
	}
}

func (d *graphDrawing) curves() {
	style := picker{others: curveLines}
	for _, l := range d.Lines {
		d.line(l.Label, l.Points, style.style(l.Role))
	}
}

func (d *graphDrawing) levels() {
	d.limits(d.Levels, d.y, func(at float64) plotter.XYs { return plotter.XYs{{X: d.x.Lo, Y: at}, {X: d.end, Y: at}} })
}

func (d *graphDrawing) uprights() {
	d.limits(d.Uprights, d.x, func(at float64) plotter.XYs { return plotter.XYs{{X: at, Y: d.y.Lo}, {X: at, Y: d.y.Hi}} })
}

func (d *graphDrawing) limits(list []Limit, axis r1.Interval, across func(at float64) plotter.XYs) {
	style := picker{others: limitLines}
	var line draw.LineStyle
	for i, l := range list {
		if i == 0 || l.Label != "" {
			line = style.style(l.Role)
		}
		if axis.Contains(l.At) {
			d.line(l.Label, across(l.At), line)
		}
	}
}

func (d *graphDrawing) areas() {
	for _, a := range d.Areas {
		for i, o := range a.outlines() {
			d.area(once(a.Label, i), o, areaFill, outline)
		}
	}
}

// outlines go along the lower curve and back along the upper one, once for each
// stretch over which both have numbers.
func (a *Area) outlines() []plotter.XYs {
	var list []plotter.XYs
	from, n := 0, min(len(a.Lower), len(a.Upper))
	for k := 0; k <= n; k++ {
		if k < n && finite(a.Lower[k].X+a.Lower[k].Y+a.Upper[k].X+a.Upper[k].Y) {
			continue
		}
		if from < k {
			back := slices.Clone(a.Upper[from:k])
			slices.Reverse(back)
			list = append(list, append(slices.Clone(a.Lower[from:k]), back...))
		}
		from = k + 1
	}
	return list
}
