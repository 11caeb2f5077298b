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
	arcs := Curve{Label: "semi-arc"}
	for _, a := range r.Approach {
		arcs.Points = append(arcs.Points, plotter.XY{X: a.Period, Y: a.Arc.Degrees()})
	}
	approach := &Graph{Title: words.BeatHead(r), X: "periods from the start", Y: "semi-arc, degrees", Lines: []Curve{arcs}}
	if g := r.Averaged; g.Status.Goes() {
		last, level := arcs.Points[len(arcs.Points)-1].X, g.Amplitude.Degrees()
		approach.Lines = append(approach.Lines, Curve{Label: "by the averages", Points: plotter.XYs{{X: 0, Y: level}, {X: max(last, 1), Y: level}}})
	}
	return Stack(w, format, approach, &Graph{
		Title: "Phase portrait", X: "angle, degrees", Y: "velocity, degrees a second",
		Lines: []Curve{{Label: "last period", Points: portrait(r.Last)}, {Label: "first period", Points: portrait(r.First)}},
	})
}

func portrait(points []beat.Point) plotter.XYs {
	xys := make(plotter.XYs, len(points))
	for i, p := range points {
		xys[i] = plotter.XY{X: words.Degrees(p.Angle), Y: words.Degrees(p.Velocity)}
	}
	return xys
}
