package chart

import (
	"evenpull/sim/rules"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
)

// Graph is lines, areas and marks over a common axis. What is empty is left out;
// a point that is no number breaks a line.
type Graph struct {
	Title, X, Y string
	Low         bool        // a low panel
	From, To    float64     // range of the x axis; both 0: that of the data
	Least       float64     // least length of the y axis: what differs by less is level
	Gutter      bool        // room at the right, as beside a graph with bands
	Ticks       []plot.Tick // names along the x axis, of one line or more, or ""; nil: round values
	Stripes     []Shade     // ranges of the x axis, behind everything
	Bands       []Shade     // of the y axis, behind everything; rising
	Areas       []Area      // between two curves
	Bars        []Bar       // of a histogram
	Lines       []Curve     // told apart by width and dash
	Levels      []Limit     // of the y axis, from side to side
	Uprights    []Limit     // of the x axis, from bottom to top
	Dots        []Dots      // points with error bars, and marks
}

// Shade is a range of an axis in the tint of a verdict; rules.Unjudged is dark: what
// cannot be built. Its name, that of the verdict where it is "", stands above the data
// or, that of a band, in the gutter. A plain one is grey, and its name stands in the
// legend.
type Shade struct {
	From, To float64 // that of a band may be +Inf
	Code     rules.Code
	Name     string
	Plain    bool
}

// Area lies between two curves of as many points.
type Area struct {
	Label        string
	Lower, Upper plotter.XYs
}

// Bar stands on the x axis.
type Bar struct{ From, To, Height float64 }

// Curve is a line with its label.
type Curve struct {
	Label  string
	Points plotter.XYs
	Role   Role
}

// Limit is a value of an axis to compare with. A level far from the data is left
// out, unless it is always to be seen, and so is what is no number. One without a
// label goes with the one before it.
type Limit struct {
	Label  string
	At     float64
	Role   Role
	Always bool
}

// Dots are measured points; Half is half the length of their error bars, nil for
// none, NaN where one is not known. Those of a role are marks.
type Dots struct {
	Label  string
	Points plotter.XYs
	Half   []float64
	Small  bool // single readings behind their means
	Role   Role
}

// mark is a point that stands out.
func mark(label string, x, y float64, role Role) Dots {
	return Dots{Label: label, Points: plotter.XYs{{X: x, Y: y}}, Role: role}
}

func (g *Graph) height() vg.Length {
	if g.Low {
		return lowGraph
	}
	return highGraph
}

// gutter is the room at the right for the names of bands, as a share of the x axis
// before it.
const gutter = 0.13

// extents are the ranges of both axes, and where the gutter begins.
func (g *Graph) extents() (x, y r1.Interval, end float64) {
	data, x := r1.EmptyInterval(), r1.EmptyInterval()
	for _, pt := range g.points() {
		if finite(pt.X) && finite(pt.Y) {
			x, data = x.AddPoint(pt.X), data.AddPoint(pt.Y)
		}
	}
	y = data
	for _, l := range g.Levels {
		if l.Always || near(data, l.At) {
			y = hold(y, l.At)
		}
	}
	for i, b := range g.Bands {
		if i > 0 && near(data, b.From) {
			y = hold(y, b.From)
		}
	}
	y = atLeast(roomy(y), g.Least)
	if len(g.Bands) > 0 {
		y = atLeast(y, 1.08*y.Length()) // the bands at both ends are to hold their names
	}
	if len(g.Bars) > 0 && data.Lo >= 0 {
		y.Lo = 0
	}
	asked := g.From < g.To && finite(g.To-g.From)
	if asked {
		x = r1.Interval{Lo: g.From, Hi: g.To}
	}
	if !asked || isLevel(x) {
		x = roomy(x)
	}
	end = x.Hi
	if g.Gutter || len(g.Bands) > 0 {
		x.Hi += gutter * x.Length()
	}
	return x, y, end
}

// points are all those that the axes have to hold, numbers or not.
func (g *Graph) points() plotter.XYs {
	var all plotter.XYs
	for _, l := range g.Lines {
		all = append(all, l.Points...)
	}
	for _, a := range g.Areas {
		all = append(append(all, a.Lower...), a.Upper...)
	}
	for _, s := range g.Dots {
		all = append(all, s.Points...)
		for i, half := range s.Half[:min(len(s.Half), len(s.Points))] {
			pt := s.Points[i]
			all = append(all, plotter.XY{X: pt.X, Y: pt.Y - half}, plotter.XY{X: pt.X, Y: pt.Y + half})
		}
	}
	for _, b := range g.Bars {
		all = append(all, plotter.XY{X: b.From, Y: b.Height}, plotter.XY{X: b.To, Y: 0})
	}
	return all
}
