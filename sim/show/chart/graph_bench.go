package chart

import (
	"math"

	"evenpull/sim"
	"evenpull/sim/rules"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Band is a range of the y axis in the shade of a verdict. Its name stands in the
// room kept at the right.
type Band struct {
	Lo, Hi float64 // Hi may be +Inf
	Code   rules.Code
}

// Dots are measured points; Half is half the length of their error bars, nil for
// none, NaN where one is not known.
type Dots struct {
	Label  string
	Points plotter.XYs
	Half   []float64
	Small  bool // single readings behind their means
}

// TorqueBands are the bands in which the torques of a run are judged, N·m.
func TorqueBands(r *sim.Result) []Band {
	var bands []Band
	for _, b := range bandsOf(r) {
		bands = append(bands, Band{b.lo, b.hi, b.code})
	}
	return bands
}

func (d *graphDrawing) bands(g *Graph) error {
	for _, b := range g.Bands {
		lo, hi := math.Max(b.Lo, d.y.lo), math.Min(b.Hi, d.top)
		if !(lo < hi) {
			continue
		}
		if _, err := addArea(d.p, box(d.x.lo, lo, d.x.hi, hi), shade[b.Code], edgeInk, 0.4); err != nil {
			return err
		}
		if hi-lo < 0.04*(d.top-d.y.lo) {
			continue // too low for its name
		}
		right := d.x.hi - gutter/(1+gutter)*(d.x.hi-d.x.lo)/2
		if err := addText(d.p, right, (lo+hi)/2, b.Code.String()); err != nil {
			return err
		}
	}
	return nil
}

func (d *graphDrawing) dots(g *Graph) error {
	shapes := []draw.GlyphDrawer{draw.CircleGlyph{}, draw.BoxGlyph{}, draw.PyramidGlyph{}}
	for i, s := range g.Dots {
		var points plotter.XYs
		for k, pt := range s.Points {
			if !finite(pt.X + pt.Y) {
				continue
			}
			points = append(points, pt)
			if k < len(s.Half) && finite(s.Half[k]) && s.Half[k] > 0 {
				if err := d.bar(pt, s.Half[k]); err != nil {
					return err
				}
			}
		}
		if len(points) == 0 {
			continue
		}
		dots, err := plotter.NewScatter(points)
		if err != nil {
			return err
		}
		dots.GlyphStyle = draw.GlyphStyle{Color: ink, Radius: 2.6, Shape: shapes[i%len(shapes)]}
		if s.Small {
			dots.GlyphStyle = draw.GlyphStyle{Color: edgeInk, Radius: 1.8, Shape: draw.RingGlyph{}}
		}
		d.p.Add(dots)
		d.entry(s.Label, dots)
	}
	return nil
}

// bar draws an error bar with its caps.
func (d *graphDrawing) bar(pt plotter.XY, half float64) error {
	whisker := 0.004 * (d.x.hi - d.x.lo)
	lo, hi := pt.Y-half, pt.Y+half
	for _, line := range []plotter.XYs{
		{{X: pt.X, Y: lo}, {X: pt.X, Y: hi}}, {{X: pt.X - whisker, Y: lo}, {X: pt.X + whisker, Y: lo}}, {{X: pt.X - whisker, Y: hi}, {X: pt.X + whisker, Y: hi}},
	} {
		if _, err := addLine(d.p, line, draw.LineStyle{Color: ink, Width: vg.Points(0.8)}); err != nil {
			return err
		}
	}
	return nil
}
