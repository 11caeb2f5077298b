package chart

import (
	"fmt"
	"image/color"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Tornado is bars to both sides of 0: what moving inputs down and up does to a
// result.
type Tornado struct {
	Title, X    string
	Bars        []TornadoBar // from the top down
	Minus, Plus string       // what the two kinds of bar are, for the legend
}

// TornadoBar is one input; NaN where it cannot be built.
type TornadoBar struct {
	Label       string
	Minus, Plus float64
}

// mostBars is the number of bars that are drawn.
const mostBars = 14

var minusFill, plusFill = color.RGBA{0xd9, 0xde, 0xe6, 0xff}, color.RGBA{0x4a, 0x5a, 0x74, 0xff}

func (t *Tornado) height() vg.Length {
	return 3.4*vg.Centimeter + 0.62*vg.Centimeter*vg.Length(max(min(len(t.Bars), mostBars), 3))
}

func (t *Tornado) draw(panel draw.Canvas) error {
	bars := t.Bars[:min(len(t.Bars), mostBars)]
	p := plainPlot(t.Title, t.X, "")
	span := noExtent()
	span.hold(0)
	labels := make([]plot.Tick, len(bars))
	for i, b := range bars {
		span.hold(b.Minus)
		span.hold(b.Plus)
		labels[i] = plot.Tick{Value: -float64(i), Label: b.Label}
	}
	x := span.roomy()
	d := tornadoDrawing{p: p}
	for i, b := range bars {
		if err := d.bar(-float64(i), b); err != nil {
			return err
		}
	}
	if _, err := addLine(p, plotter.XYs{{X: 0, Y: 0.6}, {X: 0, Y: 0.4 - float64(len(bars))}}, draw.LineStyle{Color: ink, Width: vg.Points(1)}); err != nil {
		return err
	}
	p.Y.Tick.Marker = plot.ConstantTicks(labels)
	p.Y.Tick.Length = 0
	p.X.Min, p.X.Max, p.Y.Min, p.Y.Max = x.lo, x.hi, 0.4-float64(max(len(bars), 1)), 0.6
	p.Draw(draw.Crop(panel, 0, 0, legendRow, 0))
	drawRows(panel, [][]entry{t.legend()})
	return nil
}

// legend tells the two kinds of bar apart and what is left out.
func (t *Tornado) legend() []entry {
	list := []entry{{t.Minus, swatch{minusFill}}, {t.Plus, swatch{plusFill}}}
	if left := t.Bars[min(len(t.Bars), mostBars):]; len(left) > 0 {
		words := fmt.Sprintf("%d more inputs do less", len(left))
		if len(left) == 1 {
			words = "one more input does less"
		}
		list = append(list, entry{words, swatch{color.Transparent}})
	}
	return list
}

// tornadoDrawing is a tornado on its way to the canvas.
type tornadoDrawing struct{ p *plot.Plot }

// bar draws the two halves of a bar: less of the input above, more below.
func (d *tornadoDrawing) bar(y float64, b TornadoBar) error {
	if math.IsNaN(b.Minus) && math.IsNaN(b.Plus) {
		return d.unbuilt(y, 1)
	}
	for _, half := range []struct {
		v, other, from, to float64
		fill               color.Color
	}{{b.Minus, b.Plus, y, y + 0.36, minusFill}, {b.Plus, b.Minus, y - 0.36, y, plusFill}} {
		if math.IsNaN(half.v) {
			if err := d.unbuilt((half.from+half.to)/2, -half.other); err != nil {
				return err
			}
			continue
		}
		if half.v == 0 || !finite(half.v) {
			continue
		}
		if _, err := addArea(d.p, box(0, half.from, half.v, half.to), half.fill, ink, 0.5); err != nil {
			return err
		}
	}
	return nil
}

// unbuilt says beside 0 that there is no bar, to the right of it or, where side is
// negative, to the left.
func (d *tornadoDrawing) unbuilt(y, side float64) error {
	words, err := plotter.NewLabels(plotter.XYLabels{XYs: plotter.XYs{{X: 0, Y: y}}, Labels: []string{"cannot be built"}})
	if err != nil {
		return err
	}
	words.TextStyle[0].Font.Size, words.TextStyle[0].YAlign, words.Offset.X = textSize-2, text.YCenter, 5
	if side < 0 {
		words.TextStyle[0].XAlign, words.Offset.X = text.XRight, -5
	}
	d.p.Add(words)
	return nil
}

// swatch is a filled box in a legend.
type swatch struct{ fill color.Color }

// Thumbnail draws the box.
func (s swatch) Thumbnail(c *draw.Canvas) {
	pts := []vg.Point{{X: c.Min.X, Y: c.Min.Y}, {X: c.Max.X, Y: c.Min.Y}, {X: c.Max.X, Y: c.Max.Y}, {X: c.Min.X, Y: c.Max.Y}}
	if s.fill == color.Transparent {
		return
	}
	c.FillPolygon(s.fill, pts)
	c.StrokeLines(draw.LineStyle{Color: ink, Width: vg.Points(0.5)}, append(pts, pts[0]))
}
