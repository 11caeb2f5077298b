package chart

import (
	"fmt"
	"io"
	"math"

	"evenpull/sim"
	"evenpull/sim/bench/assign"
	"evenpull/sim/bench/measure"
	"evenpull/sim/bench/readings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
)

// Record draws every spring's readings: the repeats as small rings, their means with
// 95 % error bars, the prediction as a line, the need and the bands of the verdict
// behind them where a scenario tells them; below it the residuals. Where no torque
// was read it draws the pace of the blows.
func Record(w io.Writer, format string, st *readings.Study) error {
	var pictures []Picture
	for i := range st.Springs {
		pictures = append(pictures, supplyGraph(st, i))
		if st.Compared[i] != nil {
			pictures = append(pictures, residualGraph(st.Compared[i]))
		}
	}
	for i := range st.Needs {
		if n := &st.Needs[i]; len(st.Springs) == 0 && n.Cadence != nil {
			pictures = append(pictures, paceGraph(n))
		}
	}
	if len(pictures) == 0 {
		pictures = append(pictures, &Graph{Title: "no torque was read and no blow timed", X: "–", Y: "–"})
	}
	return Stack(w, format, pictures...)
}

func supplyGraph(st *readings.Study, i int) *Graph {
	s, r := &st.Springs[i], st.Trains[i]
	single, means := Dots{Label: "single readings", Small: true}, Dots{Label: "their means, with 95 % intervals"}
	for _, repeat := range st.Book.Torques[i].RunningDown {
		for turn, v := range repeat {
			single.Points = append(single.Points, plotter.XY{X: float64(turn), Y: v})
		}
	}
	for k := range s.Turns {
		means.Points = append(means.Points, plotter.XY{X: float64(s.Turns[k].FuseeTurn), Y: s.Turns[k].Mean})
		means.Half = append(means.Half, s.Turns[k].HalfWidth)
	}
	g := &Graph{
		Title: fmt.Sprintf("spring %s in the %s train", s.Spring, s.Train), X: overTurn, Y: "torque at the winding square, N·m",
		Dots: []Dots{single, means},
	}
	if r == nil {
		return g
	}
	g.Bands, g.Levels = TorqueBands(&r.Digest), needed(r.Need.Used, false)
	g.Lines = []Curve{{Label: "predicted, running down", Points: ofRows(r, func(row *sim.Row) float64 { return row.FuseeTorque })}}
	if e := st.Explained; e != nil && e.After != nil && e.Spring == s.Spring && e.Train == s.Train {
		g.Lines = append(g.Lines, Curve{Label: "with the fitted inputs", Points: points(e.After.Points[:len(s.Turns)],
			func(p *readings.Point) (x, y float64) { return float64(p.FuseeTurn), p.Predicted })})
	}
	return g
}

func residualGraph(c *readings.Comparison) *Graph {
	down, up := Dots{Label: "running down, ± 2 standard uncertainties"}, Dots{Label: "winding up"}
	for i := range c.Points {
		p, d := &c.Points[i], &down
		if p.Winding {
			d = &up
		}
		d.Points, d.Half = append(d.Points, plotter.XY{X: float64(p.FuseeTurn), Y: p.Residual()}), append(d.Half, 2*p.SD)
	}
	return &Graph{X: overTurn, Y: "measured − predicted, N·m", Low: true, Levels: []Limit{{Label: "as predicted", At: 0}}, Dots: []Dots{down, up}}
}

// paceGraph draws 1/interval² against torque for a train whose blows were timed.
func paceGraph(n *measure.Need) *Graph {
	d, hi := Dots{Label: "trials"}, 0.0
	for _, t := range n.Trials {
		if !math.IsNaN(t.Interval) {
			d.Points = append(d.Points, plotter.XY{X: t.Torque, Y: 1 / (t.Interval * t.Interval)})
			hi = max(hi, t.Torque)
		}
	}
	g := &Graph{Title: n.Train + " train: pace of the blows", X: "torque at the winding square, N·m", Y: "1/interval², 1/s²", Dots: []Dots{d}}
	if k := n.Cadence; !math.IsNaN(k.Threshold) {
		g.Lines = []Curve{{Label: "the law of a fly", Points: plotter.XYs{{X: k.Threshold, Y: 0}, {X: hi, Y: k.Slope * (hi - k.Threshold)}}}}
	}
	return g
}

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
