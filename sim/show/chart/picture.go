package chart

import (
	"errors"
	"image/color"
	"io"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Picture is what can stand on a page.
type Picture interface {
	height() vg.Length
	draw(panel draw.Canvas) error
}

// Stack draws pictures one below the other in the given format.
func Stack(w io.Writer, format string, pictures ...Picture) error {
	if len(pictures) == 0 {
		return errors.New("there is nothing to draw: a page takes at least one picture")
	}
	var height vg.Length
	for _, p := range pictures {
		height += p.height()
	}
	c, err := draw.NewFormattedCanvas(Width, height, format)
	if err != nil {
		return err
	}
	page, top := draw.New(c), height
	for _, p := range pictures {
		h := p.height()
		if err := p.draw(draw.Crop(page, margin, -margin, top-h+margin, top-height-margin)); err != nil {
			return err
		}
		top -= h
	}
	_, err = c.WriteTo(w)
	return err
}

// plainPlot is an empty plot in the style of the house.
func plainPlot(title, x, y string) *plot.Plot {
	p := plot.New()
	p.Title.Text, p.Title.TextStyle.Font.Size, p.Title.Padding = title, titleSize, 8
	p.X.Label.Text, p.Y.Label.Text = x, y
	p.X.Tick.Marker, p.Y.Tick.Marker = evenTicks{}, evenTicks{}
	p.X.Tick.Label.YAlign = text.YTop
	for _, axis := range []*plot.Axis{&p.X, &p.Y} {
		axis.Label.TextStyle.Font.Size = textSize
		axis.Tick.Label.Font.Size = textSize - 1
		axis.Padding = 0
	}
	return p
}

// extent is a range that grows with what it has to hold.
type extent struct{ lo, hi float64 }

func noExtent() extent { return extent{math.Inf(1), math.Inf(-1)} }

// hold widens the range to a value; what is not finite is passed over.
func (e *extent) hold(v float64) {
	if finite(v) {
		e.lo, e.hi = math.Min(e.lo, v), math.Max(e.hi, v)
	}
}

func (e *extent) empty() bool { return e.lo > e.hi }

// level tells whether a range has no length but for rounding.
func (e *extent) level() bool {
	return !(e.hi-e.lo > 2e-8*math.Max(math.Abs(e.lo), math.Abs(e.hi)))
}

// roomy is the range with some room at both ends: a level line, or none at all,
// still needs an axis with a length.
func (e *extent) roomy() extent {
	switch room := 0.05 * (e.hi - e.lo); {
	case e.empty():
		return extent{0, 1}
	case !e.level():
		return extent{e.lo - room, e.hi + room}
	}
	room := math.Max(0.05*math.Abs(e.hi), 1e-9)
	if e.hi == 0 {
		room = 0.5
	}
	return extent{e.lo - room, e.hi + room}
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

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

// addArea adds a filled outline.
func addArea(p *plot.Plot, outline plotter.XYs, fill, edge color.Color, width vg.Length) (*plotter.Polygon, error) {
	area, err := plotter.NewPolygon(outline)
	if err != nil {
		return nil, err
	}
	area.Color = fill
	area.LineStyle.Color, area.LineStyle.Width = edge, width
	p.Add(area)
	return area, nil
}

func box(x0, y0, x1, y1 float64) plotter.XYs {
	return plotter.XYs{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
}

// addText writes words at a point of the plot, their middle there.
func addText(p *plot.Plot, x, y float64, words string) error {
	return addStyled(p, x, y, words, func(*text.Style) {})
}

// addUpright writes words that run up the page, centred on a place.
func addUpright(p *plot.Plot, x, y float64, words string) error {
	return addStyled(p, x, y, words, func(s *text.Style) { s.Rotation = math.Pi / 2 })
}

func addStyled(p *plot.Plot, x, y float64, words string, change func(*text.Style)) error {
	label, err := plotter.NewLabels(plotter.XYLabels{XYs: plotter.XYs{{X: x, Y: y}}, Labels: []string{words}})
	if err != nil {
		return err
	}
	label.TextStyle[0].Font.Size = textSize
	label.TextStyle[0].XAlign, label.TextStyle[0].YAlign = text.XCenter, text.YCenter
	change(&label.TextStyle[0])
	p.Add(label)
	return nil
}

// wide is how wide words are in the size of the text.
func wide(words string) vg.Length {
	return text.Style{Font: font.From(plot.DefaultFont, textSize), Handler: plot.DefaultTextHandler}.Width(words)
}

// Widths of a legend's parts, in points.
const (
	thumbWidth = 34
	thumbGap   = 8
	entryGap   = 24
	legendLeft = 40
)

// rowsOf lays the entries of a legend out in as many rows as the width asks for.
func rowsOf(entries []entry, width vg.Length) [][]entry {
	var rows [][]entry
	at := width
	for _, e := range entries {
		w := thumbWidth + thumbGap + entryGap + wide(e.label)
		if at+w > width {
			rows, at = append(rows, nil), legendLeft
		}
		rows[len(rows)-1] = append(rows[len(rows)-1], e)
		at += w
	}
	return rows
}

// drawRows draws the rows of a legend along the bottom of the panel.
func drawRows(panel draw.Canvas, rows [][]entry) {
	for i, row := range rows {
		at, below := vg.Length(legendLeft), legendRow*vg.Length(len(rows)-1-i)
		for _, e := range row {
			l := plot.NewLegend()
			l.TextStyle.Font.Size = textSize
			l.Left, l.Top, l.ThumbnailWidth = true, false, thumbWidth
			l.Add(e.label, e.thumb)
			l.Draw(draw.Crop(panel, at, 0, below, 0))
			at += thumbWidth + thumbGap + entryGap + wide(e.label)
		}
	}
}
