package drawing

import (
	"math"

	"evenpull/fusee"
	"evenpull/sim"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// barrel is a barrel with its spring, m.
type barrel struct {
	outside, inside, arbor float64 // radii
	line                   float64 // thickness
	h, length              float64 // of the strip
	slack                  float64 // turns off the wall at rest
}

func newBarrel(r *sim.Result, w *fusee.Wound) barrel {
	d, curve := &r.Train.Drive, w.Curve()
	return barrel{
		outside: d.Barrel.Radius, inside: d.Housing.Inside, arbor: d.Housing.Arbor, line: d.Line.Thickness,
		h: d.Spring.Thickness, length: d.Spring.Length, slack: curve.SlackTurns(),
	}
}

func (b *barrel) width() float64 { return 2 * (b.outside + b.line) }

// coils tells how the strip lies with the given turns on it: a length of it packed
// on the arbor, the rest packed on the wall, with one free coil between them. That
// is what an eye sees, to scale; where coils really leave each other hangs on their
// set, and is worked out in package mainspring.
func (b *barrel) coils(turns float64) (onArbor, inner, outer float64) {
	onWall := func(s float64) float64 { return math.Sqrt(math.Max(b.inside*b.inside-b.h*s/math.Pi, 0)) }
	around := func(s float64) float64 { return math.Sqrt(b.arbor*b.arbor + b.h*s/math.Pi) }
	// Coils in all: those of the strip packed on the wall, and what was wound on.
	total := (b.inside-onWall(b.length))/b.h + b.slack + turns
	lo, hi := 0.0, b.length
	for range 60 {
		s := (lo + hi) / 2
		inner = around(s)
		outer = onWall(b.length - s)
		free := math.Pi * (inner + outer)
		outer = onWall(math.Max(b.length-s-free, 0))
		if (inner-b.arbor)/b.h+(b.inside-outer)/b.h+1 < total {
			lo = s
		} else {
			hi = s
		}
	}
	return lo, inner, outer
}

func (b *barrel) draw(c draw.Canvas, at vg.Point, s *sheet, turns float64) {
	outside := circle(at, s.paper(b.outside))
	fill(c, outside, metal)
	inside := circle(at, s.paper(b.inside))
	fill(c, inside, white)
	stroke(c, circle(at, s.paper(b.outside+b.line)), dashed) // the line's outside
	stroke(c, outside, outline)
	stroke(c, inside, outline)
	_, inner, outer := b.coils(turns)
	b.spiral(c, at, s, inner, outer)
	arbor := circle(at, s.paper(b.arbor))
	fill(c, arbor, metal)
	stroke(c, arbor, outline)
}

// spiral draws the middle of the strip: coils on the arbor, a free one, coils on
// the wall.
func (b *barrel) spiral(c draw.Canvas, at vg.Point, s *sheet, inner, outer float64) {
	var p vg.Path
	angle := 0.0
	to := func(radius float64) {
		pt := vg.Point{X: at.X + s.paper(radius*math.Cos(angle)), Y: at.Y + s.paper(radius*math.Sin(angle))}
		if len(p) == 0 {
			p.Move(pt)
		} else {
			p.Line(pt)
		}
	}
	const perCoil = 48
	run := func(from, end, coils float64) {
		n := max(int(coils*perCoil), 1)
		for i := range n + 1 {
			u := float64(i) / float64(n)
			to(from + u*(end-from))
			if i < n {
				angle += coils * 2 * math.Pi / float64(n)
			}
		}
	}
	half := b.h / 2
	run(b.arbor+half, inner+half, (inner-b.arbor)/b.h)
	run(inner+half, outer+half, 1)
	run(outer+half, b.inside-half, (b.inside-outer)/b.h)
	line := fine
	line.Width = vg.Length(math.Max(0.25, math.Min(0.6, float64(s.paper(b.h))*0.4)))
	stroke(c, p, line)
}
