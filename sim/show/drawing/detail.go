package drawing

import (
	"fmt"
	"math"

	"evenpull/sim/show/words"
)

// Room about the section of the groove, mm.
const (
	section   = 48.5 // its greatest width, of two turns
	lineHigh  = 18.5 // the greatest height of the line in it
	metalHigh = 4.0  // below the groove
	lowDetail = 10.0 // for land and pitch
	depthWide = 24.0 // for the depth, at the right
	turning   = 34.0 // for the way of winding
)

// larger are the sizes on the sheet over true ones that a detail may have.
var larger = []float64{50, 20, 10, 5, 2, 1, 0.5, 0.2, 0.1, 0.05}

// leastLarger is what a detail is drawn larger by, if it can be.
const leastLarger = 5.0

// detailScale is the greatest at which two turns of the groove and the line have room, and
// so the detail in a height (mm), or the least that is large enough to be read.
func (d *coneDrawing) detailScale(room float64) float64 {
	best := larger[len(larger)-1]
	for _, k := range larger {
		if 2e3*d.Pitch*k > section || 1e3*math.Max(d.line().Thickness, d.groove.Depth)*k > lineHigh {
			continue
		}
		if best < k {
			best = k
		}
		if _, high := d.detailSize(k); high <= room && k >= min(leastLarger, best) {
			return k
		}
	}
	return best
}

// detailSize is the room that the detail takes at a scale, mm.
func (d *coneDrawing) detailSize(scale float64) (wide, high float64) {
	k := 1e3 * scale
	return 2*d.Pitch*k + depthWide + turning, lowDetail + metalHigh + math.Max(d.line().Thickness*k, d.groove.Depth*k+9.5) + 6
}

// detail draws the section of the groove larger, with the line in it, and the way of winding.
func (s *sheet) detail(in box, d *coneDrawing, scale float64) {
	by := &sheet{on: s.on, scale: scale}
	pitch, half, depth := by.paper(d.Pitch), by.paper(d.opening()), by.paper(d.groove.Depth)
	base := in.low + lowDetail
	left, land := in.left+2, base+metalHigh+depth
	edge := []spot{{left, land}}
	for turn := range 2 {
		middle := left + pitch*(float64(turn)+0.5)
		edge = append(edge, spot{middle - half, land})
		for i := range 25 {
			u := float64(i)/12 - 1
			edge = append(edge, spot{middle + half*u, land - by.paper(below(&d.groove, d.opening()*u))})
		}
		edge = append(edge, spot{middle + half, land})
	}
	right := left + 2*pitch
	edge = append(edge, spot{right, land})
	s.fill(metal, append([]spot{{left, base}}, append(edge, spot{right, base})...))
	s.line(solid, edge...)
	s.line(thin, spot{left, land}, spot{left, base}, spot{right, base}, spot{right, land})
	by.lineSection(spot{left + pitch/2, land - depth}, d)

	second := left + 1.5*pitch
	s.dimension(spot{second - half, land}, spot{second + half, land}, spot{0, 4})
	s.words(spot{second, land + 8}, 0, normal, fmt.Sprintf("%.2f", 2e3*d.opening()))
	s.line(thin, spot{second, land - depth}, spot{right + 1, land - depth})
	s.dimension(spot{right, land}, spot{right, land - depth}, spot{5, 0})
	s.words(spot{right + 8, land - depth/2}, 1, normal, fmt.Sprintf("%.2f deep", d.groove.Depth*1e3))
	s.dimension(spot{left + pitch/2, base}, spot{second, base}, spot{0, -4})
	s.words(spot{left + pitch, base - 7}, 0, normal, fmt.Sprintf("pitch %.2f, land %.2f", d.Pitch*1e3, math.Max(d.groove.Land, 0)*1e3))
	round := ""
	if !d.groove.Square {
		round = fmt.Sprintf(", bottom of radius %.2f", bottom(&d.groove)*1e3)
	}
	s.words(spot{in.left, in.top() - 2}, 1, normal, fmt.Sprintf("%s groove, %s%s", words.HandAtHead(d.Cone), ratio(by.scale), round))
	s.winding(spot{right + depthWide + turning/2 - 6, in.low + in.high/2}, d)
}

// lineSection is the line across, on the bottom of the groove at the spot.
func (s *sheet) lineSection(at spot, d *coneDrawing) {
	high, half := s.paper(d.line().Thickness), s.paper(d.line().Width)/2
	if d.groove.Square {
		s.line(middle, spot{at.x - half, at.y}, spot{at.x - half, at.y + high}, spot{at.x + half, at.y + high}, spot{at.x + half, at.y}, spot{at.x - half, at.y})
		return
	}
	s.circle(spot{at.x, at.y + high/2}, high/2, nil, middle)
}

// winding draws the way in which the fusee is wound, as an eye sees it that looks at the
// small end.
func (s *sheet) winding(at spot, d *coneDrawing) {
	const inner, outer, from, turn, head = 4.5, 7.0, 0.75 * math.Pi, 1.5 * math.Pi, 0.3
	s.circle(at, inner, metal, solid)
	s.circle(at, 0.5, black, solid)
	way := -1.0 // clockwise
	if d.Left {
		way = 1
	}
	on := func(angle, radius float64) spot {
		sin, cos := math.Sincos(math.Pi/2 + way*(angle-from)) // from the top left for a right-hand groove
		return spot{at.x + radius*cos, at.y + radius*sin}
	}
	var arc []spot
	for i := range 49 {
		arc = append(arc, on(turn*float64(i)/48, outer))
	}
	s.line(solid, arc...)
	s.fill(black, []spot{on(turn+head/2, outer), on(turn-head/2, outer+1), on(turn-head/2, outer-1)})
	s.words(spot{at.x, at.y - outer - 5}, 0, small, words.WindingMark(d.Cone))
}

// ratio is a scale as drawings write it.
func ratio(scale float64) string {
	return words.Either(scale > 1, fmt.Sprintf("%g : 1", scale), fmt.Sprintf("1 : %g", 1/scale))
}
