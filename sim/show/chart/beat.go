package chart

import (
	"io"

	"evenpull/sim/show/words"
	"evenpull/sim/study/beat"

	"gonum.org/v1/plot/plotter"
)

// Beat draws how the semi-arc settles, and the phase portrait of the first and the
// last period.
func Beat(w io.Writer, format string, r *beat.Result) error {
	arcs := points(r.Approach, func(a *beat.Arc) (x, y float64) { return a.Period, a.Arc.Degrees() })
	approach := &panel{title: words.BeatHead(r), x: "periods from the start", y: "semi-arc, degrees", layers: []layer{line("semi-arc", curves[0], arcs)}}
	if g := r.Averaged; g.Status.Goes() {
		approach.add(level("by the averages", curves[1], g.Amplitude.Degrees()).seen())
	}
	return stack(w, format, approach, &panel{
		title: "Phase portrait", x: "angle, degrees", y: "velocity, degrees a second",
		layers: []layer{line("last period", curves[0], portrait(r.Last)), line("first period", curves[1], portrait(r.First))},
	})
}

func portrait(list []beat.Point) plotter.XYs {
	return points(list, func(p *beat.Point) (x, y float64) { return words.Degrees(p.Angle), words.Degrees(p.Velocity) })
}
