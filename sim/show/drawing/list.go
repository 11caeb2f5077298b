package drawing

import (
	"evenpull/sim/show/words"
	"evenpull/sim/study/cut"
)

// Sizes of the table, mm.
const (
	rowHeight  = 3.9
	headHeight = 16.0
	cellWide   = 14.5
	columnGap  = 4.0
)

// heads are those of the table's columns.
func (d *coneDrawing) heads() []string {
	if d.comesOff {
		return []string{"turn", "from face", "Ø groove", "Ø lands", "Ø now", "to remove"}
	}
	return []string{"turn", "from face", "Ø groove", "Ø lands"}
}

func cells(r *cut.Row) []string {
	return []string{words.Turns(r.FuseeTurn), inMM(r.FromWheel), inMM(r.Diameter), inMM(r.OverLands), inMM(r.Now), inMM(r.Remove)}
}

// columnWide is the width of the table of so many rows as stand below one another.
func (d *coneDrawing) columnWide() float64 { return cellWide*float64(len(d.heads())) + columnGap }

// holds is how many columns of the table stand beside one another in a box, and rows below
// one another.
func (d *coneDrawing) holds(in box) (columns, rows int) {
	return max(int((in.wide+columnGap)/d.columnWide()), 0), max(int((in.high-headHeight)/rowHeight), 0)
}

// list is the table of some rows, in the right part of a box.
func (s *sheet) list(in box, d *coneDrawing, rows []cut.Row) {
	_, per := d.holds(in)
	used := float64((len(rows) + per - 1) / per)
	left := in.right() + columnGap - used*d.columnWide()
	for i, l := range append([]string{d.kind()}, words.CountedFrom()...) {
		s.words(spot{left + 1, in.top() - 2 - 3.5*float64(i)}, 1, small, l)
	}
	for i := range rows {
		x, y := left+d.columnWide()*float64(i/per), in.top()-headHeight-rowHeight*(float64(i%per)+0.5)
		end := func(k int) spot { return spot{x + cellWide*float64(k+1), y} }
		if i%per == 0 {
			for k, head := range d.heads() {
				s.words(spot{end(k).x, in.top() - headHeight + 3}, -1, small, head)
			}
			s.line(thin, spot{x, in.top() - headHeight + 0.5}, spot{end(len(d.heads()) - 1).x, in.top() - headHeight + 0.5})
		}
		for k, v := range cells(&rows[i])[:len(d.heads())] {
			s.words(end(k), -1, small, v)
		}
	}
}

// kind tells what the diameters of the table are.
func (d *coneDrawing) kind() string {
	switch {
	case d.Nothing:
		return "The cone as it is"
	case d.FromBlank:
		return "The new cone"
	case d.Advised():
		return "The cone to cut, and what is now over the groove bottoms"
	}
	return "An even cone, and what is now over the groove bottoms"
}

// inMM is a length (m) in mm.
func inMM(v float64) string { return words.Minus(words.Two(v * 1e3)) }
