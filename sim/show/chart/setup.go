package chart

import (
	"math"

	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/show/words"
	"evenpull/sim/study/setup"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot/vg/draw"
)

// SetUp draws unevenness and mean reserve, or torque where no need is known,
// against set-up, with the present and the best set-up marked and the range near
// the best shaded.
func SetUp(look Look, st *setup.Study) (Files, error) {
	even := overSetUp(st, unevenLabel, outcome.Unevenness)
	even.finding, even.height = words.FoundSetUp(st), highPlot
	near := shade{Interval: st.Range, tint: nearby, label: words.SetUpNear(st)}
	even.stripes = append([]shade{near}, even.stripes...)
	if math.IsNaN(st.Now.Need.Used) {
		mean := overSetUp(st, torqueLabel, outcome.MeanTorque)
		mean.zero = true
		return stack(look, even, mean.unnamed())
	}
	reserve := overSetUp(st, "reserve", outcome.MeanReserve, outcome.LeastReserve)
	reserve.zero = true
	return stack(look, even, reserve.unnamed().add(level("the need", needLine, 1).seen()))
}

// beyondMost is how far an axis of set-ups goes beyond those with which the fusee can be wound.
const beyondMost = 1.12

// overSetUp is a low panel of results against set-up, computed at every click. In the first
// are marked the present set-up, and the best: the most even or, where another is advised,
// that, and the most even beside it. Where the spring binds is hatched.
func overSetUp(st *setup.Study, y string, names ...string) *panel {
	over := func(d *sim.Digest) (float64, *sim.Digest) { return d.Spring.SetUp, d }
	end := math.Max(beyondMost*st.Most, math.Max(st.Now.Spring.SetUp+0.25, 0.25))
	p := &panel{x: "set-up, turns of the spring", y: y, height: lowPlot, xs: r1.Interval{Lo: 0, Hi: end}, layers: resultLines(st.Curve, over, names...)}
	p.stripes = []shade{{Interval: r1.Interval{Lo: st.Most, Hi: end}, tint: impossible, name: words.Binds}}
	at := func(name string, glyph draw.GlyphStyle, d sim.Digest) {
		pt := resultLines([]sim.Digest{d}, over, names[0])[0].points[0]
		p.add(mark(name+", "+words.Two(pt.X)+" turns", glyph, pt.X, pt.Y))
	}
	for _, m := range words.SetUpMarks(st) {
		switch {
		case m.Chosen && m.Now:
			at(m.Name, bestMark, *m.Run)
			p.layers[len(p.layers)-1].label = ""
			at(m.Name, nowMark, *m.Run)
		case m.Chosen:
			at(m.Name, bestMark, *m.Run)
		case m.Now:
			at(m.Name, nowMark, *m.Run)
		default:
			at(m.Name, trialMark, *m.Run)
		}
	}
	return p
}
