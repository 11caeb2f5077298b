package chart

import (
	"image/color"
	"math"

	"evenpull/sim"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
)

var (
	ink     = color.RGBA{0x1b, 0x2a, 0x41, 0xff}
	needInk = color.RGBA{0x7a, 0x1f, 0x1f, 0xff}
	edgeInk = color.Gray{0x9a}
	// Bands, from light where all is well to dark at both ends.
	shade = map[sim.Code]color.RGBA{
		sim.Stops:      {0xdf, 0xbf, 0xb4, 0xff},
		sim.Thin:       {0xf0, 0xe6, 0xc8, 0xff},
		sim.Suits:      {0xf4, 0xfa, 0xf1, 0xff},
		sim.Strong:     {0xe4, 0xdf, 0xcd, 0xff},
		sim.Overdriven: {0xcf, 0xc0, 0xb6, 0xff},
	}
)

// band is a range of torque that goes with a verdict.
type band struct {
	code   sim.Code
	lo, hi float64
}

// bandsOf gives the bands in N·m, rising; none when nothing is known.
func bandsOf(r *sim.Result) []band {
	top := math.Inf(1)
	need, b := r.Need.Used, r.Train.Bands
	switch r.Verdict.Basis {
	case sim.ByReserve:
		thin, suits, strong := b.ThinRange(), b.SuitsRange(), b.StrongRange()
		return []band{
			{sim.Stops, 0, need * thin.Lo}, {sim.Thin, need * thin.Lo, need * thin.Hi},
			{sim.Suits, need * suits.Lo, need * suits.Hi}, {sim.Strong, need * strong.Lo, need * strong.Hi},
			{sim.Overdriven, need * strong.Hi, top},
		}
	case sim.ByBand, sim.ByCadence:
		liked, _ := r.Train.Liked()
		stops := 0.0
		var bands []band
		if !math.IsNaN(need) {
			stops = need * b.Stops
			bands = append(bands, band{sim.Stops, 0, stops})
		}
		// Below the need it stops, whatever else is liked there.
		thin, suits := math.Max(stops, liked.Lo), math.Max(stops, liked.Hi)
		strong := math.Max(stops, sim.StrongAbove(liked))
		return append(bands, band{sim.Thin, stops, thin}, band{sim.Suits, thin, suits},
			band{sim.Strong, suits, strong}, band{sim.Overdriven, strong, top})
	}
	return nil
}

// addBands shades what lies within lo and hi and names each band at its right.
func addBands(p *plot.Plot, r *sim.Result, from, to, at, lo, hi float64) error {
	for _, b := range bandsOf(r) {
		y0, y1 := math.Max(b.lo, lo), math.Min(b.hi, hi)
		if y1 <= y0 {
			continue
		}
		area, err := plotter.NewPolygon(plotter.XYs{{X: from, Y: y0}, {X: to, Y: y0}, {X: to, Y: y1}, {X: from, Y: y1}})
		if err != nil {
			return err
		}
		area.Color = shade[b.code]
		area.LineStyle.Color = edgeInk
		area.LineStyle.Width = 0.4
		p.Add(area)
		if y1-y0 < 0.04*(hi-lo) {
			continue // too low for its name
		}
		name, err := plotter.NewLabels(plotter.XYLabels{XYs: plotter.XYs{{X: at, Y: (y0 + y1) / 2}}, Labels: []string{b.code.String()}})
		if err != nil {
			return err
		}
		name.TextStyle[0].Font.Size = textSize
		name.TextStyle[0].YAlign = text.YCenter
		p.Add(name)
	}
	return nil
}
