package words

import (
	"fmt"

	"evenpull/fusee"
	"evenpull/sim"
	"evenpull/sim/study/cut"
)

// TrainTitle heads the drawing of a train.
func TrainTitle(r *sim.Result) string { return r.Name + " train: " + Verdict(r.Verdict.Code) }

// TrainScale tells what of the drawing of a train is to scale. The ratio holds only when
// nothing is scaled on the way to paper; the bar always.
func TrainScale(ratio string) string {
	return "Barrel and fusee to scale: " + ratio + " when printed at its own size, else by the bar. Dash-dot: the line on the barrel."
}

// TrainWheels tells how the wheels of a train are drawn.
const TrainWheels = "Wheels: a diagram, not to scale; circles go with the tooth counts. Turns are those in one turn of the fusee."

// BarrelAs stand below the two drawings of a barrel, run down and wound.
func BarrelAs(r *sim.Result) []string {
	has := &r.Spring
	return []string{
		"barrel run down:\nset-up " + counting(has.SetUp),
		say("barrel wound:\n%.2f of %.2f turns", has.SetUp+has.Used, has.Available) + where(r.TurnsLost > 0, ":\nthe spring binds"),
	}
}

// FuseeAs stands below the drawing of a fusee with its small end at the left.
func FuseeAs(c *fusee.Cone) string {
	return say("fusee: %s turns, %s groove;\nline at the left when wound", Turns(c.Turns), Hand(c))
}

// ArborHas are an arbor's wheels with their teeth, what stands on it, and its turns.
func ArborHas(r *sim.Result, number int) []string {
	meshes, pins, last := r.Train.Meshes(), r.Train.PinWork(), len(r.Train.Arbors)-1
	has := ""
	add := func(what string, a ...any) { has += where(has != "", ", ") + fmt.Sprintf(what, a...) }
	if number > 0 {
		add("pinion %d", meshes[number-1].Pinion)
	}
	if number < last {
		add("%swheel %d", where(number == 0, "great "), meshes[number].Wheel)
	}
	switch {
	case number == last && r.Train.Escapes:
		add("escape wheel %d", r.Train.Escapement.Teeth)
	case number == last && r.Train.Strikes:
		add("fly of %s", Count(pins.Vanes, "vane"))
	}
	list := []string{has}
	if r.Train.Strikes && number == pins.Arbor {
		list = append(list, Count(pins.Pins, "pin")+", "+Count(pins.Hammers, "hammer"))
	}
	return append(list, counting(r.Train.Wheels.Speed(number)))
}

// counting is a number of turns with its unit.
func counting(turns float64) string {
	s := Turns(turns)
	return s + Either(s == "1", " turn", " turns")
}

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

// CountedFrom tells from which end the rows of a working drawing are counted.
func CountedFrom() []string {
	return []string{"turn: 0 is at the small end", "from face: mm from that of the great-wheel end"}
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
