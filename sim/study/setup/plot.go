package setup

import (
	"io"
	"math"

	"evenpull/sim/show/chart"

	"gonum.org/v1/plot/plotter"
)

// Plot draws unevenness and mean reserve, or torque where no need is known,
// against set-up, with the present and the best set-up marked and the range near
// the best shaded.
func Plot(w io.Writer, format string, st *Study) error {
	near := []chart.Stripe{{From: st.Range.Lo, To: st.Range.Hi, Name: st.within(), Plain: true}}
	even := func(p *Point) float64 { return 100 * p.Unevenness }
	level, quantity, label := func(p *Point) float64 { return p.Reserve.Mean }, "reserve", "mean reserve"
	if math.IsNaN(st.Now.Reserve.Mean) {
		level, quantity, label = func(p *Point) float64 { return p.Mean }, "torque at the fusee, N·m", "mean torque"
	}
	lines := []chart.Curve{{Label: label, Points: st.points(level)}}
	if !math.IsNaN(st.Now.Reserve.Min) {
		lines = append(lines, chart.Curve{Label: "least reserve", Points: st.points(func(p *Point) float64 { return p.Reserve.Min })})
	}
	return chart.Stack(w, format,
		&chart.Graph{
			Title: st.Train.Name + " train: unevenness against set-up", X: "set-up, turns of the spring", Y: "unevenness, %",
			From: 0, To: st.Most, Stripes: near, Lines: []chart.Curve{{Label: "(greatest − least)/mean torque", Points: st.points(even)}},
			Marks: st.marks(even),
		},
		&chart.Graph{X: "set-up, turns of the spring", Y: quantity, Low: true, From: 0, To: st.Most, Lines: lines, Marks: st.marks(level)})
}

func (st *Study) points(of func(*Point) float64) plotter.XYs {
	xys := make(plotter.XYs, len(st.Curve))
	for i := range st.Curve {
		xys[i] = plotter.XY{X: st.Curve[i].SetUp, Y: of(&st.Curve[i])}
	}
	return xys
}

// marks are the present set-up, when the fusee can be wound with it, and the best.
func (st *Study) marks(of func(*Point) float64) []chart.Mark {
	best := chart.Mark{Role: chart.Best, Label: "best, " + turns(st.Best.SetUp) + " turns", X: st.Best.SetUp, Y: of(&st.Best)}
	if st.Now.SetUp > st.Most || st.Now.SetUp == st.Best.SetUp {
		return []chart.Mark{best}
	}
	return []chart.Mark{{Role: chart.Now, Label: "now, " + turns(st.Now.SetUp) + " turns", X: st.Now.SetUp, Y: of(&st.Now)}, best}
}
