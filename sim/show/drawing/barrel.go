package drawing

import (
	"image/color"
	"math"

	"evenpull/fusee"
	"evenpull/fusee/numeric"
	"evenpull/sim"

	"github.com/golang/geo/r2"
)

// barrelWidth is that of a barrel with its line, m.
func barrelWidth(d *fusee.Drive) float64 { return 2 * (d.Barrel.Radius + d.Line.Thickness) }

// packed tells how the strip lies with the given turns on it: a length of it packed
// on the arbor, the rest packed on the wall, with one free coil between them. That
// is what an eye sees, to scale; where coils really leave each other depends on
// their set, and is worked out in package mainspring.
func packed(r *sim.Result, turns float64) (onArbor, inner, outer float64) {
	strip, in := &r.Train.Drive.Spring, &r.Train.Drive.Housing
	h := strip.Thickness
	onWall := func(s float64) float64 { return math.Sqrt(math.Max(in.Inside*in.Inside-h*s/math.Pi, 0)) }
	around := func(s float64) float64 { return math.Sqrt(in.Arbor*in.Arbor + h*s/math.Pi) }
	// Coils in all: those of the strip packed on the wall, and what was wound on.
	total := (in.Inside-onWall(strip.Length))/h + r.Spring.Slack + turns
	onArbor, _ = numeric.Bisect(0, strip.Length, strip.Length*1e-12, func(s float64) bool {
		inner, outer = around(s), onWall(strip.Length-s)
		outer = onWall(math.Max(strip.Length-s-math.Pi*(inner+outer), 0)) // less the free coil
		return (inner-in.Arbor)/h+(in.Inside-outer)/h+1 < total
	})
	return onArbor, inner, outer
}

// barrel draws a barrel about a spot, the spring with the given turns on it.
func (s *sheet) barrel(at spot, r *sim.Result, turns float64) {
	d := &r.Train.Drive
	s.circle(at, s.paper(barrelWidth(d)/2), nil, middle) // the line's outside
	s.circle(at, s.paper(d.Barrel.Radius), metal, solid)
	s.circle(at, s.paper(d.Housing.Inside), color.White, solid)
	strip := thin
	strip.Width = max(0.25, min(length(s.paper(d.Spring.Thickness)*0.4), 0.6))
	var list []spot
	for _, p := range Strip(r, turns) {
		list = append(list, spot{at.x + s.paper(p.X), at.y + s.paper(p.Y)})
	}
	s.line(strip, list...)
	s.circle(at, s.paper(d.Housing.Arbor), metal, solid)
}

// Strip is the middle of the strip (m, from the middle of the arbor) with the given turns on
// it: coils on the arbor, a free one, coils on the wall.
func Strip(r *sim.Result, turns float64) (list []r2.Point) {
	const perCoil = 48
	d := &r.Train.Drive
	_, inner, outer := packed(r, turns)
	h, arbor, inside := d.Spring.Thickness, d.Housing.Arbor, d.Housing.Inside
	angle := 0.0
	for _, part := range []struct{ from, to, coils float64 }{
		{arbor + h/2, inner + h/2, (inner - arbor) / h}, {inner + h/2, outer + h/2, 1}, {outer + h/2, inside - h/2, (inside - outer) / h},
	} {
		n := max(int(part.coils*perCoil), 1)
		for i := range n + 1 {
			u := float64(i) / float64(n)
			sin, cos := math.Sincos(angle + part.coils*2*math.Pi*u)
			radius := part.from + u*(part.to-part.from)
			list = append(list, r2.Point{X: radius * cos, Y: radius * sin})
		}
		angle += part.coils * 2 * math.Pi
	}
	return list
}
