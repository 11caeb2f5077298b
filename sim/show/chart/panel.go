package chart

import (
	"image/color"
	"math"
	"slices"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// panel is a plot: layers over two axes, the first at the back, above it what was found and
// below it a legend of the layers with a label.
type panel struct {
	finding   string      // a sentence that answers; "" below a panel that has it
	name      string      // what stands in its place where pictures bear no sentences; "": nothing
	x, y      string      // of the axes, with units
	height    vg.Length   // of the plot as wide as Width; 0: that of the first panel of a study
	xs, ys    r1.Interval // ranges of the axes; one without a length: that of the data
	least     float64     // least length of the y axis: what differs by less is level
	zero      bool        // the y axis holds 0 and begins there at the least, unless it is asked to begin near the data
	floor     bool        // it always does
	ticks     []plot.Tick // names along the x axis, of one line or more; nil: round values
	named     bool        // they are names, of which none can be left out
	rows      []plot.Tick // names along the y axis; nil: round values
	stripes   []shade     // ranges of the x axis, behind everything
	feet      []shade     // ranges of it, at the foot of the plot
	bands     []shade     // ranges of the y axis, behind everything; rising
	layers    []layer
	regions   []region // of a map
	scale     steps    // of a map: what its tones mean
	scaleName string
}

// shade is a tinted range of an axis. Its name stands above the data or, that of a
// band, in the gutter; its label stands in the legend.
type shade struct {
	r1.Interval
	tint
	name, label string
}

// layer is marks where it has a glyph, filled outlines where it has a fill, and lines
// else. A point that is no number breaks a line and ends an outline.
type layer struct {
	label  string // in the legend; "" for none
	points plotter.XYs
	half   []float64 // half the lengths of error bars; NaN where one is not known
	line   draw.LineStyle
	dot    draw.GlyphStyle // of every point of a line, where the figure is known there alone
	fill   color.Color
	hatch  hatching // of the legend's box
	glyph  draw.GlyphStyle
	notes  []note
	limit  bool // infinite points stand for the ends of the axes; left out when far from the data
	always bool // a limit that is always to be seen
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

// extents are the ranges of both axes.
func (p *panel) extents(near bool) (x, y r1.Interval) {
	x, data := p.data()
	y = data
	for _, l := range p.layers {
		for _, pt := range l.points {
			if l.limit && math.IsInf(pt.X, 0) && (l.always || isNear(data, pt.Y)) {
				y = hold(y, pt.Y)
			}
		}
	}
	for i, b := range p.bands {
		if i > 0 && isNear(data, b.Lo) {
			y = hold(y, b.Lo)
		}
	}
	y = atLeast(roomy(y), p.least)
	if len(p.bands) > 0 {
		y = atLeast(y, 1.08*y.Length()) // the bands at both ends are to hold their names
	}
	if p.floor || p.zero && !near {
		y = r1.Interval{Lo: math.Min(data.Lo, 0), Hi: math.Max(y.Hi, 0)}
		if data.IsEmpty() {
			y.Lo = 0
		}
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
	return x, y
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
