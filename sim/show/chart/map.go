package chart

import (
	"image/color"
	"math"
	"slices"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
)

// shade puts a map of a quantity behind the layers of a panel: shaded in steps, the
// darker the more, with a line around every step, and crosses where it is no number. Its
// scale is called z.
func (p *panel) shade(l *lattice, z string) {
	steps := l.steps()
	p.height, p.xs, p.ys, p.scale = mapHeight, ends(l.xs), ends(l.ys), steps.scale(z)
	var layers []layer
	for k, from := range steps[:len(steps)-1] {
		if k == 0 {
			from = -math.MaxFloat64 // whatever can be built, also where rounding puts it below
		}
		layers = append(layers, layer{points: l.framed().contour(from), fill: steps.tone(k), line: stepLine})
	}
	p.layers = slices.Concat(layers, []layer{l.crosses()}, p.layers)
}

func ends(values []float64) r1.Interval { return r1.Interval{Lo: values[0], Hi: values[len(values)-1]} }

// steps are the values between the steps of a shade, and those below and above all.
type steps []float64

// steps lie at round values over what there is.
func (l *lattice) steps() (list steps) {
	z := r1.EmptyInterval()
	for j := range l.ys {
		for i := range l.xs {
			z = hold(z, l.at(i, j))
		}
	}
	if z.IsEmpty() || isLevel(z) {
		z = roomy(z)
	}
	step := roundStep(z.Length() / 11)
	for k := math.Floor(z.Lo/step + 1e-9); ; k++ {
		list = append(list, k*step)
		if k*step >= z.Hi {
			return list
		}
	}
}

// tone is the shade of a step.
func (s steps) tone(step int) color.Color {
	u := float64(step) / float64(len(s)-2)
	mix := func(a, b uint8) uint8 { return uint8(math.Round(float64(a)*(1-u) + float64(b)*u)) }
	return color.RGBA{mix(lightest.R, darkest.R), mix(lightest.G, darkest.G), mix(lightest.B, darkest.B), 0xff}
}

// scale tells what the tones mean. Its title and its x axis are not to be seen, but
// make it as high as the map.
func (s steps) scale(z string) *panel {
	p := &panel{title: "|", x: "|", y: z, xs: r1.Interval{Lo: 0, Hi: 1}, ys: ends(s), ticks: []plot.Tick{{Value: 0.5, Label: "0"}}, unseen: true}
	for k := range len(s) - 1 {
		step := filled(s.tone(k), p.xs, ends(s[k:k+2]))
		step.line = stepLine
		p.add(step)
	}
	return p
}

// mostCrosses is about the number of crosses along an axis.
const mostCrosses = 24

// crosses marks the grid points that cannot be built, or some of them.
func (l *lattice) crosses() layer {
	var at plotter.XYs
	every := func(n int) int { return max(1, n/mostCrosses) }
	for j := 0; j < len(l.ys); j += every(len(l.ys)) {
		for i := 0; i < len(l.xs); i += every(len(l.xs)) {
			if !finite(l.at(i, j)) {
				at = append(at, plotter.XY{X: l.xs[i], Y: l.ys[j]})
			}
		}
	}
	return dots("cannot be built", unbuiltDot, at)
}
