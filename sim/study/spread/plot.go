package spread

import (
	"fmt"
	"io"
	"math"

	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/words"

	"gonum.org/v1/plot/plotter"
)

// fewResults is the number of results up to which all are drawn; of more, the
// least reserve and the mean torque.
const fewResults = 4

// Plot draws histogram and empirical distribution of the results.
func Plot(w io.Writer, format string, st *Study) error {
	var pictures []chart.Picture
	for i := range st.Results {
		d := &st.Results[i]
		first := d.Of.Name == outcome.LeastReserve || d.Of.Name == outcome.MeanTorque
		if d.N() > 0 && (len(st.Results) <= fewResults || first) {
			pictures = append(pictures, st.histogram(d), st.cumulative(d))
		}
	}
	if len(pictures) == 0 {
		pictures = append(pictures, &chart.Graph{Title: st.Train.Name + " train: no run has any of the results", X: "–", Y: "–"})
	}
	return chart.Stack(w, format, pictures...)
}

// barsFor is the number of bars for some runs: their cube root, doubled (common
// practice, no source), within what can be told apart.
func barsFor(runs int) int { return min(max(int(2*math.Cbrt(float64(runs))), 8), 60) }

func (st *Study) histogram(d *Distribution) *chart.Graph {
	g := &chart.Graph{
		Title: fmt.Sprintf("%s train: %s over %s", st.Train.Name, d.Of.Words, words.Count(d.N(), "run")),
		X:     d.Of.Label(), Y: "share of the runs, %", Stripes: st.bands(d),
	}
	g.From, g.To = d.ends()
	for _, b := range d.Bars(barsFor(d.N())) {
		g.Bars = append(g.Bars, chart.Bar{From: d.Of.Shown(b.From), To: d.Of.Shown(b.To), Height: 100 * b.Share})
	}
	g.Uprights = []chart.Upright{
		{Label: "5 % and 95 % of the runs", At: d.Of.Shown(d.Quantile(0.05))},
		{Label: "", At: d.Of.Shown(d.Quantile(0.95))},
	}
	if !math.IsNaN(d.Own) {
		g.Uprights = append(g.Uprights, chart.Upright{Label: "as the scenario has it", At: d.Of.Shown(d.Own), Role: chart.Now})
	}
	return g
}

func (st *Study) cumulative(d *Distribution) *chart.Graph {
	var steps plotter.XYs
	for _, s := range d.Steps(400) {
		steps = append(steps, plotter.XY{X: d.Of.Shown(s.Value), Y: 100 * s.Share})
	}
	from, to := d.ends()
	return &chart.Graph{
		X: d.Of.Label(), Y: "runs up to it, %", Low: true, From: from, To: to, Stripes: st.bands(d),
		Lines:  []chart.Curve{{Label: "empirical distribution", Points: steps}},
		Levels: []chart.Level{{Label: "half of the runs", At: 50}},
	}
}

// ends are the least and greatest value as shown, for an axis from end to end.
func (d *Distribution) ends() (from, to float64) {
	lo, hi := d.Range()
	return d.Of.Shown(lo), d.Of.Shown(hi)
}

// bands shades the least reserves that are called thin and that stop the train.
func (st *Study) bands(d *Distribution) []chart.Stripe {
	if _, basis := st.Train.Liked(); d.Of.Name != outcome.LeastReserve || basis != rules.ByNothing {
		return nil
	}
	lo, hi := d.Range()
	b := st.Train.Bands
	var stripes []chart.Stripe
	for _, s := range []chart.Stripe{{From: lo, To: b.Stops, Code: rules.Stops}, {From: b.Stops, To: b.Thin, Code: rules.Thin}, {From: b.Thin, To: hi, Code: rules.Suits, Name: "enough"}} {
		s.From, s.To = max(s.From, lo), min(s.To, hi)
		if s.From < s.To {
			stripes = append(stripes, s)
		}
	}
	return stripes
}
