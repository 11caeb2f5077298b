package chart

import (
	"math"

	"evenpull/sim"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// drawAmplitude draws the pendulum's semi-arc, and the least that is wanted.
func drawAmplitude(panel draw.Canvas, r *sim.Result) error {
	least := (r.Train.Escapement.Reach() + r.Train.Escapement.Margin).Degrees()
	return drawSwing(panel, r, "semi-arc, degrees", "semi-arc of the pendulum",
		func(row *sim.Row) float64 { return row.Amplitude * 180 / math.Pi }, &limit{"least wanted: to escape, with the margin", least})
}

// drawRate draws the rate off its mean: regulation takes away the mean.
func drawRate(panel draw.Canvas, r *sim.Result) error {
	mean := r.Swing.Rate.Mean
	return drawSwing(panel, r, "rate off its mean, s/day", "rate, + gaining",
		func(row *sim.Row) float64 { return (row.Rate - mean) * 86400 }, nil)
}

// limit is a level to compare with.
type limit struct {
	label string
	at    float64
}

func drawSwing(panel draw.Canvas, r *sim.Result, quantity, label string, of func(*sim.Row) float64, least *limit) error {
	p, from, to := frame(r, quantity)
	var pts plotter.XYs
	lo, hi := math.Inf(1), math.Inf(-1)
	for i := range r.Rows {
		v := of(&r.Rows[i])
		if math.IsNaN(v) {
			break // from here the clock stands
		}
		pts = append(pts, plotter.XY{X: r.Rows[i].FuseeTurn, Y: v})
		lo, hi = math.Min(lo, v), math.Max(hi, v)
	}
	line, err := addLine(p, pts, draw.LineStyle{Color: ink, Width: vg.Points(2)})
	if err != nil {
		return err
	}
	entries := []entry{{label, line}}
	if least != nil {
		lo, hi = math.Min(lo, least.at), math.Max(hi, least.at)
		line, err := addLine(p, plotter.XYs{{X: from, Y: least.at}, {X: to, Y: least.at}}, draw.LineStyle{Color: needInk, Width: vg.Points(1.6), Dashes: []vg.Length{8, 4}})
		if err != nil {
			return err
		}
		entries = append(entries, entry{least.label, line})
	}
	room := math.Max(0.12*(hi-lo), 1e-3*math.Abs(hi))
	p.Y.Min, p.Y.Max = lo-room, hi+room
	p.Draw(draw.Crop(panel, 0, 0, legendRow, 0))
	drawLegend(panel, entries)
	return nil
}
