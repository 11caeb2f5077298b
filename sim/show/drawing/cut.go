package drawing

import (
	"cmp"
	"fmt"
	"io"
	"math"

	"evenpull/fusee"
	"evenpull/sim/show/canvas"
	"evenpull/sim/show/words"
	"evenpull/sim/study/cut"

	"gonum.org/v1/plot/vg/draw"
)

// Sizes on every sheet, mm.
const (
	edge      = 10.0
	barHeight = 11.0
	titleHigh = 9.0
)

// MostSheets is the greatest number of sheets that a drawing takes.
const MostSheets = 24

// Cone is the working drawing of the cone of a study at its true size, on sheets of a paper:
// the blank from the side with its dimensions, where metal comes off the present outline
// dashed and that shaded, the section of the groove larger, the way of winding, the table of
// diameters, a bar to check the scale by, and what is to be minded. It is written, in the
// form asked for, as so many files: a PDF as one with all sheets, the others with a
// sheet each. A cone that is not advised to be cut, and was not asked for, is drawn as it is.
// It fails where it would take more than MostSheets.
func Cone(st *cut.Study, paper Paper, form canvas.Form) ([]func(io.Writer) error, error) {
	if !st.Shown() && !st.Nothing {
		is, err := st.Leave()
		if err != nil {
			return nil, err
		}
		st = is
	}
	d := coneOf(st, paper)
	if n := len(d.leaves); n > MostSheets {
		return nil, fmt.Errorf("the drawing would take %d sheets of %s at true size; want %d at the most: a larger paper, or fewer rows", n, paper.Name, MostSheets)
	}
	form.Dots = cmp.Or(form.Dots, canvas.Print)
	if form.Format == "pdf" {
		return []func(io.Writer) error{func(w io.Writer) error { return d.write(w, form, 0, len(d.leaves)) }}, nil
	}
	list := make([]func(io.Writer) error, len(d.leaves))
	for i := range list {
		list[i] = func(w io.Writer) error { return d.write(w, form, i, i+1) }
	}
	return list, nil
}

// write writes some of the sheets as one file.
func (d *coneDrawing) write(w io.Writer, form canvas.Form, from, to int) error {
	var fills []func(draw.Canvas)
	for i := from; i < to; i++ {
		fills = append(fills, func(on draw.Canvas) { d.leaf(&sheet{on: on, scale: 1}, i) })
	}
	return form.Write(w, length(d.paper.width), length(d.paper.height), fills...)
}

// coneDrawing is a study with what is drawn of it.
type coneDrawing struct {
	*cut.Study
	blank
	paper      Paper
	now        []spot  // mm, profile of the present cone over its lands
	radius     float64 // mm, the greatest of all that is drawn
	comesOff   bool    // of the present cone
	head, foot paragraphs
	leaves     []leaf
}

// leaf is what stands on a sheet.
type leaf struct {
	view        bool
	detail      float64 // its scale, 0 for none
	rows        []cut.Row
	parts       *tiles // whose window stands on it
	column, row int
}

func (d *coneDrawing) line() *fusee.Line { return &d.Study.Cut.Drive.Line }

func coneOf(st *cut.Study, paper Paper) *coneDrawing {
	full := &sheet{scale: 1}
	d := &coneDrawing{Study: st, paper: paper, blank: blank{&st.Cut.Drive.Cone, st.Groove, st.Blank.Edge}, comesOff: !st.Nothing && !st.FromBlank}
	d.radius = widest(full.profile(d.Cone, d.groove.Depth, 0))
	if d.comesOff {
		d.now = full.profile(&st.Train.Drive.Cone, d.groove.Depth, d.margin)
		d.radius = math.Max(d.radius, widest(d.now))
	}
	width := paper.width - 2*edge
	d.head, d.foot = headOf(st, width), footOf(st, width)
	d.lay()
	return d
}

// viewSize is the room that the view takes, mm.
func (d *coneDrawing) viewSize() (wide, high float64) {
	return 2*beside + 1e3*(d.long()+2*d.margin), belowView + 2*d.radius + aboveView
}

// room is what is left of a sheet between what stands above and below on it.
func (d *coneDrawing) room(first bool) box {
	above, below := titleHigh, barHeight
	if first {
		above, below = d.head.height()+2, d.foot.height()+barHeight
	}
	return box{edge, edge + below, d.paper.width - 2*edge, d.paper.height - 2*edge - above - below}
}

