package words

import (
	"fmt"
	"math"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/study/cut"
	"evenpull/sim/study/setup"
)

// CutHead asks whether the cone of a study suits its spring, and answers.
func CutHead(st *cut.Study, shown func(rules.Code) string) string {
	return fmt.Sprintf("%s train: does this cone suit this spring? %s", st.Now.Name, CutAnswer(st, shown))
}

// CutAnswer is the answer: what is tried first by the rules; shown writes the
// verdict.
func CutAnswer(st *cut.Study, shown func(rules.Code) string) string {
	now, better := &st.Now, ""
	if st.First() == rules.AnotherSetUp {
		better = "; another set-up is advised: " + TurnsAndClicks(st.SetUp())
	}
	switch st.Suits() {
	case cut.NotJudged:
		return fmt.Sprintf("%s: no need is known. As it is the train %s, unevenness %s%s", shown(rules.Unjudged), faultCount(now), Percent(now.Torque.Unevenness), better)
	case cut.AsItIs:
		return fmt.Sprintf("YES, as it is: the train %s, unevenness %s%s", DoesLoudly(now.Verdict.Code, shown), Percent(now.Torque.Unevenness), better)
	case cut.WithSetUp:
		d := st.SetUp()
		return fmt.Sprintf("YES, with another set-up and nothing cut: with %s the train %s, unevenness %s", TurnsAndClicks(d), DoesLoudly(d.Verdict.Code, shown), Percent(d.Torque.Unevenness))
	}
	return fmt.Sprintf("NO: as it is the train %s and %s. Another spring comes first (evenpull choose); %s", DoesLoudly(now.Verdict.Code, shown), faultCount(now), cutWould(st))
}

// cutWould tells whether a cone that was cut would do.
func cutWould(st *cut.Study) string {
	after := st.After.Standing()
	switch {
	case st.Refused != nil:
		return "no even cone can be cut within this one"
	case st.Nothing:
		return "the cone is even for this spring already"
	case st.Advised():
		return cutting(st) + " would do as well, and is advised"
	case after.Worthwhile():
		return cutting(st) + " would do, and is not advised"
	}
	return fmt.Sprintf("%s would not do: the train then %s and %s", cutting(st), Does(after.Code), faultCount(&st.After.Digest))
}

func cutting(st *cut.Study) string {
	if st.FromBlank {
		return "this new cone"
	}
	return "cutting the cone"
}

// CutAdvice tells whether cutting is advised, with rule and figure.
func CutAdvice(st *cut.Study) string {
	f, a, off := st.Finding(), &st.Now.Advice, ""
	switch {
	case !f.Advised && st.FromBlank:
		return "no new cone is advised: " + whyNoCut(st, f)
	case !f.Advised:
		return "nothing is advised to be cut: " + whyNoCut(st, f)
	}
	if !st.FromBlank {
		off = fmt.Sprintf("at most %s of the diameter comes off, and up to %s may (advice.cut_at_most), ", Percent(st.After.Share), Percent(a.CutAtMost))
	}
	return fmt.Sprintf("%s is advised where no other spring is fitted: %sthe unevenness falls to %s of what it is, and %s or less is worth it (advice.cut_gain), and the cone is not said to be historic (advice.historic)",
		cutting(st), off, Percent(f.Figure), Percent(a.CutGain))
}

func whyNoCut(st *cut.Study, f rules.Finding) string {
	after := &st.After.Digest
	switch {
	case st.Refused != nil && st.Least.Fault == nil:
		return "with this set-up no even cone can be cut within this one"
	case st.Refused != nil:
		return "no even cone can be cut within this one"
	case st.Nothing:
		return "the cone is even for this spring already"
	case f.Rule == rules.HistoricCone:
		return "the cone is historic (advice.historic)"
	case f.Rule == rules.SetUpFirst:
		return "another set-up comes first, and does"
	case f.Rule == rules.NothingFirst:
		return "the train suits as it is"
	case f.Rule == rules.BetterVerdict:
		return fmt.Sprintf("with the even cone the train %s and %s", Does(after.Verdict.Code), faultCount(after))
	case f.Rule == rules.TurnsToSpare:
		return fmt.Sprintf("with the even cone only %s turns of the spring are to spare when the fusee is wound, and %s are wanted (advice.turns_to_spare)", Figure(f.Figure), Figure(f.Limit))
	case f.Rule == rules.CutAtMost:
		return fmt.Sprintf("up to %s of the diameter would come off, and at most %s may (advice.cut_at_most)", Percent(f.Figure), Percent(f.Limit))
	}
	return fmt.Sprintf("the unevenness would fall only to %s of what it is; %s or less would be worth it (advice.cut_gain)", Percent(f.Figure), Percent(f.Limit))
}

