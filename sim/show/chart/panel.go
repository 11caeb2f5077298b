package chart

import (
	"cmp"
	"image/color"
	"math"
	"slices"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// panel is a plot: layers over two axes, the first at the back, and below them a
// legend of those with a label.
type panel struct {
	title, x, y string
	height      vg.Length   // 0: that of the first panel of a study
	xs, ys      r1.Interval // ranges of the axes; one without a length: that of the data
	least       float64     // least length of the y axis: what differs by less is level
	floor       bool        // the y axis begins at 0
	gutter      bool        // room at the right, as beside a panel with bands
	ticks       []plot.Tick // names along the x axis, of one line or more, or ""; nil: round values
	rows        []plot.Tick // names along the y axis; nil: round values
	stripes     []shade     // ranges of the x axis, behind everything
	bands       []shade     // ranges of the y axis, behind everything; rising
	layers      []layer
	scale       *panel // at the right: what the tints mean
	unseen      bool   // the title and the x axis, which keep their room
	narrow      bool   // for a picture half as wide as the others
}

// shade is a tinted range of an axis. Its name stands above the data or, that of a
// band, in the gutter; its label stands in the legend.
type shade struct {
	r1.Interval
	fill        color.Color
	name, label string
}

// layer is marks where it has a glyph, filled outlines where it has a fill, and lines
// else. A point that is no number breaks a line and ends an outline.
type layer struct {
	label  string // in the legend; "" for none
	points plotter.XYs
	half   []float64 // half the lengths of error bars; NaN where one is not known
	line   draw.LineStyle
	fill   color.Color
	glyph  draw.GlyphStyle
	words  *plotter.Labels // beside the points
	limit  bool            // infinite points stand for the ends of the axes; left out when far from the data
	always bool            // a limit that is always to be seen
}

// add puts layers in front of those of the panel.
func (p *panel) add(layers ...layer) *panel {
	p.layers = append(p.layers, layers...)
	return p
}

func line(label string, style draw.LineStyle, points plotter.XYs) layer {
	return layer{label: label, line: style, points: points}
}

// level is a limit of the y axis, from side to side.
func level(label string, style draw.LineStyle, at float64) layer {
	return layer{label: label, line: style, points: plotter.XYs{{X: math.Inf(-1), Y: at}, {X: math.Inf(1), Y: at}}, limit: true}
}

// upright is a limit of the x axis, from bottom to top.
func upright(label string, style draw.LineStyle, at float64) layer {
	return layer{label: label, line: style, points: plotter.XYs{{X: at, Y: math.Inf(-1)}, {X: at, Y: math.Inf(1)}}, limit: true}
}

// seen is a limit that the axis holds however far it is from the data.
func (l layer) seen() layer {
	l.always = true
	return l
}

func dots(label string, glyph draw.GlyphStyle, points plotter.XYs) layer {
	return layer{label: label, glyph: glyph, points: points}
}

// mark is a point that stands out.
func mark(label string, glyph draw.GlyphStyle, x, y float64) layer {
	return dots(label, glyph, plotter.XYs{{X: x, Y: y}})
}

// area lies between two curves of as many points, where both have numbers.
func area(label string, lower, upper plotter.XYs) layer {
	n := len(lower)
	var outlines, back plotter.XYs
	for k := range n + 1 {
		if k < n && finite(lower[k].X+lower[k].Y+upper[k].X+upper[k].Y) {
			outlines, back = append(outlines, lower[k]), append(back, upper[k])
			continue
		}
		slices.Reverse(back)
		outlines, back = append(append(outlines, back...), nowhere()), nil
	}
	return layer{label: label, points: outlines, line: outline, fill: areaFill}
}

// nowhere is the point at which a line breaks.
func nowhere() plotter.XY { return plotter.XY{X: math.NaN(), Y: math.NaN()} }

// bar stands on the x axis; one that has no width, of a single value, is widened to be
// seen.
func bar(from, to, height float64) layer {
	if !finite(from+to+height) || height <= 0 {
		return layer{}
	}
	if to == from {
		to += 0.01 * roomy(r1.IntervalFromPoint(from)).Length()
	}
	return filled(barFill, r1.Interval{Lo: from, Hi: to}, r1.Interval{Lo: 0, Hi: height})
}

// filled is a box with an edge.
func filled(fill color.Color, x, y r1.Interval) layer {
	return layer{points: box(x, y), line: outline, fill: fill}
}

func box(x, y r1.Interval) plotter.XYs {
	return plotter.XYs{{X: x.Lo, Y: y.Lo}, {X: x.Hi, Y: y.Lo}, {X: x.Hi, Y: y.Hi}, {X: x.Lo, Y: y.Hi}}
}

func (p *panel) tall() vg.Length { return cmp.Or(p.height, highPanel) }

// gutter is the room at the right for the names of bands, as a share of the x axis
// before it; in a narrow picture they take more.
const gutter, narrowGutter = 0.13, 0.22

// extents are the ranges of both axes, and where the gutter begins.
func (p *panel) extents() (x, y r1.Interval, end float64) {
	x, data := p.data()
	y = data
	for _, l := range p.layers {
		for _, pt := range l.points {
			if l.limit && math.IsInf(pt.X, 0) && (l.always || near(data, pt.Y)) {
				y = hold(y, pt.Y)
			}
		}
	}
	for i, b := range p.bands {
		if i > 0 && near(data, b.Lo) {
			y = hold(y, b.Lo)
		}
	}
	y = atLeast(roomy(y), p.least)
	if len(p.bands) > 0 {
		y = atLeast(y, 1.08*y.Length()) // the bands at both ends are to hold their names
	}
	if p.floor {
		y.Lo = 0
	}
	if p.ys.Lo < p.ys.Hi {
		y = p.ys
	}
	asked := p.xs.Lo < p.xs.Hi && finite(p.xs.Length())
	if asked {
		x = p.xs
	}
	if !asked || isLevel(x) {
		x = roomy(x)
	}
	end = x.Hi
	if p.gutter || len(p.bands) > 0 {
		room := gutter
		if p.narrow {
			room = narrowGutter
		}
		x.Hi += room * x.Length()
	}
	return x, y, end
}

// data is what the axes have to hold, limits apart.
func (p *panel) data() (x, y r1.Interval) {
	x, y = r1.EmptyInterval(), r1.EmptyInterval()
	for _, l := range p.layers {
		for i, pt := range l.points {
			if !l.limit && finite(pt.X) && finite(pt.Y) {
				x, y = x.AddPoint(pt.X), y.AddPoint(pt.Y)
				if i < len(l.half) {
					y = hold(y, pt.Y-l.half[i], pt.Y+l.half[i])
				}
			}
		}
	}
	return x, y
}
