package chart

import (
	"image/color"
	"math"
	"slices"

	"evenpull/sim/rules"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Graph is lines, areas and marks over a common axis. What is empty is left out;
// a point that is no number breaks a line.
type Graph struct {
	Title, X, Y string
	Low         bool      // a low panel
	From, To    float64   // range of the x axis; both 0: that of the data
	Ticks       []Tick    // along the x axis; nil: at round values
	Stripes     []Stripe  // from bottom to top, behind everything
	Bands       []Band    // from side to side, behind everything
	Areas       []Area    // between two curves
	Bars        []Bar     // of a histogram
	Lines       []Curve   // told apart by width and dash
	Levels      []Level   // dashed, from side to side
	Uprights    []Upright // thin, from bottom to top
	Dots        []Dots    // points with error bars
	Marks       []Mark    // ringed points
}

// Stripe is a range of the x axis in the shade of a verdict; rules.Unjudged is dark:
// what cannot be built. Its name stands above the data; "" is the verdict's own. A
// plain one is grey, and its name stands in the legend.
type Stripe struct {
	From, To float64
	Code     rules.Code
	Name     string
	Plain    bool
}

// Area lies between two curves of as many points.
type Area struct {
	Label        string
	Lower, Upper plotter.XYs
}

// Tick is a name at a place of the x axis.
type Tick struct {
	At    float64
	Label string
}

// Curve is a line with its label.
type Curve struct {
	Label  string
	Points plotter.XYs
}

// Bar stands on the x axis.
type Bar struct{ From, To, Height float64 }

// Level is a limit to compare with. One far from the data is left out.
type Level struct {
	Label string
	At    float64
}

// Upright is a value of the x axis to compare with. One without a label goes with
// the one before it.
type Upright struct {
	Label string
	At    float64
}

// Mark is a point that stands out.
type Mark struct {
	Label string
	X, Y  float64
}

var (
	areaFill  = color.Gray{0xc2}
	plainFill = color.Gray{0xde}
	barFill   = color.RGBA{0x9d, 0xa9, 0xbb, 0xff}
	unbuilt   = color.Gray{0x8c}
	curveInks = []draw.LineStyle{
		{Color: ink, Width: vg.Points(2)},
		{Color: needInk, Width: vg.Points(1.4), Dashes: []vg.Length{8, 4}},
		{Color: ink, Width: vg.Points(1), Dashes: []vg.Length{2, 3}},
	}
	uprightInks = []draw.LineStyle{
		{Color: needInk, Width: vg.Points(1.2), Dashes: []vg.Length{6, 3}},
		{Color: ink, Width: vg.Points(1.2)},
		{Color: ink, Width: vg.Points(1.2), Dashes: []vg.Length{2, 3}},
	}
)

// levelInks tell levels apart, and from the lines.
var levelInks = []draw.LineStyle{
	{Color: color.Gray{0x50}, Width: vg.Points(1.1), Dashes: []vg.Length{10, 3, 2, 3}},
	{Color: color.Gray{0x50}, Width: vg.Points(1.1), Dashes: []vg.Length{1.5, 3}},
	{Color: color.Gray{0x50}, Width: vg.Points(1.1), Dashes: []vg.Length{6, 4}},
}

// highGraph is the height of a graph that is not low.
const highGraph = 12 * vg.Centimeter

func (g *Graph) height() vg.Length {
	if g.Low {
		return SwingHeight
	}
	return highGraph
}

// names is the share of the height above the data that is kept for the names of
// the stripes.
const names = 0.09

func (g *Graph) draw(panel draw.Canvas) error {
	p := plainPlot(g.Title, g.X, g.Y)
	if g.Ticks != nil {
		ticks := make([]plot.Tick, len(g.Ticks))
		for i, t := range g.Ticks {
			ticks[i] = plot.Tick{Value: t.At, Label: t.Label}
		}
		p.X.Tick.Marker = plot.ConstantTicks(ticks)
	}
	x, y := g.extents()
	p.X.Min, p.X.Max, p.Y.Min, p.Y.Max = x.lo, x.hi, y.lo, y.hi
	if slices.ContainsFunc(g.Stripes, func(s Stripe) bool { return !s.Plain }) {
		p.Y.Max += names * (y.hi - y.lo)
	}
	inner := p.DataCanvas(panel)
	d := graphDrawing{p: p, x: x, y: y, top: p.Y.Max, width: inner.Max.X - inner.Min.X}
	for _, add := range []func(*Graph) error{d.stripes, d.bands, d.areas, d.bars, d.lines, d.levels, d.uprights, d.dots, d.marks} {
		if err := add(g); err != nil {
			return err
		}
	}
	p.X.Min, p.X.Max, p.Y.Min, p.Y.Max = x.lo, x.hi, y.lo, d.top
	rows := rowsOf(d.entries, panel.Max.X-panel.Min.X)
	p.Draw(draw.Crop(panel, 0, 0, legendRow*vg.Length(len(rows)), 0))
	drawRows(panel, rows)
	return nil
}

// extents are the ranges of both axes.
func (g *Graph) extents() (x, y extent) {
	dx, dy := noExtent(), noExtent()
	see := func(points plotter.XYs) {
		for _, run := range runs(points) {
			for _, pt := range run {
				dx.hold(pt.X)
				dy.hold(pt.Y)
			}
		}
	}
	for _, l := range g.Lines {
		see(l.Points)
	}
	for _, a := range g.Areas {
		see(a.Lower)
		see(a.Upper)
	}
	for _, s := range g.Dots {
		see(s.Points)
		for i, half := range s.Half[:min(len(s.Half), len(s.Points))] {
			see(plotter.XYs{{X: s.Points[i].X, Y: s.Points[i].Y - half}, {X: s.Points[i].X, Y: s.Points[i].Y + half}})
		}
	}
	for _, m := range g.Marks {
		see(plotter.XYs{{X: m.X, Y: m.Y}})
	}
	for _, b := range g.Bars {
		see(plotter.XYs{{X: b.From, Y: b.Height}, {X: b.To, Y: 0}})
	}
	for _, l := range g.Levels {
		if near(dy, l.At) {
			dy.hold(l.At)
		}
	}
	x, y = dx.roomy(), dy.roomy()
	if len(g.Bars) > 0 && dy.lo >= 0 {
		y.lo = 0
	}
	if asked := (extent{g.From, g.To}); g.From < g.To && finite(g.To-g.From) {
		x = asked
		if asked.level() {
			x = asked.roomy()
		}
	}
	if len(g.Bands) > 0 {
		x.hi += gutter * (x.hi - x.lo)
	}
	return x, y
}

// near tells whether a level is near enough to the data not to flatten it.
func near(data extent, at float64) bool {
	room := 1.5 * math.Max(data.hi-data.lo, 0.05*math.Abs(data.hi))
	return data.empty() || at > data.lo-room && at < data.hi+room
}
