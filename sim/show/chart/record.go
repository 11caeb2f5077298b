package chart

import (
	"fmt"
	"io"
	"math"

	"evenpull/sim"
	"evenpull/sim/bench/measure"
	"evenpull/sim/bench/readings"

	"gonum.org/v1/plot/plotter"
)

// Record draws every spring's readings: the repeats as small rings, their means with
// 95 % error bars, the prediction as a line, the need and the bands of the verdict
// behind them where a scenario tells them; below it the residuals. Where no torque
// was read it draws the pace of the blows.
func Record(w io.Writer, format string, st *readings.Study) error {
	var pictures []Picture
	for i := range st.Springs {
		list := st.Readings(i)
		pictures = append(pictures, supplyGraph(st, i, list))
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

func supplyGraph(st *readings.Study, i int, list []readings.Reading) *Graph {
	s := &st.Springs[i]
	single := Dots{Label: "single readings", Small: true}
	for _, repeat := range st.Book.Torques[i].RunningDown {
		for turn, v := range repeat {
			single.Points = append(single.Points, plotter.XY{X: float64(turn), Y: v})
		}
	}
	means := Dots{Label: "their means, with 95 % intervals"}
	for k := range s.Turns {
		means.Points = append(means.Points, plotter.XY{X: float64(list[k].FuseeTurn), Y: list[k].Mean})
		means.Half = append(means.Half, list[k].HalfWidth)
	}
	g := &Graph{
		Title: fmt.Sprintf("spring %s in the %s train", s.Spring, s.Train), X: "fusee turns paid out", Y: "torque at the winding square, N·m",
		Dots: []Dots{single, means},
	}
	r := st.Trains[i]
	if r == nil {
		return g
	}
	g.Bands = TorqueBands(&r.Digest)
	g.Lines = []Curve{{Label: "predicted, running down", Points: predictedLine(r)}}
	if e := st.Explained; e != nil && e.After != nil && e.Spring == s.Spring && e.Train == s.Train {
		g.Lines = append(g.Lines, Curve{Label: "with the fitted inputs", Points: readPoints(e.After, false, func(p *readings.Point) float64 { return p.Predicted })})
	}
	if !math.IsNaN(r.Need.Used) {
		g.Levels = []Level{{Label: "least torque needed", At: r.Need.Used, Role: Need}}
	}
	return g
}

func predictedLine(r *sim.Result) plotter.XYs {
	xys := make(plotter.XYs, len(r.Rows))
	for i := range r.Rows {
		xys[i] = plotter.XY{X: r.Rows[i].FuseeTurn, Y: r.Rows[i].FuseeTorque}
	}
	return xys
}

// readPoints is a figure of the points of a comparison that were read one way.
func readPoints(c *readings.Comparison, winding bool, of func(*readings.Point) float64) plotter.XYs {
	var xys plotter.XYs
	for i := range c.Points {
		if p := &c.Points[i]; p.Winding == winding {
			xys = append(xys, plotter.XY{X: float64(p.FuseeTurn), Y: of(p)})
		}
	}
	return xys
}

func residualGraph(c *readings.Comparison) *Graph {
	way := func(label string, winding bool) Dots {
		d := Dots{Label: label, Points: readPoints(c, winding, (*readings.Point).Residual)}
		for _, xy := range readPoints(c, winding, func(p *readings.Point) float64 { return 2 * p.SD }) {
			d.Half = append(d.Half, xy.Y)
		}
		return d
	}
	return &Graph{
		X: "fusee turns paid out", Y: "measured − predicted, N·m", Low: true, Levels: []Level{{Label: "as predicted", At: 0}},
		Dots: []Dots{way("running down, ± 2 standard uncertainties", false), way("winding up", true)},
	}
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