// CutRefused tells why no even cone can be cut within the present one, and what
// would let one be cut; "" when one can.
func CutRefused(st *cut.Study) string {
	if st.Refused == nil {
		return ""
	}
	says := st.Refused.Error() + "; want a larger cone, or a spring that suits this one"
	if st.Binding {
		says = fmt.Sprintf("%v; want a spring with more turns than %s, or fewer fusee turns: it is the spring that leaves no room for a larger cone", st.Refused, Figure(st.Now.Spring.Available))
	}
	if st.Least.Fault == nil {
		says += "; or leave --keep-set-up out"
	}
	return says
}

// CutWayFaults tells what is wrong with the ways.
func CutWayFaults(st *cut.Study) []string {
	var list []string
	add := func(way string, err error) {
		if err != nil && (st.Refused == nil || err.Error() != st.Refused.Error()) {
			list = append(list, way+": "+err.Error())
		}
	}
	if st.Search == nil {
		add("another set-up alone", setup.ErrNoRoom)
	}
	add("cut, with the present set-up", st.Present.Fault)
	add("cut, with the set-up that takes least off", st.Least.Fault)
	if st.Now.TurnsLost <= 0 {
		return list
	}
	list = append(list, fmt.Sprintf("as it is the spring binds before the fusee is wound, and %s fusee turns are lost", Figure(st.Now.TurnsLost)))
	if d := st.SetUp(); d != nil && d.Torque.Unevenness > st.Now.Torque.Unevenness {
		list = append(list, "another set-up alone is less even because it winds those turns too: the unevenness as it is leaves the lost ones out")
	}
	return list
}

// CutSays are the sentences on what is advised and on the cone of the rows.
func CutSays(st *cut.Study) []string {
	var list []string
	if st.Suits() == cut.NotJudged {
		list = append(list, Reasons(&st.Now)...)
	}
	if st.Search != nil {
		list = append(list, "set-up: "+SetUpAdvice(st.Search))
	}
	list = append(list, "cone: "+CutAdvice(st))
	if !st.Nothing {
		list = append(list, cutChosen(st)...)
	}
	list = append(list, cutGroove(st), cutLine(st))
	s := &st.Sensitivity
	list = append(list, fmt.Sprintf("a spring %.2f mm thinner: %s; %.2f mm thicker: %s", s.By*1e3, cutOff(&s.Thinner), s.By*1e3, cutOff(&s.Thicker)))
	if st.Whole > 5e-5 {
		more := ""
		if st.Step >= 1 {
			more = "; --step 0.25 gives more diameters"
		}
		list = append(list, fmt.Sprintf("turned to the diameters at whole turns and joined smoothly in between, the unevenness would be %s%s", Percent(st.Whole), more))
	}
	return list
}

// cutChosen tells which cone the rows are for, and where most comes off.
func cutChosen(st *cut.Study) []string {
	after, deep := &st.After, Turns(st.After.DeepestAt)
	var list []string
	switch {
	case st.FromBlank:
	case st.KeepSetUp:
		list = append(list, fmt.Sprintf("the even cone below keeps the set-up, %s", TurnsAndClicks(&after.Digest)))
	case st.Kept && st.Least.Fault == nil:
		list = append(list, fmt.Sprintf("the even cone below keeps the set-up, %s: with it the train %s and %s; with the one that takes least off, %s: %s, %s", TurnsAndClicks(&after.Digest),
			Does(after.Verdict.Code), faultCount(&after.Digest), TurnsAndClicks(&st.Least.Digest), Does(st.Least.Verdict.Code), faultCount(&st.Least.Digest)))
	case !st.Kept && after.Spring.SetUp == st.Now.Spring.SetUp:
		list = append(list, fmt.Sprintf("the even cone below takes the least metal off with the set-up that it has, %s", TurnsAndClicks(&after.Digest)))
	case !st.Kept:
		list = append(list, fmt.Sprintf("the even cone below takes the least metal off and wants a set-up of %s; it has %s, and --keep-set-up works it out for these", TurnsAndClicks(&after.Digest), TurnsAndClicks(&st.Now)))
	}
	if after.Deepest <= cut.LeastCount {
		return list
	}
	most := fmt.Sprintf("up to %s mm of diameter come off, at fusee turn %s", Figure(after.Deepest*1e3), deep)
	switch {
	case st.FromBlank:
		most = "against the present cone " + most
	case math.IsNaN(after.Touch):
		most += "; a larger cone would leave the spring fewer turns to spare"
	default:
		most += fmt.Sprintf(", and nothing at turn %s", Turns(after.Touch))
	}
	list = append(list, most)
	if st.Between {
		list = append(list, fmt.Sprintf("turn %s lies between the whole turns that were measured, and the present diameter there is only reckoned: measure there first", deep))
	}
	return list
}

