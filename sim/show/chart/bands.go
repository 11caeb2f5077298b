package chart

import (
	"image/color"
	"math"

	"evenpull/sim"
	"evenpull/sim/rules"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
)

var (
	ink     = color.RGBA{0x1b, 0x2a, 0x41, 0xff}
	needInk = color.RGBA{0x7a, 0x1f, 0x1f, 0xff}
	edgeInk = color.Gray{0x9a}
	// Bands, from light where all is well to dark at both ends.
	shade = map[rules.Code]color.RGBA{
		rules.Stops:      {0xdf, 0xbf, 0xb4, 0xff},
		rules.Thin:       {0xf0, 0xe6, 0xc8, 0xff},
		rules.Suits:      {0xf4, 0xfa, 0xf1, 0xff},
		rules.Strong:     {0xe4, 0xdf, 0xcd, 0xff},
		rules.Overdriven: {0xcf, 0xc0, 0xb6, 0xff},
	}
)

// band is a range of torque that goes with a verdict.
type band struct {
	code   rules.Code
	lo, hi float64
}

// bandsOf gives the bands in N·m, rising; none when nothing is known.
func bandsOf(r *sim.Result) []band {
	if r.Standard.Basis == rules.ByNothing {
		return nil
	}
	// Below the need it stops, whatever else is liked there.
	at := r.Standard.Limits()
	stops := 0.0
	var bands []band
	if !math.IsNaN(at[0]) {
		stops = at[0]
		bands = append(bands, band{rules.Stops, 0, stops})
	}
	thin, suits, strong := math.Max(stops, at[1]), math.Max(stops, at[2]), math.Max(stops, at[3])
	return append(bands, band{rules.Thin, stops, thin}, band{rules.Suits, thin, suits},
		band{rules.Strong, suits, strong}, band{rules.Overdriven, strong, math.Inf(1)})
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
