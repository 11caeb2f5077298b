package chart

import (
	"math"

	"evenpull/escapement"
	"evenpull/sim"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// drawAmplitude draws the pendulum's semi-arc, and the least that is wanted.
func drawAmplitude(panel draw.Canvas, r *sim.Result) error {
	least := (r.Train.Escapement.Reach() + r.Train.Escapement.Margin).Degrees()
	return drawSwing(panel, r, "semi-arc, degrees", "semi-arc of the pendulum",
		func(row *sim.Row) float64 { return goingOnly(row, (row.Amplitude * 180 / math.Pi)) }, limit{"least wanted: to escape, with the margin", least})
}

// drawRate draws the rate off its mean: regulation takes away the mean.
func drawRate(panel draw.Canvas, r *sim.Result) error {
	mean := r.Swing.Rate.Mean
	return drawSwing(panel, r, "rate off its mean, s/day", "rate, + gaining",
		func(row *sim.Row) float64 { return (row.Rate - mean) * escapement.SecondsPerDay })
}

// leastRoom is the least room above and below a line, in degrees, seconds or
// seconds a day: less of any of them is nothing to a clock.
const leastRoom = 0.005

// limitStyles tell limits apart by their dashes.
var limitStyles = []draw.LineStyle{
	{Color: needInk, Width: vg.Points(1.6), Dashes: []vg.Length{8, 4}},
	{Color: needInk, Width: vg.Points(1.6), Dashes: []vg.Length{2, 3}},
}

// limit is a level to compare with.
type limit struct {
	label string
	at    float64
}

func drawSwing(panel draw.Canvas, r *sim.Result, quantity, label string, of func(*sim.Row) float64, limits ...limit) error {
	p, from, to := frame(r, quantity)
	style := draw.LineStyle{Color: ink, Width: vg.Points(2)}
	lo, hi := math.Inf(1), math.Inf(-1)
	var entries []entry
	for _, pts := range pieces(r.Rows, of) {
		line, err := addLine(p, pts, style)
		if err != nil {
			return err
		}
		entries = []entry{{label, line}}
		for _, pt := range pts {
			lo, hi = math.Min(lo, pt.Y), math.Max(hi, pt.Y)
		}
	}
	for i, l := range limits {
		lo, hi = math.Min(lo, l.at), math.Max(hi, l.at)
		line, err := addLine(p, plotter.XYs{{X: from, Y: l.at}, {X: to, Y: l.at}}, limitStyles[i%len(limitStyles)])
		if err != nil {
			return err
		}
		entries = append(entries, entry{l.label, line})
	}
	// A line that is level but for rounding stays level in the picture.
	room := math.Max(0.12*(hi-lo), math.Max(1e-3*math.Abs(hi), leastRoom))
	p.Y.Min, p.Y.Max = lo-room, hi+room
	p.Draw(draw.Crop(panel, 0, 0, legendRow, 0))
	drawLegend(panel, entries)
	return nil
}

// goingOnly is v where the clock goes, NaN where it trips or stands.
func goingOnly(row *sim.Row, v float64) float64 {
	if math.IsNaN(row.Rate) {
		return math.NaN()
	}
	return v
}

// pieces are the runs of rows at which a quantity is a number.
func pieces(rows []sim.Row, of func(*sim.Row) float64) []plotter.XYs {
	var list []plotter.XYs
	open := false
	for i := range rows {
		v := of(&rows[i])
		if open = open && !math.IsNaN(v); math.IsNaN(v) {
			continue
		}
		if !open {
			list, open = append(list, nil), true
		}
		last := &list[len(list)-1]
		*last = append(*last, plotter.XY{X: rows[i].FuseeTurn, Y: v})
	}
	return list
}
