package words

import (
	"evenpull/fusee"
	"evenpull/sim/study/cut"
)

// clock is the way in which a fusee is wound, seen from its small end. The line goes up the
// groove from the large end to the small one, towards the eye, as a screw comes out: one of
// the right hand must be turned clockwise for its place at the side of the barrel to come
// nearer.
func clock(left bool) string { return Either(left, "anticlockwise", "clockwise") }

// HandAtHead is the hand of the groove at the head of a line.
func HandAtHead(c *fusee.Cone) string { return Either(c.Left, "Left-hand", "Right-hand") }

// WindingMark stands below the arrow that shows the way of winding.
func WindingMark(c *fusee.Cone) string {
	return "wind " + clock(c.Left) + ",\nseen from the small end"
}

// BlankNotes are what a working drawing says of groove, winding, blank and arbor.
func BlankNotes(st *cut.Study) []string {
	b, c, pivots := &st.Blank, &st.Cut.Drive.Cone, st.Cut.Drive.Pivots.Fusee
	return []string{
		"Groove: " + CutGroove(st) + ". " +
			Either(pivots > 0, say("Arbor: pivots of Ø %.2f mm; its other sizes, and the hole for it, are taken from the clock.", 2*pivots*mm), "Arbor: its sizes, and the hole for it, are not known here; take them from the clock."),
		say("Winding turns the fusee %s, seen from the small end (%s, seen from the great-wheel end): the line then runs from the great-wheel end, where it is fastened, to the small end.", clock(c.Left), clock(!c.Left)),
		say("Blank: %.2f mm from face to face, %.2f mm of it bare beyond the groove at each end%s, as thick as the lands there. The great wheel is at the large end; positions are from that face. All sizes are in mm. Ø groove: over the groove bottoms; Ø lands: over the lands between them.%s", b.Height*mm, b.Margin*mm,
			where(b.Usual, " (common practice, no source%s)", where(st.Nothing, "; measure what there is")),
			where(!st.FromBlank && st.After.Missing > cut.LeastCount, " A negative size to remove is metal that the present cone lacks.")),
	}
}

// SheetOf numbers a sheet of several.
func SheetOf(number, count int) string { return say("sheet %d of %d", number, count) }

// Joins tells which sheets a part of a drawing joins, "" for none.
func Joins(left, right, above, below int) string {
	list := ""
	for _, n := range []struct {
		sheet int
		where string
	}{{left, "at the left"}, {right, "at the right"}, {above, "above"}, {below, "below"}} {
		if n.sheet > 0 {
			list += say("%ssheet %d %s", Either(list == "", "joins ", ", "), n.sheet, n.where)
		}
	}
	return list + where(list != "", ": lay cross on cross of the same letter")
}
