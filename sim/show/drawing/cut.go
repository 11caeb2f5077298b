package drawing

import (
	"fmt"
	"image/color"
	"io"
	"math"
	"slices"

	"evenpull/sim/show/words"
	"evenpull/sim/study/cut"
)

// The page, mm: A4 lying (ISO 216), wider where the cone asks for it; and its table
// with the rows in a column.
const (
	pageWidth   = 297
	pageHeight  = 210
	edge        = 12.0
	leftRoom    = 34.0 // for the dimension of the small end
	rightRoom   = 40.0 // for that of the large end
	belowCone   = 32.0 // for the dimensions along the axis
	barHeight   = 12.0
	rowHeight   = 4.3
	columnWide  = 76.0
	leastRows   = 33
	mostColumns = 4 // more rows make them longer
)

// Cone draws the cone of a study at its true size from the side, with its dimensions,
// the present outline dashed and what comes off shaded, a bar to check the scale by,
// and what is to be minded, in a format of package chart.
func Cone(w io.Writer, format string, st *cut.Study) error {
	c, now := &st.Cut.Drive.Cone, &st.Train.Drive.Cone
	full := &sheet{scale: 1}
	d := coneDrawing{Study: st, cut: full.profile(c, 0), now: full.profile(now, 0)}
	d.end = d.cut[len(d.cut)-1]
	d.radius = math.Max(widest(d.cut), widest(d.now))
	perColumn := max(leastRows, (len(st.Rows)+mostColumns-1)/mostColumns)
	columns := float64((len(st.Rows) + perColumn - 1) / perColumn)
	width := math.Max(pageWidth, edge+leftRoom+d.end.x+rightRoom+columns*columnWide+edge)
	table := width - edge - columns*columnWide
	head, foot := headOf(st, table-edge-4), footOf(st, width-2*edge)
	bar := edge/2 + foot.height()
	low := bar + barHeight
	height := max(pageHeight, low+belowCone+2*d.radius+head.height()+edge, low+float64(perColumn)*rowHeight+1.5*edge)
	return write(w, format, width, height, func(s *sheet) {
		top := height - edge
		s.paragraphs(spot{edge, top}, head)
		s.cones(spot{(edge + leftRoom + table - rightRoom - d.end.x) / 2, (low + belowCone + top - head.height()) / 2}, &d)
		s.list(spot{table, top - 8}, st, perColumn)
		s.paragraphs(spot{edge, bar}, foot)
		s.bar(spot{edge, bar + 3}, "1:1. Check that this bar measures 50 mm before anything is taken off the drawing.")
	})
}

// coneDrawing is a study with what is drawn of it, mm.
type coneDrawing struct {
	*cut.Study
	cut, now []spot // profiles
	end      spot   // of the profile to cut
	radius   float64
}

// cones draws the outlines with all that goes with them, the middle of the first end at the spot.
func (s *sheet) cones(at spot, d *coneDrawing) {
	over := slices.Clone(d.now)
	for i := range over {
		over[i].y = math.Max(over[i].y, d.cut[i].y)
	}
	cut, now := around(at, d.cut), around(at, d.now)
	s.fill(waste, around(at, over))
	s.fill(color.White, cut)
	s.line(dashed, now...)
	s.line(solid, cut...)
	s.helix(at, &d.Cut.Drive.Cone, 0)
	s.line(middle, spot{at.x - 9, at.y}, spot{at.x + d.end.x + 9, at.y})
	s.dimensions(at, d)
}

