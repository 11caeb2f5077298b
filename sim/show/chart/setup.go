package chart

import (
	"io"
	"math"

	"evenpull/sim"
	"evenpull/sim/show/words"
	"evenpull/sim/study/setup"

	"gonum.org/v1/plot/plotter"
)

// SetUp draws unevenness and mean reserve, or torque where no need is known,
// against set-up, with the present and the best set-up marked and the range near
// the best shaded.
func SetUp(w io.Writer, format string, st *setup.Study) error {
	near := []Shade{{From: st.Range.Lo, To: st.Range.Hi, Name: words.SetUpNear(st), Plain: true}}
	even := func(d *sim.Digest) float64 { return 100 * d.Torque.Unevenness }
	level, quantity, label := func(d *sim.Digest) float64 { return d.Reserve(d.Torque.Mean) }, "reserve", "mean reserve"
	if math.IsNaN(st.Now.Need.Used) {
		level, quantity, label = func(d *sim.Digest) float64 { return d.Torque.Mean }, torqueLabel, "mean torque"
	}
	lines := []Curve{{Label: label, Points: overSetUp(st, level)}}
	if !math.IsNaN(st.Now.Need.Used) {
		lines = append(lines, Curve{Label: "least reserve", Points: overSetUp(st, func(d *sim.Digest) float64 { return d.Reserve(d.Torque.Min) })})
	}
	return Stack(w, format,
		&Graph{
			Title: st.Now.Name + " train: unevenness against set-up", X: "set-up, turns of the spring", Y: "unevenness, %",
			From: 0, To: st.Most, Stripes: near, Lines: []Curve{{Label: "(greatest − least)/mean torque", Points: overSetUp(st, even)}},
			Dots: setUpMarks(st, even),
		},
		&Graph{X: "set-up, turns of the spring", Y: quantity, Low: true, From: 0, To: st.Most, Lines: lines, Dots: setUpMarks(st, level)})
}

func overSetUp(st *setup.Study, of func(*sim.Digest) float64) plotter.XYs {
	return points(st.Curve, func(d *sim.Digest) (x, y float64) { return d.Spring.SetUp, of(d) })
}

// setUpMarks are the present set-up, when the fusee can be wound with it, and the
// best.
func setUpMarks(st *setup.Study, of func(*sim.Digest) float64) []Dots {
	at := func(name string, role Role, d *sim.Digest) Dots {
		return mark(name+", "+words.Two(d.Spring.SetUp)+" turns", d.Spring.SetUp, of(d), role)
	}
	best := at("best", Best, &st.Best)
	switch now := st.Now.Spring.SetUp; {
	case now == st.Best.Spring.SetUp:
		return []Dots{at("now and best", Best, &st.Best)}
	case now > st.Most:
		return []Dots{best}
	}
	return []Dots{at("now", Now, &st.Now), best}
}
