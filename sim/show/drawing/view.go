package drawing

import (
	"fmt"
	"image/color"
	"math"
	"slices"

	"evenpull/sim/show/words"
)

// Room about the blank, mm.
const (
	beside    = 42.0 // each face, for arbor and diameters
	aboveView = 11.0 // for the names of the ends
	belowView = 26.0 // for the lengths
	stub      = 6.0  // of a pivot
	outward   = 9.0  // of a face, where its diameter is measured
)

// view draws the blank whole from the side, its small end at the left, in a box of
// d.viewWide by d.viewHigh.
func (s *sheet) view(in box, d *coneDrawing) {
	at := spot{in.left + beside + s.paper(d.margin), in.low + belowView + d.radius}
	top, foot := s.sides(at, &d.blank)
	if d.comesOff {
		s.fill(waste, around(at, d.now))
	}
	s.pivots(at, d)
	s.fill(color.White, append(slices.Clone(top), backward(foot)...))
	if d.comesOff {
		s.line(dashed, around(at, d.now)...)
	}
	s.helix(at, d.Cone, d.groove.Depth, -d.opening())
	s.helix(at, d.Cone, d.groove.Depth, d.opening())
	for _, line := range [][]spot{top, foot, {top[0], foot[0]}, {top[len(top)-1], foot[len(foot)-1]}} {
		s.exact(outline, line...)
	}
	s.line(middle, spot{top[0].x - stub - 2, at.y}, spot{top[len(top)-1].x + stub + 2, at.y})
	s.ends(at, d)
	s.lengths(at, d)
}

func backward(list []spot) []spot {
	list = slices.Clone(list)
	slices.Reverse(list)
	return list
}

// pivots draws what is known of the arbor: its pivots, broken off.
func (s *sheet) pivots(at spot, d *coneDrawing) {
	r := s.paper(d.Study.Cut.Drive.Pivots.Fusee)
	if r == 0 {
		return
	}
	for _, e := range []struct{ face, way float64 }{{at.x - s.paper(d.margin), -1}, {at.x + s.paper(d.long()+d.margin), 1}} {
		far := e.face + stub*e.way
		s.line(thin, spot{e.face, at.y + r}, spot{far, at.y + r}, spot{far + e.way, at.y + r/3}, spot{far - e.way, at.y - r/3}, spot{far, at.y - r}, spot{e.face, at.y - r})
	}
}

// ends names both ends and gives their diameters.
func (s *sheet) ends(at spot, d *coneDrawing) {
	first, last := &d.Rows[0], &d.Rows[len(d.Rows)-1]
	left, right := at.x-s.paper(d.margin), at.x+s.paper(d.long()+d.margin)
	for _, e := range []struct {
		face, way               float64
		over, groove, now, less float64
		name                    string
	}{
		{left, -1, first.OverLands, first.Diameter, first.Now, first.Remove, "small end,\nturn 0"},
		{right, 1, last.OverLands, last.Diameter, last.Now, last.Remove, "great-wheel end,\npositions from its face"},
	} {
		r := s.paper(e.over / 2)
		s.dimension(spot{e.face, at.y - r}, spot{e.face, at.y + r}, spot{outward * e.way, 0})
		now := words.Either(d.comesOff && math.Abs(e.less) >= 5e-6, fmt.Sprintf("\nnow %.2f", e.now*1e3), "")
		s.words(spot{e.face + (outward+2.5)*e.way, at.y}, int(e.way), normal, fmt.Sprintf("Ø %.2f lands\nØ %.2f groove%s", e.over*1e3, e.groove*1e3, now))
		s.words(spot{e.face + 2*e.way, at.y + r + 6}, int(e.way), normal, e.name)
	}
}

// lengths gives the turns along the axis, the groove, the end margins and the blank.
func (s *sheet) lengths(at spot, d *coneDrawing) {
	low, pitch, end := at.y-d.radius-3, s.paper(d.Pitch), at.x+s.paper(d.long())
	for _, theta := range d.marked(pitch) {
		x := at.x + theta*pitch
		s.line(thin, spot{x, low}, spot{x, low - 1.5})
		s.words(spot{x, low - 3.5}, 0, tiny, words.Turns(theta))
	}
	margin := s.paper(d.margin)
	s.words(spot{at.x - margin - 2, low - 3.5}, -1, tiny, "fusee turn")
	s.dimension(spot{at.x, low - 4.5}, spot{end, low - 4.5}, spot{0, -4.5})
	for _, e := range []struct{ from, to, way float64 }{{at.x, at.x - margin, -1}, {end, end + margin, 1}} {
		s.dimension(spot{e.from, low - 4.5}, spot{e.to, low - 4.5}, spot{0, -4.5})
		s.words(spot{e.to + 2.5*e.way, low - 9}, int(e.way), normal, fmt.Sprintf("%.2f", d.margin*1e3))
	}
	s.words(spot{(at.x + end) / 2, low - 12.2}, 0, normal, fmt.Sprintf("%.1f mm = %s turns of %.2f mm", d.long()*1e3, words.Turns(d.Turns), d.Pitch*1e3))
	s.dimension(spot{at.x - margin, low - 14}, spot{end + margin, low - 14}, spot{0, -4})
	s.words(spot{(at.x + end) / 2, low - 20.9}, 0, normal, fmt.Sprintf("blank %.1f mm", d.Study.Blank.Height*1e3))
}

// marked are the turns that are numbered along the axis, the pitch being so much on the sheet
// (mm): the first and the last, and between them as many as have room, evenly where they can
// be.
func (b *blank) marked(pitch float64) (list []float64) {
	least := math.Max(1, math.Ceil(7/pitch))
	step := least
	for s := least; s <= 2*least; s++ {
		if math.Mod(b.Turns, s) == 0 {
			step = s
			break
		}
	}
	list = []float64{0}
	for theta := step; theta <= b.Turns-least; theta += step {
		list = append(list, theta)
	}
	return append(list, b.Turns)
}
