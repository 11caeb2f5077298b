package chart

import (
	"io"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Curve is a line with its label.
type Curve struct {
	Label  string
	Points plotter.XYs
}

// Curves is a plain picture of lines over a common axis. Empty lines are left
// out.
type Curves struct {
	Title, X, Y string
	Lines       []Curve
}

// curveStyles tell lines apart by width and dash.
var curveStyles = []draw.LineStyle{
	{Color: ink, Width: vg.Points(2)},
	{Color: needInk, Width: vg.Points(1.4), Dashes: []vg.Length{8, 4}},
	{Color: ink, Width: vg.Points(1), Dashes: []vg.Length{2, 3}},
}

// WriteCurves draws pictures one below the other in the given format.
func WriteCurves(w io.Writer, format string, pictures ...Curves) error {
	const height = 12 * vg.Centimeter
	c, err := draw.NewFormattedCanvas(Width, height*vg.Length(len(pictures)), format)
	if err != nil {
		return err
	}
	page := draw.New(c)
	for i, p := range pictures {
		below := height * vg.Length(len(pictures)-1-i)
		if err := p.draw(draw.Crop(page, margin, -margin, below+margin, -height*vg.Length(i)-margin)); err != nil {
			return err
		}
	}
	_, err = c.WriteTo(w)
	return err
}

func (c *Curves) draw(panel draw.Canvas) error {
	p := plot.New()
	p.Title.Text, p.Title.TextStyle.Font.Size, p.Title.Padding = c.Title, titleSize, 8
	p.X.Label.Text, p.Y.Label.Text = c.X, c.Y
	p.X.Tick.Marker, p.Y.Tick.Marker = evenTicks{}, evenTicks{}
	p.X.Tick.Label.YAlign = text.YTop
	for _, axis := range []*plot.Axis{&p.X, &p.Y} {
		axis.Label.TextStyle.Font.Size = textSize
		axis.Tick.Label.Font.Size = textSize - 1
	}
	var entries []entry
	for i, line := range c.Lines {
		if len(line.Points) == 0 {
			continue
		}
		drawn, err := addLine(p, line.Points, curveStyles[i%len(curveStyles)])
		if err != nil {
			return err
		}
		entries = append(entries, entry{line.Label, drawn})
	}
	for _, axis := range []*plot.Axis{&p.X, &p.Y} {
		// A level line, or no line at all, still needs an axis with a length.
		if room := 0.05 * (axis.Max - axis.Min); room > 0 && !math.IsInf(room, 0) {
			axis.Min, axis.Max = axis.Min-room, axis.Max+room
		} else if math.IsInf(room, 0) || math.IsNaN(room) {
			axis.Min, axis.Max = 0, 1
		} else {
			axis.Min, axis.Max = axis.Min-0.5, axis.Max+0.5
		}
	}
	p.Draw(draw.Crop(panel, 0, 0, legendRow, 0))
	drawLegend(panel, entries)
	return nil
}
