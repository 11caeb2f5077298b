package chart

import (
	"io"
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
func SetUp(w io.Writer, format string, st *setup.Study) error {
	even := overSetUp(st, "unevenness, %", outcome.Unevenness)
	even.title, even.height = st.Now.Name+" train: unevenness against set-up", highPanel
	even.stripes = []shade{{Interval: st.Range, fill: plainFill, label: words.SetUpNear(st)}}
	if math.IsNaN(st.Now.Need.Used) {
		return stack(w, format, even, overSetUp(st, torqueLabel, outcome.MeanTorque))
	}
	return stack(w, format, even, overSetUp(st, "reserve", outcome.MeanReserve, outcome.LeastReserve))
}

// overSetUp is a low panel of results against set-up. In the first are marked the
// present set-up, when the fusee can be wound with it, and the best: the most even or, where
// another is advised, that, and the most even beside it.
func overSetUp(st *setup.Study, y string, names ...string) *panel {
	over := func(d *sim.Digest) (float64, *sim.Digest) { return d.Spring.SetUp, d }
	p := &panel{x: "set-up, turns of the spring", y: y, height: lowPanel, xs: r1.Interval{Lo: 0, Hi: st.Most}, layers: resultLines(st.Curve, over, names...)}
	at := func(name string, glyph draw.GlyphStyle, d sim.Digest) {
		pt := resultLines([]sim.Digest{d}, over, names[0])[0].points[0]
		p.add(mark(name+", "+words.Two(pt.X)+" turns", glyph, pt.X, pt.Y))
	}
	for _, m := range words.SetUpMarks(st) {
		switch {
		case m.Run.Spring.SetUp > st.Most: // with which the fusee cannot be wound
		case m.Chosen:
			at(m.Name, bestMark, *m.Run)
		case m.Now:
			at(m.Name, nowMark, *m.Run)
		default:
			at(m.Name, firstDot, *m.Run)
		}
	}
	return p
}
