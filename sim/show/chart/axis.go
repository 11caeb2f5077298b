package chart

import (
	"fmt"
	"image/color"
	"math"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/text"
)

// newPlot is an empty plot with the title and the two axes of a panel.
func newPlot(of *panel) *plot.Plot {
	p := plot.New()
	p.Title.Text, p.Title.TextStyle.Font.Size, p.Title.Padding = of.title, titleSize, 8
	p.X.Label.Text, p.Y.Label.Text = of.x, of.y
	p.X.Tick.Label.YAlign = text.YTop
	p.X.Tick.Marker, p.Y.Tick.Marker = plot.TickerFunc(evenTicks), plot.TickerFunc(evenTicks)
	if of.narrow {
		p.Y.Tick.Marker = plot.TickerFunc(func(lo, hi float64) []plot.Tick { return ticks(lo, hi, 5) })
	}
	for _, axis := range []*plot.Axis{&p.X, &p.Y} {
		axis.Label.TextStyle.Font.Size = textSize
		axis.Padding = 0
	}
	if of.ticks != nil {
		p.X.Tick.Marker = plot.ConstantTicks(of.ticks)
	}
	if of.rows != nil {
		p.Y.Tick.Marker, p.Y.Tick.Length = plot.ConstantTicks(of.rows), 0
	}
	if of.unseen {
		x := &p.X
		for _, c := range []*color.Color{&p.Title.TextStyle.Color, &x.Label.TextStyle.Color, &x.Tick.Label.Color, &x.Tick.LineStyle.Color, &x.LineStyle.Color} {
			*c = color.Transparent
		}
	}
	return p
}

// evenTicks are four to nine round values, all with as many decimals as the step
// between them needs.
func evenTicks(lo, hi float64) []plot.Tick { return ticks(lo, hi, 9) }

// ticks are as many as that, or fewer.
func ticks(lo, hi float64, most int) []plot.Tick {
	step := roundStep((hi - lo) / float64(most))
	decimals := int(max(0, math.Ceil(-math.Log10(step)-1e-9)))
	var ticks []plot.Tick
	first := math.Ceil(lo / step)
	for k := range most + 1 { // counted: first + 1 may be first, where lo and hi are all but one
		v := (first + float64(k)) * step
		if !(v <= hi) {
			break
		}
		ticks = append(ticks, plot.Tick{Value: v, Label: fmt.Sprintf("%.*f", decimals, v)})
	}
	return ticks
}

// roundStep is the next 1, 2 or 5 times a power of ten.
func roundStep(v float64) float64 {
	unit := math.Pow(10, math.Floor(math.Log10(v)))
	for _, m := range []float64{1, 2, 5} {
		if m*unit >= v {
			return m * unit
		}
	}
	return 10 * unit
}

// hold widens a range to values; those that are not finite are passed over.
func hold(e r1.Interval, values ...float64) r1.Interval {
	for _, v := range values {
		if finite(v) {
			e = e.AddPoint(v)
		}
	}
	return e
}

// isLevel tells whether a range has no length but for rounding.
func isLevel(e r1.Interval) bool {
	return !(e.Length() > 2e-8*math.Max(math.Abs(e.Lo), math.Abs(e.Hi)))
}

// near tells whether a limit is near enough to a range not to flatten it: within
// 1.5 of its lengths or 40 % of its ends.
func near(e r1.Interval, at float64) bool {
	room := func(end float64) float64 { return math.Max(1.5*e.Length(), 0.4*math.Abs(end)) }
	return e.IsEmpty() || at > e.Lo-room(e.Lo) && at < e.Hi+room(e.Hi)
}

// roomy is a range with some room at both ends: a level line, or none at all,
// still needs an axis with a length.
func roomy(e r1.Interval) r1.Interval {
	switch {
	case e.IsEmpty():
		return r1.Interval{Lo: 0, Hi: 1}
	case !isLevel(e):
		return e.Expanded(0.05 * e.Length())
	case e.Hi == 0:
		return e.Expanded(0.5)
	}
	return e.Expanded(math.Max(0.05*math.Abs(e.Hi), 1e-9))
}

// atLeast is a range about its middle with no less than a length.
func atLeast(e r1.Interval, length float64) r1.Interval {
	return e.Expanded(math.Max(length-e.Length(), 0) / 2)
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
