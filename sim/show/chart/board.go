package chart

import (
	"image/color"
	"math"
	"slices"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// board is a plot on its way to the page, with the legend that goes below it. What
// is drawn without a label has no entry in the legend.
type board struct {
	*plot.Plot
	entries []entry
}

// entry is one name of the legend.
type entry struct {
	label     string
	thumb     plot.Thumbnailer
	at, below vg.Length // of its left end, and of its foot below the top of the legend
}

func newBoard(title, x, y string) *board { return &board{Plot: newPlot(title, x, y)} }

func (b *board) entry(label string, thumb plot.Thumbnailer) {
	if label != "" {
		b.entries = append(b.entries, entry{label: label, thumb: thumb})
	}
}

// finish draws the plot over the given ranges, with some room free at the right, and
// the legend below it. It gives the part of the panel above the legend.
func (b *board) finish(panel draw.Canvas, x, y r1.Interval, right vg.Length) draw.Canvas {
	b.X.Min, b.X.Max, b.Y.Min, b.Y.Max = x.Lo, x.Hi, y.Lo, y.Hi
	high := b.layOut(panel.Max.X - panel.Min.X)
	above := draw.Crop(panel, 0, 0, high, 0)
	b.Draw(draw.Crop(above, 0, -right, 0, 0))
	for _, e := range b.entries {
		l := plot.NewLegend()
		l.TextStyle.Font.Size = textSize
		l.Left, l.ThumbnailWidth = true, thumbWidth
		l.Add(e.label, e.thumb)
		l.Draw(draw.Crop(panel, e.at, 0, high-e.below, 0))
	}
	return above
}

// part is what is drawn, in the plot and in the legend.
type part interface {
	plot.Plotter
	plot.Thumbnailer
}

func (b *board) part(label string, p part) {
	b.Add(p)
	b.entry(label, p)
}

// line adds a line that breaks where its points are no numbers.
func (b *board) line(label string, points plotter.XYs, style draw.LineStyle) {
	for i, run := range runs(points) {
		b.part(once(label, i), &plotter.Line{XYs: run, LineStyle: style})
	}
}

// once is a label for the first of several parts.
func once(label string, i int) string {
	if i > 0 {
		return ""
	}
	return label
}

// area adds a filled outline.
func (b *board) area(label string, outline plotter.XYs, fill color.Color, edge draw.LineStyle) {
	b.part(label, &plotter.Polygon{XYs: []plotter.XYs{outline}, Color: fill, LineStyle: edge})
}

// points adds marks where the points are numbers.
func (b *board) points(label string, points plotter.XYs, style draw.GlyphStyle) {
	for i, run := range runs(points) {
		b.part(once(label, i), &plotter.Scatter{XYs: run, GlyphStyle: style})
	}
}

// dots adds those that lie within the ranges, with their error bars.
func (b *board) dots(list []Dots, x, y r1.Interval) {
	for i, s := range list {
		style, ok := roleMarks[s.Role]
		switch {
		case s.Small:
			style = smallDot
		case !ok:
			style = dotMarks[i%len(dotMarks)]
		}
		for k, half := range s.Half[:min(len(s.Half), len(s.Points))] {
			if pt := s.Points[k]; half > 0 && finite(pt.X+pt.Y+half) {
				b.Add(&plotter.YErrorBars{XYs: plotter.XYs{pt}, YErrors: plotter.YErrors{{Low: half, High: half}}, LineStyle: errorLine, CapWidth: 6})
			}
		}
		outside := func(pt plotter.XY) bool { return !x.Contains(pt.X) || !y.Contains(pt.Y) }
		b.points(s.Label, slices.DeleteFunc(slices.Clone(s.Points), outside), style)
	}
}

// words adds words with their middle at a place, unless change has it otherwise.
func (b *board) words(x, y float64, words string, change func(style *text.Style, offset *vg.Point)) {
	style := letters
	style.XAlign, style.YAlign = text.XCenter, text.YCenter
	l := &plotter.Labels{XYs: plotter.XYs{{X: x, Y: y}}, Labels: []string{words}, TextStyle: []text.Style{style}}
	if change != nil {
		change(&l.TextStyle[0], &l.Offset)
	}
	b.Add(l)
}

// upwards turns words to run up the page.
func upwards(style *text.Style, _ *vg.Point) { style.Rotation = math.Pi / 2 }

func box(x0, y0, x1, y1 float64) plotter.XYs {
	return plotter.XYs{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
}

// runs are the stretches of points that are numbers.
func runs(points plotter.XYs) []plotter.XYs {
	var list []plotter.XYs
	open := false
	for _, pt := range points {
		ok := finite(pt.X) && finite(pt.Y)
		switch {
		case ok && !open:
			list = append(list, plotter.XYs{pt})
		case ok:
			list[len(list)-1] = append(list[len(list)-1], pt)
		}
		open = ok
	}
	return list
}

var letters = text.Style{Font: font.From(plot.DefaultFont, textSize), Handler: plot.DefaultTextHandler}

// Sizes of a legend's parts, in points.
const (
	legendRow  = 18
	thumbWidth = 34
	legendLeft = 40
	besideName = 8 + 24 // between thumbnail and name, and to the next
)

// layOut places the entries of the legend in as many rows as the width asks for, and
// tells how high they are.
func (b *board) layOut(width vg.Length) (high vg.Length) {
	at := width
	for i := range b.entries {
		e := &b.entries[i]
		wide := thumbWidth + besideName + letters.Width(e.label)
		if at+wide > width {
			at, high = legendLeft, high+legendRow
		}
		e.at, e.below = at, high
		at += wide
	}
	return high
}
