package chart

import (
	"io"

	"evenpull/sim/bench/assign"

	"gonum.org/v1/plot"
)

// Assign draws for each train the mean torque of every spring in it, with the limits
// of what suits.
func Assign(w io.Writer, format string, st *assign.Study) error {
	ticks := make([]plot.Tick, len(st.Springs))
	for i, label := range st.Springs {
		ticks[i] = plot.Tick{Value: float64(i) + 1, Label: label}
	}
	pictures := make([]Picture, len(st.Needs))
	for k := range st.Needs {
		n := &st.Needs[k]
		suits := n.Standard.Suiting()
		g := &Graph{
			Title: n.Train + " train: mean torque of each spring", X: "spring", Y: "torque, N·m", Low: true, Ticks: ticks,
			From: 0.4, To: float64(len(st.Springs)) + 0.6,
			Levels: append(needed(n.Need.Used, false), Limit{Label: "suits from", At: suits.Lo}, Limit{Label: "suits up to", At: suits.Hi}),
		}
		for i := range st.Springs {
			p := &st.Pairs[i*len(st.Needs)+k]
			g.Bars = append(g.Bars, Bar{From: float64(i) + 0.7, To: float64(i) + 1.3, Height: p.Torque.Mean})
			if p.Chosen {
				g.Dots = []Dots{mark("the choice", float64(i)+1, p.Torque.Mean, Best)}
			}
		}
		pictures[k] = g
	}
	return Stack(w, format, pictures...)
}
