package drawing

import (
	"image/color"
	"math"

	"evenpull/fusee/mainspring"
	strip "evenpull/fusee/mainspring/coils"

	"evenpull/sim/show/words"
	"evenpull/sim/study/coils"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// perTurn is the pieces to a turn of a strip that is drawn as it lies: even, since two make a
// curve.
const perTurn = 48

// lying is a place of a strip in its barrel.
type lying struct {
	back    float64 // rad, from the outer end back to it
	radius  float64 // m
	presses float64 // N/m of strip, from inside or from the wall, half way to the next places
}

// lay is a strip from the wall to the arbor, perTurn places to a turn from its outer end on:
// the nodes themselves where there are as many.
func lay(s *strip.Shape) (list []lying) {
	last := len(s.Angle) - 1
	whole := s.Angle[last]
	const step = 2 * math.Pi / perTurn
	node := last
	for k := 0; ; k++ {
		back := math.Min(float64(k)*step, whole)
		at := whole - back
		for node > 1 && s.Angle[node-1] > at+1e-9 {
			node--
		}
		list = append(list, lying{back: back, radius: smooth(s, node-1, at)})
		if back == whole {
			break
		}
	}
	for i := range s.Angle { // what presses at a node is spread half way to the next ones
		half := math.Abs(s.Angle[min(i+1, last)]-s.Angle[max(i, 1)-1]) / 4
		if i == 0 || i == last {
			half *= 2
		}
		from, to := whole-s.Angle[i]-half, whole-s.Angle[i]+half
		for k := max(int(from/step), 0); k < len(list) && float64(k)-0.5 < to/step; k++ {
			mid := list[k].back
			if share := (math.Min(mid+step/2, to) - math.Max(mid-step/2, from)) / step; share > 0 {
				list[k].presses += share * (s.Inner[i] + s.Wall[i])
			}
		}
	}
	return list
}

// smooth is the radius at an angle after node i, on the cubic that has there and at the next
// node the slopes of the chords about them.
func smooth(s *strip.Shape, i int, at float64) float64 {
	slope := func(k int) float64 {
		from, to := max(k-1, 0), min(k+1, len(s.Angle)-1)
		return (s.Radius[to] - s.Radius[from]) / (s.Angle[to] - s.Angle[from])
	}
	long := s.Angle[i+1] - s.Angle[i]
	u := (at - s.Angle[i]) / long
	v := 1 - u
	return v*v*(1+2*u)*s.Radius[i] + u*u*(1+2*v)*s.Radius[i+1] + u*v*long*(v*slope(i)-u*slope(i+1))
}

// Looks of a barrel that is seen from above.
var (
	stripInk = color.Gray{0x9a}
	edgeLine = draw.LineStyle{Color: black, Width: vg.Points(0.8)}
)

// pressing is a step of the scale of pressures: the harder, the darker and the broader.
type pressing struct {
	from  float64 // N/m of strip
	ink   color.Gray
	broad float64 // over the thickness of the strip
}

// pressings are a power of ten each: what is spread along a coil is a hundredth of what an
// edge carries. Up to the last coils that touch stay apart for the eye.
var pressings = []pressing{{words.Pressed, color.Gray{0x70}, 0.62}, {100, color.Gray{0x48}, 0.76}, {1000, color.Gray{0x1c}, 0.92}, {10000, color.Gray{0}, 2}}

// stepOf is the step of a pressure, −1 for none.
func stepOf(presses float64) int {
	step := -1
	for i := range pressings {
		if presses >= pressings[i].from {
			step = i
		}
	}
	return step
}

// coilDrawing is a barrel with its spring, the middle of which is at a spot.
type coilDrawing struct {
	*coils.Result
	at spot
}

// place is a place of the strip on the sheet: the hook stands at the top, and a strip that is
// followed from the arbor goes round against the clock.
func (d *coilDrawing) place(s *sheet, back, radius float64) spot {
	sin, cos := math.Sincos(back)
	return spot{d.at.x + s.paper(radius*sin), d.at.y + s.paper(radius*cos)}
}

// house draws wall and hook, or brace.
func (d *coilDrawing) house(s *sheet) {
	in, t := &d.Housing, d.Spring.Thickness
	s.circle(d.at, s.paper(1.07*in.Inside), metal, edgeLine)
	s.circle(d.at, s.paper(in.Inside), color.White, edgeLine)
	if d.Options.End == mainspring.Hooked {
		half := 2.5 * t / in.Inside
		s.fill(black, []spot{d.place(s, -half, 1.035*in.Inside), d.place(s, half, 1.035*in.Inside), d.place(s, 0, in.Inside-t)})
		return
	}
	var held []spot
	for i := range 13 {
		held = append(held, d.place(s, float64(i)*0.03, in.Inside+t/4))
	}
	brace := solid
	brace.Width = max(length(s.paper(1.5*t)), 1.2)
	s.line(brace, held...)
}

// spring draws the strip with what presses on it, and the arbor with the end of the strip on it.
func (d *coilDrawing) spring(s *sheet, shape *strip.Shape) {
	list := lay(shape)
	var whole vg.Path
	d.trace(s, &whole, list)
	thick := length(s.paper(d.Spring.Thickness))
	style := func(ink color.Color, share float64) draw.LineStyle {
		return draw.LineStyle{Color: ink, Width: vg.Length(share) * thick}
	}
	s.on.SetLineStyle(style(stripInk, words.StripDrawn))
	s.on.Stroke(whole)
	for i, step := range pressings {
		var marks vg.Path
		for k := range list {
			if stepOf(list[k].presses) == i {
				d.mark(s, &marks, list, k)
			}
		}
		if len(marks) > 0 {
			s.on.SetLineStyle(style(step.ink, step.broad))
			s.on.Stroke(marks)
		}
	}
	d.arbor(s, list[len(list)-1].back)
}

// trace adds a strip to a path, a parabola through any three places.
func (d *coilDrawing) trace(s *sheet, path *vg.Path, list []lying) {
	at := func(k int) vg.Point { return d.place(s, list[k].back, list[k].radius).point() }
	last := len(list) - 1
	path.Move(at(0))
	for k := 0; k+2 <= last; k += 2 {
		p, q, r := at(k), at(k+1), at(k+2)
		path.QuadTo(q.Scale(2).Sub(p.Add(r).Scale(0.5)), r)
	}
	if last%2 == 1 {
		path.Line(at(last))
	}
}

// mark adds a strip about a place to a path, which goes on where it ends there.
func (d *coilDrawing) mark(s *sheet, path *vg.Path, list []lying, k int) {
	at := func(k int) vg.Point {
		k = min(max(k, 0), len(list)-1)
		return d.place(s, list[k].back, list[k].radius).point()
	}
	here := at(k)
	from, to := here.Add(at(k-1)).Scale(0.5), here.Add(at(k+1)).Scale(0.5)
	if n := len(*path); n == 0 || (*path)[n-1].Pos != from {
		path.Move(from)
	}
	path.QuadTo(here, to)
}

// arbor draws it, with the hook on which the strip ends.
func (d *coilDrawing) arbor(s *sheet, back float64) {
	r := d.Housing.Arbor
	s.circle(d.at, s.paper(r), metal, edgeLine)
	s.fill(black, []spot{d.place(s, back-0.1, 0.84*r), d.place(s, back+0.1, 0.84*r), d.place(s, back, r+d.Spring.Thickness)})
	s.line(thin, d.at, d.place(s, back, 0.84*r))
}