// dimensions gives both ends, the length, and the turns along it.
func (s *sheet) dimensions(at spot, d *coneDrawing) {
	c, first, last := &d.Cut.Drive.Cone, &d.Rows[0], &d.Rows[len(d.Rows)-1]
	end := at.x + d.end.x
	for _, e := range []struct {
		x, way float64
		row    *cut.Row
	}{{at.x, -1, first}, {end, 1, last}} {
		radius := e.row.Diameter * 1e3 / 2
		s.dimension(spot{e.x, at.y - radius}, spot{e.x, at.y + radius}, spot{8 * e.way, 0})
		now := words.Either(math.Abs(e.row.Remove) < 5e-6, "", fmt.Sprintf("\nnow %.2f", e.row.Now*1e3)) // below it where it differs
		s.words(spot{e.x + 10.5*e.way, at.y}, int(e.way), normal, fmt.Sprintf("Ø %.2f%s", e.row.Diameter*1e3, now))
	}
	low, pitch := at.y-d.radius-3, c.Pitch*1e3
	for theta := 0.0; theta <= c.Turns; theta += math.Max(1, math.Ceil(7/pitch)) {
		x := at.x + theta*pitch
		s.line(thin, spot{x, low}, spot{x, low - 1.5})
		s.words(spot{x, low - 3.5}, 0, tiny, words.Turns(theta))
	}
	s.words(spot{at.x - 4, low - 3.5}, -1, tiny, "fusee turn")
	s.dimension(spot{at.x, low - 5}, spot{end, low - 5}, spot{0, -5})
	s.words(spot{(at.x + end) / 2, low - 13.2}, 0, normal, fmt.Sprintf("%.1f mm = %s turns of %.2f mm", d.end.x, words.Turns(c.Turns), pitch))
	s.words(spot{at.x - 20, low - 20}, 1, normal, "Groove: "+words.CutGroove(d.Study)+".")
}

// headOf is what stands above the cone: whose it is, the verdict, what to mind first.
func headOf(st *cut.Study, width float64) paragraphs {
	var b paragraphs
	b.add(width, large, fmt.Sprintf("Fusee of the %s train: %s", st.Train.Name, words.CutCone(st)))
	b.add(width, normal, st.Title)
	b.add(width, normal, "Does this cone suit this spring? "+words.CutAnswer(st, words.Verdict))
	lines := fmt.Sprintf("Set up by %s turns.", words.Figure(st.After.Spring.SetUp))
	if !st.Nothing {
		solid := words.Either(st.Advised(), "to cut", "an even cone")
		b.add(width, normal, "Take the line and the spring off first.")
		lines = fmt.Sprintf("Even with %s turns of set-up. Solid: %s. Dashed: as it is. Shaded: comes off.", words.Figure(st.After.Spring.SetUp), solid)
	}
	b.add(width, normal, lines)
	for _, w := range append(words.CutWayFaults(st), words.CutWarns(st)...) {
		b.add(width, small, "! "+w)
	}
	return b
}

func footOf(st *cut.Study, width float64) paragraphs {
	var b paragraphs
	for _, c := range words.CutCautions(st) {
		b.add(width, tiny, "Caution: "+c)
	}
	lacks := words.Either(st.After.Missing > cut.LeastCount, " A negative size to remove is metal that the present cone lacks.", "")
	b.add(width, tiny, "All sizes are in mm, diameters over the groove bottoms."+lacks)
	return b
}

// list is the table of the diameters, its upper left corner at the spot.
func (s *sheet) list(at spot, st *cut.Study, perColumn int) {
	heads := []string{"turn", "along", "Ø to cut", "Ø now", "to remove"}
	switch {
	case st.Nothing:
		heads = []string{"turn", "along", "Ø now"}
	case !st.Advised():
		heads[2] = "Ø even"
	}
	for i := range st.Rows {
		x, y := at.x+columnWide*float64(i/perColumn), at.y-rowHeight*float64(i%perColumn)-3
		if i%perColumn == 0 {
			for k, head := range heads {
				s.words(spot{x + 10 + 15*float64(k), y + 5.5}, -1, small, head)
			}
			s.line(thin, spot{x, y + 2.7}, spot{x + 15*float64(len(heads)) - 4, y + 2.7})
		}
		r := &st.Rows[i]
		cells := []string{words.Turns(r.FuseeTurn), inMM(r.Along), inMM(r.Diameter), inMM(r.Now), inMM(r.Remove)}
		for k, v := range cells[:len(heads)] {
			s.words(spot{x + 10 + 15*float64(k), y}, -1, small, v)
		}
	}
}

// inMM is a length (m) in mm.
func inMM(v float64) string { return words.Minus(words.Two(v * 1e3)) }
