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
	arcs := Curve{Label: "semi-arc", Points: points(r.Approach, func(a *beat.Arc) (x, y float64) { return a.Period, a.Arc.Degrees() })}
	approach := &Graph{Title: words.BeatHead(r), X: "periods from the start", Y: "semi-arc, degrees", Lines: []Curve{arcs}}
	if g := r.Averaged; g.Status.Goes() {
		last := arcs.Points[len(arcs.Points)-1].X
		approach.Lines = append(approach.Lines, Curve{Label: "by the averages", Points: level(max(last, 1), g.Amplitude.Degrees())})
	}
	return Stack(w, format, approach, &Graph{
		Title: "Phase portrait", X: "angle, degrees", Y: "velocity, degrees a second",
		Lines: []Curve{{Label: "last period", Points: portrait(r.Last)}, {Label: "first period", Points: portrait(r.First)}},
	})
}

func portrait(list []beat.Point) plotter.XYs {
	return points(list, func(p *beat.Point) (x, y float64) { return words.Degrees(p.Angle), words.Degrees(p.Velocity) })
}
