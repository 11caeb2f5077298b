package cut

import (
	"fmt"
	"io"
	"math"

	"evenpull/fusee"
	"evenpull/sim"
	"evenpull/sim/internal/page"
)

// The page, mm: A4 lying (ISO 216), wider where the cone asks for it.
const (
	pageWidth  = 297
	pageHeight = 210
	edge       = 14
	leftRoom   = 34 // for the dimension of the small end
	rightRoom  = 40 // for that of the large end
	rowHeight  = 4.3
	columnWide = 76 // of the table
	perColumn  = 34 // rows
)

// Drawing draws the cone at its true size from the side, with its dimensions, the
// present outline dashed and what comes off shaded, and a bar to check the scale by.
func Drawing(w io.Writer, format string, st *Study) error {
	c := &st.Cut.Drive.Cone
	length := c.Turns * c.Pitch * 1e3
	list := wholeRows(st)
	columns := float64((len(list) + perColumn - 1) / perColumn)
	wide := math.Max(greatest(c), greatest(&st.Train.Drive.Cone))
	cone := edge + leftRoom + length + rightRoom
	s, err := newSheet(format, math.Max(pageWidth, cone+columns*columnWide+edge), math.Max(pageHeight, wide+90))
	if err != nil {
		return err
	}
	table := s.width - edge - columns*columnWide
	at := spot{(edge + leftRoom + table - rightRoom - length) / 2, (s.height + 12) / 2} // of the axis at the small end
	s.heading(st)
	s.cone(at, st)
	s.dimensions(at, st, wide/2)
	s.list(spot{table, s.height - 30}, list)
	s.scaleBar(spot{edge, 22})
	s.words(spot{edge, 13}, 1, small, st.Cautions()[1])
	note := "All sizes are in mm, diameters over the groove bottoms."
	if st.Missing > leastCount {
		note += " A negative size to remove is metal that the present cone lacks."
	}
	s.words(spot{edge, 9}, 1, small, note)
	return s.writeTo(w)
}

// wholeRows are the rows at whole turns and at the end.
func wholeRows(st *Study) []Row {
	n := st.Cut.Drive.Cone.Turns
	var list []Row
	for theta := 0.0; ; theta = math.Min(theta+1, n) {
		is, _, _ := st.Train.Drive.Cone.Profile.At(theta)
		be, _, _ := st.Cut.Drive.Cone.Profile.At(theta)
		list = append(list, Row{FuseeTurn: theta, Along: st.Cut.Drive.Cone.Pitch * theta, Diameter: 2 * be, Now: 2 * is, Remove: 2 * (is - be)})
		if theta == n {
			return list
		}
	}
}

// greatest is the greatest diameter of a cone, mm.
func greatest(c *fusee.Cone) float64 {
	most := 0.0
	for _, pt := range diameters(c) {
		most = math.Max(most, pt.Y)
	}
	return most
}

func (s *sheet) heading(st *Study) {
	what := "cone to cut"
	switch {
	case st.FromBlank:
		what = "cone from blank"
	case st.Nothing:
		what = "cone as it is: nothing to cut"
	}
	s.words(spot{edge, s.height - edge}, 1, large, fmt.Sprintf("Fusee of the %s train: %s", st.Train.Name, what))
	s.words(spot{edge, s.height - edge - 7}, 1, normal, fmt.Sprintf("Even with %s turns of set-up. Solid: to cut. Dashed: as it is. Shaded: comes off.", sim.Figure(st.After.SetUp)))
}

// cone draws both outlines, what comes off and the groove.
func (s *sheet) cone(at spot, st *Study) {
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
func (s *sheet) dimensions(at spot, st *Study, radius float64) {
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
		s.words(spot{x, low - 3.5}, 0, 7, sim.Turns(theta))
	}
	s.words(spot{at.x - 4, low - 3.5}, -1, 7, "fusee turn")
	s.level([2]spot{{at.x, low - 5}, {end, low - 5}}, low-10, fmt.Sprintf("%.1f mm = %s turns of %.2f mm", c.Turns*c.Pitch*1e3, sim.Turns(c.Turns), c.Pitch*1e3))
	g := st.Groove
	if g.Square {
		s.words(spot{at.x - 20, low - 20}, 1, normal, fmt.Sprintf("Groove: square, %.2f mm wide.", g.Width*1e3))
		return
	}
	s.words(spot{at.x - 20, low - 20}, 1, normal, fmt.Sprintf("Groove: round, %.2f mm wide, %.2f mm deep.", g.Width*1e3, g.Depth*1e3))
}

func endWords(r *Row) []string {
	words := []string{fmt.Sprintf("Ø %.2f", r.Diameter*1e3)}
	if math.Abs(r.Remove) >= 5e-6 {
		words = append(words, fmt.Sprintf("now %.2f", r.Now*1e3))
	}
	return words
}

// list is the table of the diameters, its upper left corner at the spot.
func (s *sheet) list(at spot, rows []Row) {
	for i := range rows {
		x, y := at.x+columnWide*float64(i/perColumn), at.y-rowHeight*float64(i%perColumn)-3
		if i%perColumn == 0 {
			for k, head := range []string{"turn", "along", "Ø to cut", "Ø now", "to remove"} {
				s.words(spot{x + 10 + 15*float64(k), y + 5.5}, -1, small, head)
			}
			s.line(thin, spot{x, y + 2.7}, spot{x + columnWide - 5, y + 2.7})
		}
		r := &rows[i]
		for k, v := range []string{sim.Turns(r.FuseeTurn), fmt.Sprintf("%.1f", r.Along*1e3), fmt.Sprintf("%.2f", r.Diameter*1e3), fmt.Sprintf("%.2f", r.Now*1e3), page.Minus(fmt.Sprintf("%.2f", clean(r.Remove)*1e3))} {
			s.words(spot{x + 10 + 15*float64(k), y}, -1, small, v)
		}
	}
}
