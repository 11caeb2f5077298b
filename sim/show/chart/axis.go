package chart

import (
	"fmt"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/text"
)

// newPlot is an empty plot with its title and its two axes.
func newPlot(title, x, y string) *plot.Plot {
	p := plot.New()
	p.Title.Text, p.Title.TextStyle.Font.Size, p.Title.Padding = title, titleSize, 8
	p.X.Label.Text, p.Y.Label.Text = x, y
	p.X.Tick.Label.YAlign = text.YTop
	for _, axis := range []*plot.Axis{&p.X, &p.Y} {
		axis.Tick.Marker = evenTicks{}
		axis.Label.TextStyle.Font.Size = textSize
		axis.Tick.Label.Font.Size = textSize - 1
		axis.Padding = 0
	}
	return p
}

// evenTicks are four to nine round values, all with as many decimals as the step
// between them needs.
type evenTicks struct{}

// Ticks gives the ticks.
func (evenTicks) Ticks(lo, hi float64) []plot.Tick {
	step := roundStep((hi - lo) / 9)
	decimals := int(max(0, math.Ceil(-math.Log10(step)-1e-9)))
	var ticks []plot.Tick
	first := math.Ceil(lo / step)
	for k := range 10 { // counted: first + 1 may be first, where lo and hi are all but one
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

func (e *extent) length() float64 { return e.hi - e.lo }

func (e *extent) has(v float64) bool { return v >= e.lo && v <= e.hi }

// level tells whether a range has no length but for rounding.
func (e *extent) level() bool {
	return !(e.length() > 2e-8*math.Max(math.Abs(e.lo), math.Abs(e.hi)))
}

// near tells whether a limit is near enough to the range not to flatten it: within
// 1.5 of its lengths or 40 % of its ends.
func (e *extent) near(at float64) bool {
	room := func(end float64) float64 { return math.Max(1.5*e.length(), 0.4*math.Abs(end)) }
	return e.empty() || at > e.lo-room(e.lo) && at < e.hi+room(e.hi)
}

// roomy is the range with some room at both ends: a level line, or none at all,
// still needs an axis with a length.
func (e *extent) roomy() extent {
	room := 0.05 * e.length()
	switch {
	case e.empty():
		return extent{0, 1}
	case !e.level():
	case e.hi == 0:
		room = 0.5
	default:
		room = math.Max(0.05*math.Abs(e.hi), 1e-9)
	}
	return extent{e.lo - room, e.hi + room}
}

// atLeast is the range about its middle with no less than a length.
func (e *extent) atLeast(length float64) extent {
	half := math.Max(length-e.length(), 0) / 2
	return extent{e.lo - half, e.hi + half}
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