// lay lays what is to be drawn on sheets: view and detail on the first where they fit, the
// table beside them as far as there is room; then what did not fit.
func (d *coneDrawing) lay() {
	first, rest := d.room(true), d.room(false)
	wide, high := d.viewSize()
	rows, toDraw, toDetail := d.Rows, true, true
	for toDraw || toDetail || len(rows) > 0 {
		in, left, l := rest, 0.0, leaf{}
		if len(d.leaves) == 0 {
			in = first
		}
		free := in.high
		if toDraw && in.holds(wide, high) {
			l.view, toDraw, left, free = true, false, wide, free-high
		}
		k := d.detailScale(free)
		if detailWide, detailHigh := d.detailSize(k); toDetail && detailHigh <= free {
			l.detail, toDetail, left = k, false, math.Max(left, detailWide)
		}
		columns, per := d.holds(in.leftOf(left))
		n := min(columns*per, len(rows))
		l.rows, rows = rows[:n], rows[n:]
		if l.view || l.detail > 0 || n > 0 || len(d.leaves) == 0 {
			d.leaves = append(d.leaves, l)
			continue
		}
		toDetail = false // it fits no sheet
		if toDraw {
			toDraw = false
			d.tile(wide, high, rest)
		}
	}
}

// tile lays the view on as many sheets as it takes.
func (d *coneDrawing) tile(wide, high float64, room box) {
	room.low += 7 // for what they join
	room.high -= 7
	t := tilesOf(wide, high, room)
	t.first = len(d.leaves) + 1
	for row := range t.rows {
		for column := range t.columns {
			d.leaves = append(d.leaves, leaf{parts: &t, column: column, row: row})
		}
	}
}

// leaf draws a sheet.
func (d *coneDrawing) leaf(s *sheet, number int) {
	l, in := &d.leaves[number], d.room(number == 0)
	if l.parts != nil {
		l.parts.part(s, d, l.column, l.row)
	}
	top, low := d.paper.height-edge, edge
	if number == 0 {
		s.paragraphs(spot{edge, top}, d.head)
		s.paragraphs(spot{edge, low + d.foot.height()}, d.foot)
		low += d.foot.height()
	} else {
		s.words(spot{edge, top - 3}, 1, normal, title(d.Study))
	}
	if len(d.leaves) > 1 {
		s.words(spot{d.paper.width - edge, top - 3}, -1, normal, words.SheetOf(number+1, len(d.leaves)))
	}
	s.bar(spot{edge, low + 2}, "1:1. Check that this bar measures 50 mm before anything is taken off the drawing.")
	left := in
	if len(l.rows) > 0 {
		s.list(in, d, l.rows)
		_, per := d.holds(in)
		left = in.leftOf(d.columnWide() * float64((len(l.rows)+per-1)/per))
	}
	d.drawn(s, l, left)
}

// drawn draws view and detail in a box, one above the other.
func (d *coneDrawing) drawn(s *sheet, l *leaf, in box) {
	wide, high := d.viewSize()
	detailWide, detailHigh := d.detailSize(l.detail)
	if !l.view {
		high = 0
	}
	if l.detail == 0 {
		detailHigh = 0
	}
	spare := (in.high - high - detailHigh) / 2
	if l.view {
		s.view(box{in.centre() - wide/2, in.top() - spare - high, wide, high}, d)
	}
	if l.detail > 0 {
		s.detail(box{in.centre() - detailWide/2, in.low + spare, detailWide, detailHigh}, d, l.detail)
	}
}

func title(st *cut.Study) string {
	return fmt.Sprintf("Fusee of the %s train: %s", st.Train.Name, words.CutCone(st))
}

// headOf is what stands above the cone: whose it is, the verdict, what to mind first.
func headOf(st *cut.Study, width float64) paragraphs {
	var b paragraphs
	b.add(width-20, large, title(st))
	b.add(width, normal, st.Title)
	b.add(width, normal, words.CutHead(st, words.Verdict))
	lines := fmt.Sprintf("Set up by %s turns.", words.Figure(st.After.Spring.SetUp))
	if !st.Nothing {
		lines = fmt.Sprintf("Even with %s turns of set-up.", words.Figure(st.After.Spring.SetUp))
	}
	if !st.Nothing && !st.FromBlank {
		b.add(width, normal, "Take the line and the spring off first.")
		lines += fmt.Sprintf(" Solid: %s. Dashed: as it is. Shaded: comes off.", words.Either(st.Advised(), "to cut", "an even cone"))
	}
	b.add(width, normal, lines)
	warns := append(words.CutWayFaults(st), words.CutWarns(st)...)
	if whole := words.CutWhole(st); whole != "" && !st.Nothing {
		warns = append(warns, whole)
	}
	for _, w := range warns {
		b.add(width, small, "! "+w)
	}
	return b
}

// footOf is what stands below it.
func footOf(st *cut.Study, width float64) paragraphs {
	var b paragraphs
	for _, n := range words.BlankNotes(st) {
		b.add(width, small, n)
	}
	for _, c := range words.CutCautions(st) {
		b.add(width, tiny, "Caution: "+c)
	}
	return b
}
