package drawing

import (
	"image/color"
	"math"

	"evenpull/fusee"
	"evenpull/fusee/numeric"
	"evenpull/sim"
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
// is what an eye sees, to scale; where coils really leave each other depends on
// their set, and is worked out in package mainspring.
func (b *barrel) coils(turns float64) (onArbor, inner, outer float64) {
	onWall := func(s float64) float64 { return math.Sqrt(math.Max(b.inside*b.inside-b.h*s/math.Pi, 0)) }
	around := func(s float64) float64 { return math.Sqrt(b.arbor*b.arbor + b.h*s/math.Pi) }
	// Coils in all: those of the strip packed on the wall, and what was wound on.
	total := (b.inside-onWall(b.length))/b.h + b.slack + turns
	onArbor, _ = numeric.Bisect(0, b.length, b.length*1e-12, func(s float64) bool {
		inner, outer = around(s), onWall(b.length-s)
		outer = onWall(math.Max(b.length-s-math.Pi*(inner+outer), 0)) // less the free coil
		return (inner-b.arbor)/b.h+(b.inside-outer)/b.h+1 < total
	})
	return onArbor, inner, outer
}

// barrel draws a barrel about a spot, the spring with the given turns on it.
func (s *sheet) barrel(at spot, b *barrel, turns float64) {
	s.circle(at, s.paper(b.outside+b.line), nil, middle) // the line's outside
	s.circle(at, s.paper(b.outside), metal, solid)
	s.circle(at, s.paper(b.inside), color.White, solid)
	strip := thin
	strip.Width = length(s.paper(b.h) * 0.4)
	strip.Width = max(0.25, min(strip.Width, 0.6))
	_, inner, outer := b.coils(turns)
	s.line(strip, s.spiral(at, b, inner, outer)...)
	s.circle(at, s.paper(b.arbor), metal, solid)
}

// spiral is the middle of the strip: coils on the arbor, a free one, coils on the
// wall.
func (s *sheet) spiral(at spot, b *barrel, inner, outer float64) []spot {
	const perCoil = 48
	var list []spot
	angle, half := 0.0, b.h/2
	for _, part := range []struct{ from, to, coils float64 }{
		{b.arbor + half, inner + half, (inner - b.arbor) / b.h}, {inner + half, outer + half, 1}, {outer + half, b.inside - half, (b.inside - outer) / b.h},
	} {
		n := max(int(part.coils*perCoil), 1)
		for i := range n + 1 {
			u := float64(i) / float64(n)
			sin, cos := math.Sincos(angle + part.coils*2*math.Pi*u)
			radius := s.paper(part.from + u*(part.to-part.from))
			list = append(list, spot{at.x + radius*cos, at.y + radius*sin})
		}
		angle += part.coils * 2 * math.Pi
	}
	return list
}
