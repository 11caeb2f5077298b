package chart

import (
	"evenpull/escapement"
	"evenpull/sim/show/words"
	"evenpull/sim/study/beat"

	"gonum.org/v1/plot/plotter"
)

// Beat draws how the semi-arc settles, and the phase portrait of the first and the
// last period.
func Beat(look Look, r *beat.Result) (Files, error) {
	arcs := points(r.Approach, func(a *beat.Arc) (x, y float64) { return a.Period, a.Arc.Degrees() })
	approach := &panel{finding: words.BeatHead(r), x: "periods from the start", y: "semi-arc, degrees", layers: []layer{line("semi-arc", nowLine, arcs)}}
	if last := len(arcs) - 1; last >= 0 && r.Settled.Status == escapement.Stops {
		approach.add(stops(append(arcs[last:last+1:last+1], nowhere()), words.Stopped))
	}
	if g := r.Averaged; g.Status.Goes() {
		approach.add(level("by the averages", limits[0], g.Amplitude.Degrees()).seen())
	}
	return stack(look, approach, &panel{
		finding: "The swing: its speed at each angle, in the first period and the last", name: "speed of the swing", x: "angle, degrees", y: "speed, degrees a second",
		layers: []layer{line("last period", nowLine, portrait(r.Last)), line("first period", trials[1], portrait(r.First))},
	})
}

func portrait(list []beat.Point) plotter.XYs {
	return points(list, func(p *beat.Point) (x, y float64) { return words.Degrees(p.Angle), words.Degrees(p.Velocity) })
}
