package chart

import (
	"image/color"
	"math"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Map is a quantity over two inputs: shaded in steps, the darker the more, with a
// line between the steps and heavy lines for borders.
type Map struct {
	Title, X, Y string
	Z           string                 // what the shade means, written along its scale
	Xs, Ys      []float64              // two at the least, rising
	At          func(i, j int) float64 // at Xs[i], Ys[j]; NaN: it cannot be built
	Borders     []Border
	Dots        []Dots
}

// Border is where another quantity on the same grid passes 0.
type Border struct {
	Label string
	At    func(i, j int) float64
}

func (m *Map) height() vg.Length { return mapHeight }

func (m *Map) draw(panel draw.Canvas) {
	d := mapDrawing{Map: m, board: newBoard(m.Title, m.X, m.Y), grid: lattice{m.Xs, m.Ys, m.At}}
	d.measure()
	for _, add := range []func(){d.cells, d.crosses, d.stepLines, d.borders} {
		add()
	}
	x, y := ends(m.Xs), ends(m.Ys)
	d.dots(d.Dots, x, y)
	above := d.finish(panel, x, y, scaleWidth)
	d.scale(draw.Crop(above, panel.Max.X-panel.Min.X-scaleWidth, 0, 0, 0))
}

func ends(values []float64) r1.Interval { return r1.Interval{Lo: values[0], Hi: values[len(values)-1]} }

// mapDrawing is a map on its way to the page.
type mapDrawing struct {
	*Map
	*board
	grid   lattice
	levels []float64 // between the steps, and below and above them all
}

// measure finds the steps of the shade: at round values over what there is.
func (d *mapDrawing) measure() {
	z := r1.EmptyInterval()
	for j := range d.Ys {
		for i := range d.Xs {
			z = hold(z, d.At(i, j))
		}
	}
	if z.IsEmpty() || isLevel(z) {
		z = roomy(z)
	}
	step := roundStep((z.Hi - z.Lo) / 11)
	for k := math.Floor(z.Lo/step + 1e-9); ; k++ {
		d.levels = append(d.levels, k*step)
		if k*step >= z.Hi {
			return
		}
	}
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

func (d *mapDrawing) stepLines() {
	for _, level := range d.levels {
		for _, line := range d.grid.contour(level) {
			d.line("", line, stepLine)
		}
	}
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

func (d *mapDrawing) borders() {
	for i, b := range d.Borders {
		for k, line := range d.border(&b).contour(0) {
			d.line(once(b.Label, k), line, borderLines[i%len(borderLines)])
		}
	}
}

// scale draws what the tones mean.
func (d *mapDrawing) scale(panel draw.Canvas) {
	b := newBoard("|", "|", d.Z) // unseen, so that it is as high as the map
	for k := range len(d.levels) - 1 {
		b.area("", box(0, d.levels[k], 1, d.levels[k+1]), d.tone(k), stepLine)
	}
	b.X.Tick.Marker = plot.ConstantTicks{{Value: 0.5, Label: "0"}}
	x := &b.X
	for _, unseen := range []*color.Color{&b.Title.TextStyle.Color, &x.Label.TextStyle.Color, &x.Tick.Label.Color, &x.Tick.LineStyle.Color, &x.LineStyle.Color} {
		*unseen = color.Transparent
	}
	b.finish(panel, r1.Interval{Lo: 0, Hi: 1}, ends(d.levels), 0)
}
