package drawing

import (
	"fmt"
	"image/color"
	"math"

	"evenpull/fusee"
	"evenpull/sim"
	"evenpull/sim/show/words"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

var white = color.White

// cone is a fusee seen from the side, m.
type cone struct {
	turns, pitch, line float64
	radius             func(theta float64) float64 // of the groove's bottom
	most               float64
}

func newCone(r *sim.Result, w *fusee.Wound) cone {
	cut := w.CutCone()
	half := r.Train.Drive.Line.Thickness / 2
	k := cone{turns: cut.Turns, pitch: cut.Pitch, line: 2 * half, radius: func(theta float64) float64 {
		r, _, _ := cut.Profile.At(theta)
		return r
	}}
	for i := range 101 {
		k.most = math.Max(k.most, k.radius(k.turns*float64(i)/100))
	}
	return k
}

// width is along the arbor, height across it, the line in its groove included.
func (k *cone) width() float64  { return k.pitch*(k.turns+1) + k.line }
func (k *cone) height() float64 { return 2 * (k.most + k.line) }

// draw draws the cone with its small end at the left, its axis through the point.
func (k *cone) draw(c draw.Canvas, at vg.Point, s *sheet) {
	x := func(theta float64) vg.Length { return at.X + s.paper(k.pitch*(theta+0.5)+k.line/2) }
	land := func(theta float64) float64 { return k.radius(theta) + k.line/3 } // a groove a third as deep as the line is thick (common practice, no source)
	var body vg.Path
	const n = 120
	for i := range n + 1 {
		theta := k.turns * float64(i) / n
		pt := vg.Point{X: x(theta), Y: at.Y + s.paper(land(theta))}
		if i == 0 {
			body.Move(pt)
		} else {
			body.Line(pt)
		}
	}
	for i := n; i >= 0; i-- {
		theta := k.turns * float64(i) / n
		body.Line(vg.Point{X: x(theta), Y: at.Y - s.paper(land(theta))})
	}
	body.Close()
	fill(c, body, metal)
	stroke(c, body, outline)
	k.grooves(c, at, s, x, land)
	c.StrokeLine2(dashed, at.X-6, at.Y, x(k.turns)+s.paper(k.pitch), at.Y)
	k.diameters(c, at, s, x)
}

// grooves draws the groove as it crosses the face, half a turn from bottom to top.
func (k *cone) grooves(c draw.Canvas, at vg.Point, s *sheet, x func(float64) vg.Length, land func(float64) float64) {
	for turn := 0.0; turn <= k.turns+1e-9; turn++ {
		var p vg.Path
		const n = 16
		for i := range n + 1 {
			u := float64(i) / n
			theta := math.Min(turn+u/2, k.turns)
			pt := vg.Point{X: x(theta), Y: at.Y - s.paper(land(theta)*math.Cos(math.Pi*u))}
			if i == 0 {
				p.Move(pt)
			} else {
				p.Line(pt)
			}
		}
		stroke(c, p, fine)
	}
}

// diameters writes those over the groove bottoms at both ends.
func (k *cone) diameters(c draw.Canvas, at vg.Point, s *sheet, x func(float64) vg.Length) {
	for _, end := range []struct {
		theta float64
		align text.XAlignment
	}{{0, text.XCenter}, {k.turns, text.XRight}} {
		y := at.Y + s.paper(k.radius(end.theta)+k.line) + 8
		label(c, vg.Point{X: x(end.theta), Y: y}, fmt.Sprintf("ø %s mm", words.Figure(2e3*k.radius(end.theta))), end.align)
	}
}
