package chart

import (
	"fmt"
	"io"
	"math"

	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/show/words"
	"evenpull/sim/study/spread"
)

// fewResults is the number of results up to which all are drawn; of more, the
// least reserve and the mean torque.
const fewResults = 4

// Spread draws histogram and empirical distribution of the results.
func Spread(w io.Writer, format string, st *spread.Study) error {
	var pictures []Picture
	for i := range st.Results {
		d := &st.Results[i]
		first := d.Of.Name == outcome.LeastReserve || d.Of.Name == outcome.MeanTorque
		if d.N() > 0 && (len(st.Results) <= fewResults || first) {
			pictures = append(pictures, histogram(st, d), cumulative(st, d))
		}
	}
	if len(pictures) == 0 {
		pictures = append(pictures, &Graph{Title: st.Own.Name + " train: no run has any of the results", X: "–", Y: "–"})
	}
	return Stack(w, format, pictures...)
}

// barsFor is the number of bars for some runs: their cube root, doubled (common
// practice, no source), within what can be told apart.
func barsFor(runs int) int { return min(max(int(2*math.Cbrt(float64(runs))), 8), 60) }

func histogram(st *spread.Study, d *spread.Distribution) *Graph {
	q := &d.Of.Quantity
	g := overResult(st, d)
	g.Title = fmt.Sprintf("%s train: %s over %s", st.Own.Name, q.Words, words.Count(d.N(), "run"))
	g.Y = "share of the runs, %"
	for _, b := range d.Bars(barsFor(d.N())) {
		g.Bars = append(g.Bars, Bar{From: q.Shown(b.From), To: q.Shown(b.To), Height: 100 * b.Share})
	}
	g.Uprights = []Limit{{Label: "5 % and 95 % of the runs", At: q.Shown(d.Quantile(0.05))}, {At: q.Shown(d.Quantile(0.95))}, {Label: "as the scenario has it", At: q.Shown(d.Own)}}
	return g
}

func cumulative(st *spread.Study, d *spread.Distribution) *Graph {
	g := overResult(st, d)
	g.Y, g.Low = "runs up to it, %", true
	g.Levels = []Limit{{Label: "half of the runs", At: 50}}
	steps := points(d.Steps(400), func(s *spread.Step) (x, y float64) { return d.Of.Shown(s.Value), 100 * s.Share })
	g.Lines = []Curve{{Label: "empirical distribution", Points: steps}}
	return g
}

// overResult is a graph over a result, from its least value to its greatest. The
// least reserves that are called thin and that stop the train are shaded.
func overResult(st *spread.Study, d *spread.Distribution) *Graph {
	lo, hi := d.Range()
	g := &Graph{X: d.Of.Label(), From: d.Of.Shown(lo), To: d.Of.Shown(hi)}
	if d.Of.Name != outcome.LeastReserve || st.Own.Standard.Basis != rules.ByReserve {
		return g
	}
	at := st.Own.Standard.Bands
	g.Stripes = []Shade{
		{From: math.Inf(-1), To: at.Stops, Code: rules.Stops}, {From: at.Stops, To: at.Thin, Code: rules.Thin},
		{From: at.Thin, To: math.Inf(1), Code: rules.Suits, Name: "enough"},
	}
	return g
}
