package chart

import (
	"io"
	"math"
	"slices"

	"evenpull/sim"
	"evenpull/sim/show/words"
	"evenpull/sim/study/setup"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"
)

// SetUp draws unevenness and mean reserve, or torque where no need is known,
// against set-up, with the present and the best set-up marked and the range near
// the best shaded.
func SetUp(w io.Writer, format string, st *setup.Study) error {
	even := overSetUp(st, "unevenness, %", "(greatest − least)/mean torque", func(d *sim.Digest) float64 { return 100 * d.Torque.Unevenness })
	even.title = st.Now.Name + " train: unevenness against set-up"
	even.stripes = []shade{{Interval: st.Range, fill: plainFill, label: words.SetUpNear(st)}}
	var drive *panel
	if math.IsNaN(st.Now.Need.Used) {
		drive = overSetUp(st, torqueLabel, "mean torque", func(d *sim.Digest) float64 { return d.Torque.Mean })
	} else {
		drive = overSetUp(st, "reserve", "mean reserve", func(d *sim.Digest) float64 { return d.Reserve(d.Torque.Mean) })
		least := alongSetUp(st, func(d *sim.Digest) float64 { return d.Reserve(d.Torque.Min) })
		drive.layers = slices.Insert(drive.layers, 1, line("least reserve", curves[1], least))
	}
	drive.height = lowPanel
	return stack(w, format, even, drive)
}

// overSetUp is a panel of a figure against set-up.
func overSetUp(st *setup.Study, y, label string, of func(*sim.Digest) float64) *panel {
	return &panel{x: "set-up, turns of the spring", y: y, xs: r1.Interval{Lo: 0, Hi: st.Most},
		layers: append([]layer{line(label, curves[0], alongSetUp(st, of))}, setUpMarks(st, of)...)}
}

func alongSetUp(st *setup.Study, of func(*sim.Digest) float64) plotter.XYs {
	return points(st.Curve, func(d *sim.Digest) (x, y float64) { return d.Spring.SetUp, of(d) })
}

// setUpMarks are the present set-up, when the fusee can be wound with it, and the
// best.
func setUpMarks(st *setup.Study, of func(*sim.Digest) float64) []layer {
	at := func(name string, glyph draw.GlyphStyle, d *sim.Digest) layer {
		return mark(name+", "+words.Two(d.Spring.SetUp)+" turns", glyph, d.Spring.SetUp, of(d))
	}
	best := at("best", bestMark, &st.Best)
	switch now := st.Now.Spring.SetUp; {
	case now == st.Best.Spring.SetUp:
		return []layer{at("now and best", bestMark, &st.Best)}
	case now > st.Most:
		return []layer{best}
	}
	return []layer{at("now", nowMark, &st.Now), best}
}
