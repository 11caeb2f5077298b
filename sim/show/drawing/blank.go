package drawing

import (
	"math"

	"evenpull/fusee"
	"evenpull/sim/study/cut"
)

// blank is a cone with its groove and end margins.
type blank struct {
	*fusee.Cone
	groove cut.Groove
	margin float64 // m
}

func (b *blank) long() float64 { return b.Turns * b.Pitch }

// opening is half the width of the groove at the lands (m), as far as there is room.
func (b *blank) opening() float64 { return math.Min(b.groove.Width, b.Pitch) / 2 }

// bottom is the radius of the bottom of a round groove (m): the arc through both edges and
// the deepest place; half the width where it is deeper than that, its sides straight.
func bottom(g *cut.Groove) float64 {
	half, depth := g.Width/2, math.Min(g.Depth, g.Width/2)
	return (half*half + depth*depth) / (2 * depth)
}

// below is how far the groove goes below the lands so far beside its middle (m).
func below(g *cut.Groove, beside float64) float64 {
	if g.Square || g.Depth <= 0 {
		return g.Depth
	}
	r := bottom(g)
	return math.Max(g.Depth-r+math.Sqrt(math.Max(r*r-beside*beside, 0)), 0)
}

// side is the outline of one side of a blank from face to face, x along the axis from where
// the groove begins and y off it: over the lands, and down into the groove wherever it comes
// round to that side, first at the given fusee turn and then a turn apart.
func (s *sheet) side(b *blank, first float64) []spot {
	const across, along = 12, 4 // pieces of a groove and of a land, even: both have their middle
	var list []spot
	add := func(x, down float64) {
		list = append(list, spot{s.paper(x), s.paper(over(b.Cone, b.groove.Depth, x) - down)})
	}
	land := func(from, to float64) {
		for i := range along + 1 {
			add(from+(to-from)*float64(i)/along, 0)
		}
	}
	at, end := -b.margin, b.long()+b.margin
	for turn := first; turn <= b.Turns+1e-9; turn++ {
		middle := turn * b.Pitch
		land(at, math.Max(middle-b.opening(), -b.margin))
		for i := range across + 1 {
			beside := b.opening() * (2*float64(i)/across - 1)
			if x := middle + beside; x >= -b.margin && x <= end {
				add(x, below(&b.groove, beside))
			}
		}
		at = math.Min(middle+b.opening(), end)
	}
	land(at, end)
	return list
}

// sides are both: a right-hand groove is at the top where it begins, as its near side then
// goes down; a left-hand one at the foot.
func (s *sheet) sides(at spot, b *blank) (top, foot []spot) {
	first := 0.0
	if b.Left {
		first = 0.5
	}
	top, foot = s.side(b, first), s.side(b, 0.5-first)
	for i, p := range top {
		top[i] = spot{at.x + p.x, at.y + p.y}
	}
	for i, p := range foot {
		foot[i] = spot{at.x + p.x, at.y - p.y}
	}
	return top, foot
}