func cutGroove(st *cut.Study) string {
	g, d := &st.Groove, &st.Cut.Drive
	shape := fmt.Sprintf("round, %.2f mm wide and %.2f mm deep for a line %.2f mm thick", g.Width*1e3, g.Depth*1e3, d.Line.Thickness*1e3)
	if g.Square {
		shape = fmt.Sprintf("square, %.2f mm wide, as the chain is", g.Width*1e3)
	}
	return fmt.Sprintf("groove: %s, leaving %.2f mm of land at a pitch of %.2f mm (common practice, no source); diameters are over its bottom", shape, math.Max(g.Land*1e3, 0), d.Cone.Pitch*1e3)
}

func cutLine(st *cut.Study) string {
	l := &st.After.Line
	says := fmt.Sprintf("line: %.0f mm on the fusee", l.OnFusee*1e3)
	if !math.IsNaN(st.Span) {
		says += fmt.Sprintf(" and %.0f mm from there to the barrel when wound", st.Span*1e3)
	}
	return fmt.Sprintf("%s, besides what the fastenings take; it takes %.1f of the %.1f mm of barrel", says, math.Max(l.Room, l.Spread)*1e3, st.After.BarrelRoom*1e3)
}

func cutOff(o *cut.Off) string {
	if o.Fault != nil {
		return "cannot be built"
	}
	says := fmt.Sprintf("unevenness %s, mean %s N·m, it %s", Percent(o.Torque.Unevenness), Figure(o.Torque.Mean), Does(o.Verdict.Code))
	if o.TurnsLost > 0 {
		says += fmt.Sprintf(", and %s fusee turns are lost", Figure(o.TurnsLost))
	}
	return says
}

// CutWarns are what is to be minded before the cone is cut.
func CutWarns(st *cut.Study) []string {
	list := []string{}
	add := func(format string, args ...any) { list = append(list, fmt.Sprintf(format, args...)) }
	if st.Refused != nil {
		add("%s", CutRefused(st))
	}
	after := &st.After
	if st.Nothing {
		return append(list, Faults(&after.Digest)...)
	}
	if was, is := st.Now.Verdict.Code, after.Verdict.Code; is != rules.Suits && is != rules.Unjudged {
		add("with the even cone the train %s; as it is it %s", Does(is), Does(was))
	}
	if after.Missing > cut.LeastCount {
		add("metal is missing: the new cone is up to %s mm thicker than the present one, at fusee turn %s; it takes a new blank", Figure(after.Missing*1e3), Turns(after.MissingAt))
	}
	if left := after.Left(); !st.Now.Advice.Spares(left) {
		add("once it is cut %s", Spare(left, &st.Now.Advice))
	}
	if st.Groove.Land < cut.LeastLand {
		add("the land between two turns of the groove is %s mm; less than %s breaks out (common practice, no source)", Figure(math.Max(st.Groove.Land*1e3, 0)), Figure(cut.LeastLand*1e3))
	}
	return append(list, Faults(&after.Digest)...)
}

// CutCautions are what is to be minded with the spring and at the lathe.
func CutCautions(st *cut.Study) []string {
	return []string{Caution(math.Max(st.Now.Spring.Stored, st.After.Spring.Stored)),
		"Cutting a fusee cannot be undone. On a historic clock leave the cone as it is and fit a spring that suits it.",
		"Take the line and the spring off before anything is cut. Turn the fusee on a lathe with its arbor supported at both ends, never in the clock; guard against chips and the running work, and wear eye protection. Local safety rules and a qualified maker's judgement come before anything printed here.",
	}
}

// CutWays are the ways to an even pull that a study compares, with their names: nil
// where one cannot be had.
func CutWays(st *cut.Study) (names []string, ways []*sim.Digest) {
	add := func(name string, d *sim.Digest, fault error) {
		if fault != nil {
			d = nil
		}
		names, ways = append(names, name), append(ways, d)
	}
	add("as it is", &st.Now, nil)
	name := "most even set-up, nothing cut"
	if st.Search != nil && st.Search.Advised != nil {
		name = "set-up advised, nothing cut"
	}
	add(name, st.SetUp(), nil)
	switch {
	case st.FromBlank:
		add("a new cone from blank", &st.After.Digest, nil)
	case !st.Nothing || st.Refused != nil:
		add("cut, with the present set-up", &st.Present.Digest, st.Present.Fault)
		add("cut, with the set-up that takes least off", &st.Least.Digest, st.Least.Fault)
	}
	return names, ways
}
