package chart

import (
	"fmt"
	"math"

	"evenpull/sim/show/words"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
)

// ticks are names along an axis of which so many points are to be seen; the room that a name
// takes along it goes by its words.
func ticks(e r1.Interval, long vg.Length, room func(string) vg.Length) (list []plot.Tick) {
	for most := 9; most > 1; most-- {
		list = evenTicks(e.Lo, e.Hi, most)
		var widest vg.Length
		for _, k := range list {
			widest = max(widest, room(k.Label))
		}
		if widest*vg.Length(len(list)) <= long {
			break
		}
	}
	return list
}

// evenTicks are round values, so many at the most and not much fewer than half, all with as
// many decimals as the step between them needs.
func evenTicks(lo, hi float64, most int) []plot.Tick {
	step := roundStep((hi - lo) / float64(most))
	decimals := int(max(0, math.Ceil(-math.Log10(step)-1e-9)))
	var ticks []plot.Tick
	first := math.Ceil(lo / step)
	for k := range most + 1 { // counted: first + 1 may be first, where lo and hi are all but one
		v := (first + float64(k)) * step
		if !(v <= hi) {
			break
		}
		ticks = append(ticks, plot.Tick{Value: v, Label: words.Minus(fmt.Sprintf("%.*f", decimals, v+0))})
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

// isNear tells whether a limit is near enough to a range not to flatten it: within
// 1.5 of its lengths or 40 % of its ends.
func isNear(e r1.Interval, at float64) bool {
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
