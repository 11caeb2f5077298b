package chart

import (
	"fmt"
	"math"

	"evenpull/sim"
	"evenpull/sim/show/words"
	"evenpull/train"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"
)

// drawCadence draws the interval between blows, and those wanted.
func drawCadence(panel draw.Canvas, r *sim.Result) error {
	var limits []limit
	if w := r.Wanted; !w.IsEmpty() {
		limits = []limit{{"slowest wanted", w.Hi}, {"fastest wanted", w.Lo}}
	}
	return drawSwing(panel, r, "s from blow to blow", "interval between blows", func(row *sim.Row) float64 { return row.BlowInterval }, limits...)
}

// drawTwelve draws a strike of twelve from rest at the mean torque: the speed
// of the fly against time, each lift a fall.
func drawTwelve(panel draw.Canvas, r *sim.Result) error {
	fly := Curve{Label: "turns of the fly a second; each fall lifts the hammer"}
	drops := 0
	run := r.Train.Striker.Blows(r.Torque.Mean, 12, func(p train.Phase) {
		const n = 12
		for k := range n + 1 {
			t := p.Seconds * float64(k) / n
			fly.Points = append(fly.Points, plotter.XY{X: p.Start + t, Y: p.At(t) / (2 * math.Pi)})
		}
		if p.Lifting && !p.Stalled {
			drops++
		}
	})
	title := fmt.Sprintf("A strike of twelve from rest at the mean torque: %s s", words.Figure(run.Seconds))
	if run.Status != train.Strikes {
		title = fmt.Sprintf("A strike of twelve from rest at the mean torque: it stalls after %d blows", drops)
	}
	g := Graph{Title: title, X: "s from the release", Y: "turns a second", Lines: []Curve{fly}}
	return g.draw(panel)
}
