package assign

import (
	"io"
	"slices"

	"evenpull/sim/show/chart"
)

// Plot draws for each train the mean torque of every spring in it, with the
// limits of what suits.
func Plot(w io.Writer, format string, st *Study) error {
	ticks := make([]chart.Tick, len(st.Springs))
	for i, label := range st.Springs {
		ticks[i] = chart.Tick{At: float64(i) + 1, Label: label}
	}
	var pictures []chart.Picture
	for k := range st.Needs {
		n := &st.Needs[k]
		g := &chart.Graph{
			Title: n.Train + " train: mean torque of each spring", X: "spring", Y: "torque, N·m", Low: true, Ticks: ticks,
			From: 0.4, To: float64(len(st.Springs)) + 0.6,
			Levels: []chart.Level{{Label: "least needed", At: n.Least, Role: chart.Need}},
		}
		liked := n.Liked
		if liked.IsEmpty() {
			liked.Lo, liked.Hi = n.Least*st.Bands.Thin, n.Least*st.Bands.Suits
		}
		g.Levels = append(g.Levels, chart.Level{Label: "suits from", At: liked.Lo}, chart.Level{Label: "suits up to", At: liked.Hi})
		for i := range st.Springs {
			p := &st.Pairs[i*len(st.Needs)+k]
			g.Bars = append(g.Bars, chart.Bar{From: float64(i) + 0.7, To: float64(i) + 1.3, Height: p.Mean})
			if slices.Contains(st.Best, Choice{p.Spring, p.Train}) {
				g.Marks = []chart.Mark{{Label: "the choice", X: float64(i) + 1, Y: p.Mean, Role: chart.Best}}
			}
		}
		pictures = append(pictures, g)
	}
	return chart.Stack(w, format, pictures...)
}
