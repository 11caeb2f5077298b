// Package cone draws a cone at its true size.
package cone

import (
	"fmt"
	"io"
	"math"

	"evenpull/fusee"
	"evenpull/sim/show/words"
	"evenpull/sim/study/cut"

	"gonum.org/v1/plot/plotter"
)

// The page, mm: A4 lying (ISO 216), wider where the cone asks for it.
const (
	pageWidth  = 297
	pageHeight = 210
	edge       = 12.0
	leftRoom   = 34.0 // for the dimension of the small end
	rightRoom  = 40.0 // for that of the large end
	belowCone  = 32.0 // for the dimensions along the axis
	barHeight  = 12.0
)

// Drawing draws the cone at its true size from the side, with its dimensions, the
// present outline dashed and what comes off shaded, a bar to check the scale by, and
// what is to be minded.
func Drawing(w io.Writer, format string, st *cut.Study) error {
	c := &st.Cut.Drive.Cone
	length := c.Turns * c.Pitch * 1e3
	perColumn := max(leastRows, (len(st.Rows)+mostColumns-1)/mostColumns)
	columns := float64((len(st.Rows) + perColumn - 1) / perColumn)
	wide := math.Max(greatest(c), greatest(&st.Train.Drive.Cone))
	cone := edge + leftRoom + length + rightRoom
	width := math.Max(pageWidth, cone+columns*columnWide+edge)
	table := width - edge - columns*columnWide
	head := headOf(st, table-edge-4)
	foot := footOf(st, width-2*edge)
	high := head.height() + wide + belowCone + foot.height() + barHeight
	s, err := newSheet(format, width, math.Max(pageHeight, math.Max(high, float64(perColumn)*rowHeight+foot.height()+barHeight+2*edge)))
	if err != nil {
		return err
	}
	low, top := edge/2+foot.height()+barHeight+belowCone, s.height-edge-head.height()
	at := spot{(edge + leftRoom + table - rightRoom - length) / 2, (low + top) / 2} // of the axis at the small end
	head.on(s, spot{edge, s.height - edge})
	s.cone(at, st)
	s.dimensions(at, st, wide/2)
	s.list(spot{table, s.height - edge - 8}, st, perColumn)
	foot.on(s, spot{edge, edge/2 + foot.height()})
	s.scaleBar(spot{edge, edge/2 + foot.height() + 3})
	return s.writeTo(w)
}

// diameters are those (mm) of a cone over its turns.
func diameters(c *fusee.Cone) plotter.XYs {
	const steps = 320
	xys := make(plotter.XYs, steps+1)
	for i := range xys {
		theta := c.Turns * float64(i) / steps
		r, _, _ := c.Profile.At(theta)
		xys[i] = plotter.XY{X: theta, Y: 2e3 * r}
	}
	return xys
}

// greatest is the greatest diameter of a cone, mm.
func greatest(c *fusee.Cone) float64 {
	most := 0.0
	for _, pt := range diameters(c) {
		most = math.Max(most, pt.Y)
	}
	return most
}

// cone draws both outlines, what comes off and the groove.
func (s *sheet) cone(at spot, st *cut.Study) {
	cut, now := outline(at, &st.Cut.Drive.Cone), outline(at, &st.Train.Drive.Cone)
	for _, side := range []float64{1, -1} {
		var off, inner, outer []spot
		for i := range cut {
			inner = append(inner, spot{cut[i].x, at.y + side*cut[i].y})
			outer = append(outer, spot{now[i].x, at.y + side*now[i].y})
			off = append(off, spot{now[i].x, at.y + side*math.Max(now[i].y, cut[i].y)})
		}
		for i := len(inner) - 1; i >= 0; i-- {
			off = append(off, inner[i])
		}
		s.fill(waste, off)
		s.line(dashed, outer...)
		s.line(solid, inner...)
	}
	s.helix(at, &st.Cut.Drive.Cone)
	for _, end := range []spot{cut[0], cut[len(cut)-1]} {
		s.line(solid, spot{end.x, at.y - end.y}, spot{end.x, at.y + end.y})
	}
	for _, end := range []spot{now[0], now[len(now)-1]} {
		s.line(dashed, spot{end.x, at.y - end.y}, spot{end.x, at.y + end.y})
	}
	s.line(middle, spot{at.x - 9, at.y}, spot{cut[len(cut)-1].x + 9, at.y})
}

// outline is the profile: x on the sheet, y the radius, mm.
func outline(at spot, c *fusee.Cone) []spot {
	var list []spot
	for _, pt := range diameters(c) {
		list = append(list, spot{at.x + pt.X*c.Pitch*1e3, pt.Y / 2})
	}
	return list
}

// helix draws the near side of the groove's middle, each turn a line of its own.
func (s *sheet) helix(at spot, c *fusee.Cone) {
	const perTurn = 48
	var near []spot
	for i := 0; i <= int(c.Turns*perTurn); i++ {
		theta := float64(i) / perTurn
		sin, cos := math.Sincos(2 * math.Pi * theta)
		if sin < -1e-9 {
			if len(near) > 1 {
				s.line(groove, near...)
			}
			near = nil
			continue
		}
		r, _, _ := c.Profile.At(theta)
		near = append(near, spot{at.x + theta*c.Pitch*1e3, at.y + r*1e3*cos})
	}
	if len(near) > 1 {
		s.line(groove, near...)
	}
}

// dimensions gives both ends, the length, and the turns along it.
func (s *sheet) dimensions(at spot, st *cut.Study, radius float64) {
	c, first, last := &st.Cut.Drive.Cone, &st.Rows[0], &st.Rows[len(st.Rows)-1]
	end := at.x + c.Turns*c.Pitch*1e3
	small, large := first.Diameter*1e3/2, last.Diameter*1e3/2
	s.upright(at.x, at.x-8, at.y-small, at.y+small, endWords(first)...)
	s.upright(end, end+8, at.y-large, at.y+large, endWords(last)...)
	low := at.y - radius - 3
	every := math.Max(1, math.Ceil(7/(c.Pitch*1e3)))
	for theta := 0.0; theta <= c.Turns; theta += every {
		x := at.x + theta*c.Pitch*1e3
		s.line(thin, spot{x, low}, spot{x, low - 1.5})
		s.words(spot{x, low - 3.5}, 0, 7, words.Turns(theta))
	}
	s.words(spot{at.x - 4, low - 3.5}, -1, 7, "fusee turn")
	s.level([2]spot{{at.x, low - 5}, {end, low - 5}}, low-10, fmt.Sprintf("%.1f mm = %s turns of %.2f mm", c.Turns*c.Pitch*1e3, words.Turns(c.Turns), c.Pitch*1e3))
	g := st.Groove
	if g.Square {
		s.words(spot{at.x - 20, low - 20}, 1, normal, fmt.Sprintf("Groove: square, %.2f mm wide.", g.Width*1e3))
		return
	}
	s.words(spot{at.x - 20, low - 20}, 1, normal, fmt.Sprintf("Groove: round, %.2f mm wide, %.2f mm deep.", g.Width*1e3, g.Depth*1e3))
}

func endWords(r *cut.Row) []string {
	words := []string{fmt.Sprintf("Ø %.2f", r.Diameter*1e3)}
	if math.Abs(r.Remove) >= 5e-6 {
		words = append(words, fmt.Sprintf("now %.2f", r.Now*1e3))
	}
	return words
}
