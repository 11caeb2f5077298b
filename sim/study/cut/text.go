package cut

import (
	"fmt"
	"io"
	"math"
	"strings"

	"evenpull/sim"
	"evenpull/sim/show/text"
)

// Text writes a study for people.
type Text struct{ Colour bool }

// Write writes it: whether the cone suits the spring, the ways to make it even, what
// to cut, and the rows.
func (t Text) Write(w io.Writer, st *Study) error {
	p := text.New(w, t.Colour)
	p.Wrap("", st.headline())
	p.Line("")
	st.ways(p)
	p.Line("")
	for _, s := range st.says() {
		p.Wrap("  - ", s)
	}
	for _, s := range st.Warnings() {
		p.Wrap("  ! ", s)
	}
	p.Line("")
	st.table(p)
	p.Line("")
	for _, c := range st.Cautions() {
		p.Wrap("Caution: ", c)
	}
	return p.Flush()
}

// ways is the table of what may be done.
func (st *Study) ways(p *text.Page) {
	var g text.Grid
	g.Row("", "set-up", "unevenness", "mean", "reserve", "reserve", "metal off", "")
	g.Row("", "turns", "%", "N·m", "mean", "least", "mm³", "verdict")
	row := func(name string, w *Way) {
		if w.Fault != "" {
			g.Row("  "+name, "–", "–", "–", "–", "–", "–", "cannot be had")
			return
		}
		off := "–"
		if w.Removed > 0 {
			off = sim.Figure(w.Removed * 1e9)
		}
		g.Row("  "+name, turns(w.SetUp), unevenness(w), sim.Figure(w.Torque.Mean), text.Two(w.Reserve.Mean), text.Two(w.Reserve.Min), off, p.Verdict(w.Verdict))
	}
	row("as it is", &st.AsItIs)
	row("best set-up alone, nothing cut", &st.SetUp)
	switch {
	case st.FromBlank:
		row("a new cone from blank", &st.After)
	case !st.Nothing || st.Refused != "":
		row("cut, with the present set-up", &st.Present)
		row("cut, with the set-up that takes least off", &st.Least)
	}
	g.Right(1, 2, 3, 4, 5, 6)
	g.Write(p)
	for _, s := range st.WayFaults() {
		p.Wrap("  ! ", s)
	}
}

// WayFaults tells what is wrong with the ways.
func (st *Study) WayFaults() []string {
	var list []string
	told := st.Refused
	for i, w := range []*Way{&st.SetUp, &st.Present, &st.Least} {
		if w.Fault != "" && !strings.Contains(told, w.Fault) {
			list, told = append(list, [...]string{"best set-up alone", "cut, with the present set-up", "cut"}[i]+": "+w.Fault), told+w.Fault
		}
	}
	if st.AsItIs.Lost <= 0 {
		return list
	}
	list = append(list, fmt.Sprintf("as it is the spring binds before the fusee is wound, and %s fusee turns are lost", sim.Figure(st.AsItIs.Lost)))
	if st.SetUp.Fault == "" && st.SetUp.Torque.Unevenness > st.AsItIs.Torque.Unevenness {
		list = append(list, "the best set-up alone is less even because it winds those turns too: the unevenness as it is leaves the lost ones out")
	}
	return list
}

func unevenness(w *Way) string {
	if w.Torque.Unevenness < 5e-5 {
		return "< 0.01"
	}
	return sim.Figure(100 * w.Torque.Unevenness)
}

