package drawing

import (
	"fmt"

	"evenpull/sim/show/words"
	"evenpull/sim/study/cut"
)

// The table of the drawing, mm, and its rows in a column.
const (
	rowHeight   = 4.3
	columnWide  = 76.0
	leastRows   = 33
	mostColumns = 4 // more rows make them longer
)

// headOf is what stands above the cone: whose it is, the verdict, and what is to be
// minded first.
func headOf(st *cut.Study, width float64) paragraphs {
	var b paragraphs
	what := "cone to cut"
	switch {
	case st.FromBlank:
		what = "cone from blank"
	case st.Refused != nil:
		what = "cone as it is: none can be cut"
	case st.Nothing:
		what = "cone as it is: nothing to cut"
	case !st.Advised():
		what = "even cone, not advised to be cut"
	}
	b.add(width, large, fmt.Sprintf("Fusee of the %s train: %s", st.Train.Name, what))
	b.add(width, normal, st.Title)
	b.add(width, normal, "Does this cone suit this spring? "+words.CutAnswer(st, words.Verdict))
	lines := fmt.Sprintf("Set up by %s turns.", words.Figure(st.After.Spring.SetUp))
	if !st.Nothing {
		solid := "to cut"
		if !st.Advised() {
			solid = "an even cone"
		}
		b.add(width, normal, "Take the line and the spring off first.")
		lines = fmt.Sprintf("Even with %s turns of set-up. Solid: %s. Dashed: as it is. Shaded: comes off.", words.Figure(st.After.Spring.SetUp), solid)
	}
	b.add(width, normal, lines)
	for _, w := range append(words.CutWayFaults(st), words.CutWarns(st)...) {
		b.add(width, small, "! "+w)
	}
	return b
}

// footOf is the small print.
func footOf(st *cut.Study, width float64) paragraphs {
	var b paragraphs
	for _, c := range words.CutCautions(st) {
		b.add(width, tiny, "Caution: "+c)
	}
	note := "All sizes are in mm, diameters over the groove bottoms."
	if st.After.Missing > cut.LeastCount {
		note += " A negative size to remove is metal that the present cone lacks."
	}
	b.add(width, tiny, note)
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
