package chart

import (
	"fmt"
	"math"

	"evenpull/sim"

	"gonum.org/v1/plot"
)

// turnTicks marks whole fusee turns, with the hours below.
type turnTicks struct {
	r        *sim.Result
	from, to float64
}

// Ticks gives the ticks; the axis' own range is wider than the run.
func (t turnTicks) Ticks(_, _ float64) []plot.Tick {
	every := math.Max(1, math.Ceil((t.to-t.from)/9))
	var ticks []plot.Tick
	for turn := math.Ceil(t.from); turn <= t.to+1e-9; turn++ {
		tick := plot.Tick{Value: turn}
		if math.Mod(turn, every) == 0 {
			tick.Label = fmt.Sprintf("%.0f", turn)
			if !math.IsNaN(t.r.HoursPerTurn) {
				tick.Label += fmt.Sprintf("\n%.0f h", (turn-t.from)*t.r.HoursPerTurn)
			}
		}
		ticks = append(ticks, tick)
	}
	return ticks
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
		v := (first+float64(k))*step + 0 // not the negative zero that Ceil may give
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
