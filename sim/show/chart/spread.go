package chart

import (
	"fmt"
	"io"
	"math"

	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/show/words"
	"evenpull/sim/study/spread"

	"github.com/golang/geo/r1"
)

// fewResults is the number of results up to which all are drawn; of more, the
// least reserve and the mean torque.
const fewResults = 4

// Spread draws histogram and empirical distribution of the results.
func Spread(w io.Writer, format string, st *spread.Study) error {
	var panels []*panel
	for i := range st.Results {
		d := &st.Results[i]
		first := d.Of.Name == outcome.LeastReserve || d.Of.Name == outcome.MeanTorque
		if d.N() > 0 && (len(st.Results) <= fewResults || first) {
			panels = append(panels, histogram(st, d), cumulative(st, d))
		}
	}
	if len(panels) == 0 {
		panels = append(panels, &panel{title: st.Own.Name + " train: no run has any of the results", x: "–", y: "–"})
	}
	return stack(w, format, panels...)
}

// barsFor is the number of bars for some runs: their cube root, doubled (common
// practice, no source), within what can be told apart.
func barsFor(runs int) int { return min(max(int(2*math.Cbrt(float64(runs))), 8), 60) }

func histogram(st *spread.Study, d *spread.Distribution) *panel {
	q := &d.Of.Quantity
	p := overResult(st, d)
	p.title = fmt.Sprintf("%s train: %s over %s", st.Own.Name, q.Words, words.Count(d.N(), "run"))
	p.y, p.floor = "share of the runs, %", true
	for _, b := range d.Bars(barsFor(d.N())) {
		p.layers = append(p.layers, bar(q.Shown(b.From), q.Shown(b.To), 100*b.Share))
	}
	p.layers = append(p.layers,
		upright("5 % and 95 % of the runs", limits[0], q.Shown(d.Quantile(0.05))),
		upright("", limits[0], q.Shown(d.Quantile(0.95))),
		upright("as the scenario has it", limits[1], q.Shown(d.Own)))
	return p
}

func cumulative(st *spread.Study, d *spread.Distribution) *panel {
	p := overResult(st, d)
	p.y, p.height = "runs up to it, %", lowPanel
	steps := points(d.Steps(400), func(s *spread.Step) (x, y float64) { return d.Of.Shown(s.Value), 100 * s.Share })
	p.layers = []layer{line("empirical distribution", curves[0], steps), level("half of the runs", limits[0], 50)}
	return p
}

// overResult is a panel over a result, from its least value to its greatest. The
// least reserves that are called thin and that stop the train are shaded.
func overResult(st *spread.Study, d *spread.Distribution) *panel {
	lo, hi := d.Range()
	p := &panel{x: d.Of.Label(), xs: r1.Interval{Lo: d.Of.Shown(lo), Hi: d.Of.Shown(hi)}}
	if d.Of.Name != outcome.LeastReserve || st.Own.Standard.Basis != rules.ByReserve {
		return p
	}
	at := st.Own.Standard.Bands
	enough := judged(rules.Suits, at.Thin, math.Inf(1))
	enough.name = "enough"
	p.stripes = []shade{judged(rules.Stops, math.Inf(-1), at.Stops), judged(rules.Thin, at.Stops, at.Thin), enough}
	return p
}
