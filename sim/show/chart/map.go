package chart

import (
	"image/color"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Map is a quantity over two inputs: shaded in steps, the darker the more, with a
// line between the steps and heavy lines for borders.
type Map struct {
	Title, X, Y string
	Z           string                 // what the shade means, written along its scale
	Xs, Ys      []float64              // rising, two at the least
	At          func(i, j int) float64 // at Xs[i], Ys[j]; NaN: it cannot be built
	Borders     []Border
	Mark        *Mark
}

// Border is where another quantity on the same grid passes 0.
type Border struct {
	Label string
	At    func(i, j int) float64
}

var (
	borderInks = []draw.LineStyle{
		{Color: color.Black, Width: vg.Points(2.6), Dashes: []vg.Length{2, 3}},
		{Color: color.Black, Width: vg.Points(2.6), Dashes: []vg.Length{9, 4}},
		{Color: color.Black, Width: vg.Points(2.6)},
		{Color: color.Black, Width: vg.Points(2.6), Dashes: []vg.Length{12, 3, 2, 3}},
	}
	stepLine = draw.LineStyle{Color: color.Gray{0x60}, Width: vg.Points(0.4)}
	lightest = color.RGBA{0xf7, 0xf4, 0xe8, 0xff}
	darkest  = color.RGBA{0x54, 0x70, 0x8c, 0xff}
)

const (
	mapHeight  = 16 * vg.Centimeter
	scaleWidth = 3 * vg.Centimeter
)

func (m *Map) height() vg.Length { return mapHeight }

func (m *Map) draw(panel draw.Canvas) error {
	if err := m.check(); err != nil {
		return err
	}
	d := mapDrawing{Map: m, p: plainPlot(m.Title, m.X, m.Y), grid: lattice{m.Xs, m.Ys, m.At}}
	d.measure()
	for _, add := range []func() error{d.cells, d.stepLines, d.borders, d.mark} {
		if err := add(); err != nil {
			return err
		}
	}
	d.p.X.Min, d.p.X.Max, d.p.Y.Min, d.p.Y.Max = m.Xs[0], m.Xs[len(m.Xs)-1], m.Ys[0], m.Ys[len(m.Ys)-1]
	rows := rowsOf(d.entries, panel.Max.X-panel.Min.X)
	below := legendRow * vg.Length(len(rows))
	d.p.Draw(draw.Crop(panel, 0, -scaleWidth, below, 0))
	drawRows(panel, rows)
	return d.scale(draw.Crop(panel, panel.Max.X-panel.Min.X-scaleWidth, 0, below, 0))
}

// mapDrawing is a map on its way to the canvas.
type mapDrawing struct {
	*Map
	p       *plot.Plot
	grid    lattice
	levels  []float64 // between the steps, and below and above them all
	entries []entry
}

// measure finds the steps of the shade: at round values over what there is.
func (d *mapDrawing) measure() {
	z := noExtent()
	for j := range d.Ys {
		for i := range d.Xs {
			z.hold(d.At(i, j))
		}
	}
	z = z.steps()
	step := roundStep((z.hi - z.lo) / 11)
	for k := math.Floor(z.lo/step + 1e-9); ; k++ {
		d.levels = append(d.levels, k*step)
		if k*step >= z.hi {
			return
		}
	}
}

// steps is a range that can be divided: a level one is widened.
func (e extent) steps() extent {
	if !e.empty() && !e.level() {
		return e
	}
	return e.roomy()
}

// step is the number of the step that a value falls in; −1 for none.
func (d *mapDrawing) step(v float64) int {
	if !finite(v) {
		return -1
	}
	last := len(d.levels) - 2
	u := (v - d.levels[0]) / (d.levels[1] - d.levels[0])
	return min(max(int(math.Floor(u)), 0), last)
}

// tone is the shade of a step.
func (d *mapDrawing) tone(step int) color.Color {
	u := float64(step) / math.Max(float64(len(d.levels)-2), 1)
	mix := func(a, b uint8) uint8 { return uint8(math.Round(float64(a)*(1-u) + float64(b)*u)) }
	return color.RGBA{mix(lightest.R, darkest.R), mix(lightest.G, darkest.G), mix(lightest.B, darkest.B), 0xff}
}

func (d *mapDrawing) stepLines() error {
	for _, level := range d.levels {
		for _, line := range d.grid.contour(level) {
			if _, err := addLine(d.p, line, stepLine); err != nil {
				return err
			}
		}
	}
	return nil
}

// border is the quantity of a border, where the train can be built.
func (m *Map) border(b *Border) *lattice {
	return &lattice{m.Xs, m.Ys, func(i, j int) float64 {
		if !finite(m.At(i, j)) {
			return math.NaN()
		}
		return b.At(i, j)
	}}
}

func (d *mapDrawing) borders() error {
	for i, b := range d.Borders {
		for k, line := range d.border(&b).contour(0) {
			drawn, err := addLine(d.p, line, borderInks[i%len(borderInks)])
			if err != nil {
				return err
			}
			if k == 0 {
				d.entries = append(d.entries, entry{b.Label, drawn})
			}
		}
	}
	return nil
}

func (d *mapDrawing) mark() error {
	beside := func(v float64, axis []float64) bool { return !(v >= axis[0] && v <= axis[len(axis)-1]) }
	if d.Mark == nil || beside(d.Mark.X, d.Xs) || beside(d.Mark.Y, d.Ys) {
		return nil
	}
	dot, err := plotter.NewScatter(plotter.XYs{{X: d.Mark.X, Y: d.Mark.Y}})
	if err != nil {
		return err
	}
	dot.GlyphStyle = draw.GlyphStyle{Color: color.Black, Radius: 5, Shape: draw.RingGlyph{}}
	d.p.Add(dot)
	d.entries = append(d.entries, entry{d.Mark.Label, dot})
	return nil
}

// scale draws what the shades mean.
func (d *mapDrawing) scale(panel draw.Canvas) error {
	p := plainPlot("|", "|", d.Z) // unseen, so that it is as high as the map
	p.Title.TextStyle.Color, p.X.Label.TextStyle.Color = color.Transparent, color.Transparent
	for k := range len(d.levels) - 1 {
		if _, err := addArea(p, box(0, d.levels[k], 1, d.levels[k+1]), d.tone(k), color.Gray{0x60}, 0.4); err != nil {
			return err
		}
	}
	p.X.Tick.Marker = plot.ConstantTicks([]plot.Tick{{Value: 0.5, Label: "0"}})
	p.X.Tick.Label.Color, p.X.Tick.LineStyle.Color, p.X.LineStyle.Color = color.Transparent, color.Transparent, color.Transparent
	p.X.Min, p.X.Max, p.Y.Min, p.Y.Max = 0, 1, d.levels[0], d.levels[len(d.levels)-1]
	p.Draw(panel)
	return nil
}
