package chart

import (
	"fmt"
	"image/color"
	"math"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Tornado is bars to both sides of 0: what moving inputs down and up does to a
// result.
type Tornado struct {
	Title, X string
	Bars     []TornadoBar // from the top down
}

// TornadoBar is one input; NaN where it cannot be built.
type TornadoBar struct {
	Label       string
	Minus, Plus float64
}

// mostBars is the number of bars that are drawn.
const mostBars = 14

func (t *Tornado) height() vg.Length {
	return 3.4*vg.Centimeter + 0.62*vg.Centimeter*vg.Length(max(min(len(t.Bars), mostBars), 3))
}

func (t *Tornado) draw(panel draw.Canvas) {
	bars := t.Bars[:min(len(t.Bars), mostBars)]
	b := newBoard(t.Title, t.X, "")
	b.entry("less of the input", &plotter.Polygon{Color: minusFill, LineStyle: outline})
	b.entry("more of the input", &plotter.Polygon{Color: plusFill, LineStyle: outline})
	switch left := len(t.Bars) - len(bars); left {
	case 0:
	case 1:
		b.entry("one more input does less", &plotter.Polygon{})
	default:
		b.entry(fmt.Sprintf("%d more inputs do less", left), &plotter.Polygon{})
	}
	span := r1.IntervalFromPoint(0)
	labels := make(plot.ConstantTicks, len(bars))
	for i, bar := range bars {
		span = hold(span, bar.Minus, bar.Plus)
		y := -float64(i)
		labels[i] = plot.Tick{Value: y, Label: bar.Label}
		if math.IsNaN(bar.Minus) && math.IsNaN(bar.Plus) {
			b.unbuilt(y, 1)
			continue
		}
		b.half(bar.Minus, bar.Plus, r1.Interval{Lo: y, Hi: y + 0.36}, minusFill)
		b.half(bar.Plus, bar.Minus, r1.Interval{Lo: y - 0.36, Hi: y}, plusFill)
	}
	y := r1.Interval{Lo: 0.4 - float64(max(len(bars), 1)), Hi: 0.6}
	b.line("", plotter.XYs{{X: 0, Y: y.Hi}, {X: 0, Y: y.Lo}}, errorLine)
	b.Y.Tick.Marker, b.Y.Tick.Length = labels, 0
	b.finish(panel, roomy(span), y, 0)
}

// half draws one half of a bar: less of the input above, more below.
func (b *board) half(v, other float64, y r1.Interval, fill color.Color) {
	switch {
	case math.IsNaN(v):
		b.unbuilt(y.Center(), -other)
	case v != 0 && finite(v):
		b.area("", box(0, y.Lo, v, y.Hi), fill, outline)
	}
}

// unbuilt says beside 0 that there is no bar, to the right of it or, where side is
// negative, to the left.
func (b *board) unbuilt(y, side float64) {
	b.words(0, y, "cannot be built", func(style *text.Style, offset *vg.Point) {
		style.Font.Size, style.XAlign, offset.X = textSize-2, text.XLeft, 5
		if side < 0 {
			style.XAlign, offset.X = text.XRight, -5
		}
	})
}
