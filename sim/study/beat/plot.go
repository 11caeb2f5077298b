package beat

import (
	"io"

	"evenpull/sim/show/chart"
	"evenpull/sim/show/words"

	"gonum.org/v1/plot/plotter"
)

// Plot draws how the semi-arc settles, and the phase portrait of the first and
// the last period.
func Plot(w io.Writer, format string, r *Result) error {
	approach := &chart.Graph{
		Title: r.Train.Name + " train at fusee turn " + words.Turns(r.FuseeTurn) + ": " + r.Headline(),
		X:     "periods from the start", Y: "semi-arc, degrees",
		Lines: []chart.Curve{{Label: "semi-arc"}},
	}
	for _, a := range r.Approach {
		approach.Lines[0].Points = append(approach.Lines[0].Points, plotter.XY{X: a.Period, Y: a.Arc.Degrees()})
	}
	if g := r.Averaged; g.Status.Goes() {
		last := r.Approach[len(r.Approach)-1].Period
		level := g.Amplitude.Degrees()
		approach.Lines = append(approach.Lines, chart.Curve{Label: "by the averages", Points: plotter.XYs{{X: 0, Y: level}, {X: max(last, 1), Y: level}}, Role: chart.Mean})
	}
	phase := &chart.Graph{
		Title: "Phase portrait", X: "angle, degrees", Y: "velocity, degrees a second",
		Lines: []chart.Curve{{Label: "last period", Points: phasePoints(r.Last)}, {Label: "first period", Points: phasePoints(r.First)}},
	}
	return chart.Stack(w, format, approach, phase)
}

func phasePoints(pts []Point) plotter.XYs {
	xys := make(plotter.XYs, len(pts))
	for i, p := range pts {
		xys[i] = plotter.XY{X: words.Degrees(p.Angle), Y: words.Degrees(p.Velocity)}
	}
	return xys
}
