package readings

import (
	"fmt"
	"io"

	"evenpull/sim"
	"evenpull/sim/bench/book"
	"evenpull/sim/show/chart"

	"gonum.org/v1/plot/plotter"
)

// Plot draws every spring's readings: the repeats as small rings, their means with
// 95 % error bars, the prediction as a line, the need and the bands of the verdict
// behind them where a scenario tells them; below it the residuals.
func Plot(w io.Writer, format string, st *Study, b *book.Book) error {
	var pictures []chart.Picture
	for i := range st.Springs {
		pictures = append(pictures, st.readings(i, b))
		if c := st.comparison(i); c != nil {
			pictures = append(pictures, st.residuals(c))
		}
	}
	if len(pictures) == 0 {
		pictures = append(pictures, st.paces()...)
	}
	if len(pictures) == 0 {
		pictures = append(pictures, &chart.Graph{Title: "no torque was read and no blow timed", X: "–", Y: "–"})
	}
	return chart.Stack(w, format, pictures...)
}

func (st *Study) readings(i int, b *book.Book) *chart.Graph {
	s := &st.Springs[i]
	g := &chart.Graph{
		Title: fmt.Sprintf("spring %s in the %s train", s.Spring, s.Train), X: "fusee turns paid out", Y: "torque at the winding square, N·m",
		Dots: []chart.Dots{repeats(b.Torques[i].RunningDown), means(s)},
	}
	c := st.comparison(i)
	if c == nil {
		return g
	}
	r := st.Trains[i]
	g.Bands = chart.TorqueBands(r)
	g.Lines = []chart.Curve{{Label: "predicted, running down", Points: rowsOf(r)}}
	if e := st.Explained; e != nil && e.After != nil && e.Spring == s.Spring && e.Train == s.Train {
		g.Lines = append(g.Lines, chart.Curve{Label: "with the fitted inputs", Points: predictions(e.After, false)})
	}
	if need := r.Need.Used; need == need { // known
		g.Levels = []chart.Level{{Label: "least torque needed", At: need, Role: chart.Need}}
	}
	return g
}

func rowsOf(r *sim.Result) plotter.XYs {
	xys := make(plotter.XYs, len(r.Rows))
	for i := range r.Rows {
		xys[i] = plotter.XY{X: r.Rows[i].FuseeTurn, Y: r.Rows[i].FuseeTorque}
	}
	return xys
}

func predictions(c *Comparison, winding bool) plotter.XYs {
	var xys plotter.XYs
	for i := range c.Points {
		if p := &c.Points[i]; p.Winding == winding {
			xys = append(xys, plotter.XY{X: float64(p.FuseeTurn), Y: p.Predicted})
		}
	}
	return xys
}

func repeats(lists [][]float64) chart.Dots {
	d := chart.Dots{Label: "single readings", Small: true}
	for _, list := range lists {
		for turn, v := range list {
			d.Points = append(d.Points, plotter.XY{X: float64(turn), Y: v})
		}
	}
	return d
}

func means(s *Spring) chart.Dots {
	d := chart.Dots{Label: "their means, with 95 % intervals"}
	for i := range s.Turns {
		t := &s.Turns[i]
		d.Points = append(d.Points, plotter.XY{X: float64(t.FuseeTurn), Y: t.Mean})
		d.Half = append(d.Half, t.HalfWidth)
	}
	return d
}

func (st *Study) residuals(c *Comparison) *chart.Graph {
	g := &chart.Graph{X: "fusee turns paid out", Y: "measured − predicted, N·m", Low: true, Levels: []chart.Level{{Label: "as predicted", At: 0}}}
	for _, winding := range []bool{false, true} {
		d := chart.Dots{Label: map[bool]string{false: "running down, ± 2 standard uncertainties", true: "winding up"}[winding]}
		for i := range c.Points {
			if p := &c.Points[i]; p.Winding == winding {
				d.Points = append(d.Points, plotter.XY{X: float64(p.FuseeTurn), Y: p.Residual()})
				d.Half = append(d.Half, 2*p.SD)
			}
		}
		g.Dots = append(g.Dots, d)
	}
	return g
}

// paces draws 1/interval² against torque for trains whose blows were timed.
func (st *Study) paces() []chart.Picture {
	var pictures []chart.Picture
	for i := range st.Needs {
		n := &st.Needs[i]
		if n.Cadence == nil {
			continue
		}
		g := &chart.Graph{Title: n.Train + " train: pace of the blows", X: "torque at the winding square, N·m", Y: "1/interval², 1/s²"}
		d := chart.Dots{Label: "trials"}
		hi := 0.0
		for _, t := range n.Trials {
			if t.Interval == t.Interval {
				d.Points = append(d.Points, plotter.XY{X: t.Torque, Y: 1 / (t.Interval * t.Interval)})
				hi = max(hi, t.Torque)
			}
		}
		g.Dots = []chart.Dots{d}
		if k := n.Cadence; k.Threshold == k.Threshold {
			g.Lines = []chart.Curve{{Label: "the law of a fly", Points: plotter.XYs{{X: k.Threshold, Y: 0}, {X: hi, Y: k.Slope * (hi - k.Threshold)}}}}
		}
		pictures = append(pictures, g)
	}
	return pictures
}