// says are the sentences on the cone to cut.
func (st *Study) says() []string {
	var list []string
	add := func(format string, args ...any) { list = append(list, fmt.Sprintf(format, args...)) }
	if st.AsItIs.Verdict == sim.Unjudged {
		add("the train is not judged, for no need is known: find the least torque (N·m) that keeps it going, by weights on a pulley at the winding square, and give it as demand.least_torque_nm")
	}
	if !st.Nothing {
		st.sayCut(add)
	}
	g := st.Groove
	shape := fmt.Sprintf("round, %.2f mm wide and %.2f mm deep for a line %.2f mm thick", g.Width*1e3, g.Depth*1e3, st.Cut.Drive.Line.Thickness*1e3)
	if g.Square {
		shape = fmt.Sprintf("square, %.2f mm wide, as the chain is", g.Width*1e3)
	}
	add("groove: %s, leaving %.2f mm of land at a pitch of %.2f mm (common practice, no source); diameters are over its bottom", shape, math.Max(g.Land*1e3, 0), st.Cut.Drive.Cone.Pitch*1e3)
	line := fmt.Sprintf("line: %.0f mm on the fusee", st.Line.OnFusee*1e3)
	if !math.IsNaN(st.Span) {
		line += fmt.Sprintf(" and %.0f mm from there to the barrel when wound", st.Span*1e3)
	}
	room := math.Max(st.Line.Room, st.Line.Spread)
	add("%s, besides what the fastenings take; it takes %.1f of the %.1f mm of barrel", line, room*1e3, st.Cut.Drive.Barrel.Length*1e3)
	s := &st.Sensitivity
	add("a spring %.2f mm thinner: %s; %.2f mm thicker: %s", s.By*1e3, s.Thinner.says(), s.By*1e3, s.Thicker.says())
	if st.Whole > 5e-5 {
		more := ""
		if st.Step >= 1 {
			more = "; --step 0.25 gives more diameters"
		}
		add("turned to the diameters at whole turns and joined smoothly in between it would be even to %s%s", percent(st.Whole), more)
	}
	return list
}

func (st *Study) sayCut(add func(format string, args ...any)) {
	switch {
	case st.FromBlank:
	case !st.Advised():
		add("nothing is advised to be cut; the rows below show what an even cone with %s turns of set-up would take", turns(st.After.SetUp))
	case st.KeepSetUp:
		add("the cone below keeps the set-up of %s turns", turns(st.After.SetUp))
	case st.Kept:
		add("the cone below keeps the set-up of %s turns, with which the train %s; with the one that takes least off, %s turns, it %s", turns(st.After.SetUp), says(st.Present.Verdict), turns(st.Least.SetUp), says(st.Least.Verdict))
	default:
		add("the cone below takes the least metal off and wants %s turns of set-up; it has %s now, and --keep-set-up cuts it for these", turns(st.After.SetUp), turns(st.AsItIs.SetUp))
	}
	most := fmt.Sprintf("up to %s mm of diameter come off, at fusee turn %s", sim.Figure(st.Deepest*1e3), sim.Turns(st.DeepestAt))
	switch {
	case st.Deepest <= LeastCount:
	case st.FromBlank:
		add("against the present cone %s", most)
	case math.IsNaN(st.After.Touch):
		add("%s; a larger cone would leave the spring fewer turns to spare", most)
	default:
		add("%s, and nothing at turn %s", most, sim.Turns(st.After.Touch))
	}
	if st.Between && st.Deepest > LeastCount {
		add("turn %s lies between the whole turns that were measured, and the present diameter there is only reckoned: measure there first", sim.Turns(st.DeepestAt))
	}
}

func (o *Off) says() string {
	switch {
	case o.Fault != "":
		return "cannot be built"
	case o.Lost > 0:
		return fmt.Sprintf("unevenness %s, mean %s N·m, and %s fusee turns lost", percent(o.Unevenness), sim.Figure(o.Mean), sim.Figure(o.Lost))
	}
	return fmt.Sprintf("unevenness %s, mean %s N·m", percent(o.Unevenness), sim.Figure(o.Mean))
}

// table is the cone turn by turn.
func (st *Study) table(p *text.Page) {
	var g text.Grid
	g.Row("  fusee", "along", "diameter", "now", "to remove", "torque now", "torque after", "free line", "fleet")
	g.Row("  turn", "mm", "mm", "mm", "mm", "N·m", "N·m", "mm", "°")
	for i := range st.Rows {
		r := &st.Rows[i]
		g.Row("  "+sim.Turns(r.FuseeTurn), fmt.Sprintf("%.1f", r.Along*1e3), fmt.Sprintf("%.2f", r.Diameter*1e3), fmt.Sprintf("%.2f", r.Now*1e3),
			text.Minus(fmt.Sprintf("%.2f", clean(r.Remove)*1e3)), sim.Figure(r.TorqueBefore), sim.Figure(r.Torque), sim.Figure(r.Span*1e3), text.Minus(text.Two(sim.Degrees(r.Fleet))))
	}
	g.Right(0, 1, 2, 3, 4, 5, 6, 7, 8)
	g.Write(p)
}
