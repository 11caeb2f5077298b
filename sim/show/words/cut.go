package words

import (
	"cmp"
	"math"

	"evenpull/fusee"
	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/study/cut"
	"evenpull/sim/study/setup"
)

// CutHead is the question of a study, with its answer.
func CutHead(st *cut.Study, shown func(rules.Code) string) string {
	return say("%s train: %s %s", st.Now.Name, CutQuestion(st), CutAnswer(st, shown))
}

// CutQuestion is what a study answers.
func CutQuestion(st *cut.Study) string {
	return Either(st.Wanted != nil, "is there a cone for this spring?", "does this cone suit this spring?")
}

// CutAnswer is the answer: what is tried first by the rules, or what a search found.
func CutAnswer(st *cut.Study, shown func(rules.Code) string) string {
	if st.Wanted != nil {
		return WantedAnswer(st, shown)
	}
	now, better := &st.Now, ""
	if st.First() == rules.AnotherSetUp {
		better = "; another set-up is advised: " + TurnsAndClicks(st.SetUp())
	}
	does, uneven := DoesLoudly(now.Verdict.Code, shown)+surely(now), Percent(now.Torque.Unevenness)
	switch st.Suits() {
	case cut.NotJudged:
		return say("%s: no need is known. As it is the train %s, unevenness %s%s", shown(rules.Unjudged), hasFaults(now), uneven, better)
	case cut.AsItIs:
		return say("YES, as it is: the train %s, unevenness %s%s", does, uneven, better)
	case cut.WithSetUp:
		d := st.SetUp()
		return say("YES, with another set-up and nothing cut: with %s the train %s, unevenness %s",
			TurnsAndClicks(d), DoesLoudly(d.Verdict.Code, shown)+surely(d), Percent(d.Torque.Unevenness))
	}
	after := st.After.Standing()
	return say("NO: as it is the train %s and %s. Another spring comes first (evenpull choose); %s", does, hasFaults(now), cmp.Or(
		where(st.Now.Advice.Historic && !st.FromBlank, "the cone is historic, and stays as it is"),
		where(st.Uncut, "cutting the cone is not advised"),
		where(st.Nothing, "%s", cutNone(st)),
		where(st.Advised(), "%s would do as well, and is advised", cutting(st)),
		where(after.Worthwhile(), "%s would do, and is not advised", cutting(st)),
		say("%s would not do: the train then %s", cutting(st), fares(&st.After.Digest))))
}

// CutCone is what the cone of the rows is.
func CutCone(st *cut.Study) string {
	return cmp.Or(
		where(st.Wanted != nil, "cone that is wanted"),
		where(st.FromBlank, "cone from blank"),
		where(st.Uncut, "cone as it is: cutting is not advised"),
		where(st.Refused != nil, "cone as it is: none can be cut"),
		where(st.Nothing, "cone as it is: nothing to cut"),
		Either(st.Advised(), "cone to cut", "even cone, not advised to be cut"))
}

// Hand is the hand of the groove.
func Hand(c *fusee.Cone) string { return Either(c.Left, "left-hand", "right-hand") }

// CutGroove is the shape of the groove.
func CutGroove(st *cut.Study) string {
	g := &st.Groove
	return Hand(&st.Cut.Drive.Cone) + ", " + say(Either(g.Square, "square, %.2f mm wide, as the chain is, and %.2f mm deep for its height of %.2f mm", "round, %.2f mm wide and %.2f mm deep for a line %.2f mm thick"),
		g.Width*mm, g.Depth*mm, st.Cut.Drive.Line.Thickness*mm)
}

func cutNone(st *cut.Study) string {
	return cmp.Or(
		where(st.Refused == nil, "the cone is even for this spring already"),
		where(st.Least.Fault == nil, "with this set-up no even cone can be cut within this one"),
		"no even cone can be cut within this one")
}

func cutting(st *cut.Study) string {
	return Either(st.FromBlank, "this new cone", "cutting the cone")
}

// CutAdvice tells whether cutting is advised, with rule and figure.
func CutAdvice(st *cut.Study) string {
	if st.Wanted != nil {
		return Either(st.None(), "none is advised: no cone keeps within the limits", "the first of the cones that were found, where the train suits")
	}
	f, a := st.Finding(), &st.Now.Advice
	if f.Advised {
		return say("%s is advised where no other spring is fitted: %sthe unevenness falls to %s of what it is, and %s or less is worth it, and the cone is not said to be historic", cutting(st),
			where(!st.FromBlank, "at most %s of the diameter comes off, and up to %s may, ", Percent(st.After.Share), Percent(a.CutAtMost)),
			Percent(f.Figure), Percent(a.CutGain))
	}
	return Either(st.FromBlank, "no new cone is advised: ", "nothing is advised to be cut: ") + cmp.Or(where(st.Nothing, "%s", cutNone(st)), map[rules.Rule]string{
		rules.HistoricCone:  "the cone is historic",
		rules.SetUpFirst:    "another set-up comes first, and does",
		rules.NothingFirst:  "the train suits as it is",
		rules.BetterVerdict: "with the even cone the train " + fares(&st.After.Digest),
		rules.TurnsToSpare:  say("with the even cone only %v turns of the spring are to spare when the fusee is wound, and %v are wanted", f.Figure, f.Limit),
		rules.CutAtMost:     say("up to %s of the diameter would come off, and at most %s may", Percent(f.Figure), Percent(f.Limit)),
		rules.CutGain:       say("the unevenness would fall only to %s of what it is; %s or less would be worth it", Percent(f.Figure), Percent(f.Limit)),
	}[f.Rule])
}

// CutRefused tells why no even cone can be cut within the present one, and what
// would let one be cut; "" when one can.
func CutRefused(st *cut.Study) string {
	want := cmp.Or(
		where(st.Binding, "a spring with more turns than %v, or fewer fusee turns: it is the spring that leaves no room for a larger cone", st.Now.Spring.Available),
		"a larger cone, or a spring that suits this one")
	return where(st.Refused != nil, "%s; want %s%s", Why(st.Refused), want, where(st.Least.Fault == nil, "; or leave --keep-set-up out"))
}

// CutWayFaults tells what is wrong with the ways.
func CutWayFaults(st *cut.Study) []string {
	var says told
	add := func(way string, err error) {
		says.when(err != nil && (st.Refused == nil || err.Error() != st.Refused.Error()), "%s: %s", way, Why(err))
	}
	if st.Search == nil {
		add("another set-up alone", setup.ErrNoRoom)
	}
	add(cutPresent, st.Present.Fault)
	add(cutLeast, st.Least.Fault)
	if st.Now.TurnsLost > 0 {
		says.add("as it is the spring binds before the fusee is wound, and %v fusee turns are lost", st.Now.TurnsLost)
		d := st.SetUp()
		says.when(d != nil && d.Torque.Unevenness > st.Now.Torque.Unevenness, "another set-up alone is less even because it winds those turns too: the unevenness as it is leaves the lost ones out")
	}
	return says
}

// Ways of cutting.
const (
	cutPresent = "cut, same set-up"
	cutLeast   = "cut, least metal"
)

// CutWay is a way to an even pull.
type CutWay struct {
	Name string
	Run  *sim.Digest // nil where it cannot be had
	Off  float64     // m³ of metal
}

// CutWays are the ways that a study compares.
func CutWays(st *cut.Study) []CutWay {
	advised := st.Search != nil && st.Search.Advised != nil
	ways := []CutWay{
		{"as it is", &st.Now, 0},
		{Either(advised, "set-up advised", "most even set-up"), st.SetUp(), 0},
	}
	switch {
	case st.FromBlank:
		return append(ways, CutWay{"a new cone from blank", &st.After.Digest, st.After.Removed})
	case st.Nothing && st.Refused == nil:
		return ways
	}
	return append(ways, CutWay{cutPresent, st.Present.Run(), st.Present.Removed}, CutWay{cutLeast, st.Least.Run(), st.Least.Removed})
}

// CutSays are the sentences on what is advised and on the cone of the rows.
func CutSays(st *cut.Study) []string {
	var says told
	if st.Suits() == cut.NotJudged {
		says = Reasons(&st.Now)
	}
	if st.Search != nil {
		says.add("%s", SetUpAdvice(st.Search))
	}
	decides := Decides(&st.Now)
	says.when(decides != "", "as it is, %s", decides)
	says.add("cone: %s", CutAdvice(st))
	if !st.Shown() {
		says.add("%s is not shown; --anyway shows it", Either(st.Nothing, "the cone as it is", "the even cone"))
		return says
	}
	if !st.Nothing {
		says.cone(st)
	}
	return says.making(st)
}

// making tells of groove and line, and what becomes of it all with a spring off its thickness.
func (t *told) making(st *cut.Study) []string {
	says := *t
	g, d, l, s := &st.Groove, &st.Cut.Drive, &st.After.Line, &st.Sensitivity
	says.add("groove: %s, leaving %.2f mm of land at a pitch of %.2f mm (common practice, no source); diameters are over its bottom", CutGroove(st), math.Max(g.Land*mm, 0), d.Cone.Pitch*mm)
	says.add("line: %.0f mm on the fusee%s, besides what the fastenings take; it takes %.1f of the %.1f mm of barrel", l.OnFusee*mm,
		where(!math.IsNaN(st.Span), " and %.0f mm from there to the barrel when wound", st.Span*mm), math.Max(l.Room, l.Spread)*mm, st.After.BarrelRoom*mm)
	says.add("a spring %.2f mm thinner: %s; %.2f mm thicker: %s", s.By*mm, cutOff(&s.Thinner), s.By*mm, cutOff(&s.Thicker))
	if whole := CutWhole(st); whole != "" {
		says = append(says, whole)
	}
	return says
}

// CutWhole tells how even a cone is that is turned to the diameters at whole turns; "" where
// that is as even as it should be.
func CutWhole(st *cut.Study) string {
	return where(st.Whole > 5e-5, "turned to the diameters at whole turns and joined smoothly in between, the unevenness would be %s%s",
		Percent(st.Whole), where(st.Step >= 1, "; --step 0.25 gives more diameters"))
}

// cone tells which cone the rows are for, and where most comes off.
func (t *told) cone(st *cut.Study) {
	const below = "the even cone below "
	after, least, deep := &st.After, &st.Least.Digest, Turns(st.After.DeepestAt)
	clicks := TurnsAndClicks(&after.Digest)
	switch {
	case st.FromBlank:
	case st.KeepSetUp:
		t.add(below+"keeps the set-up, %s", clicks)
	case st.Kept && st.Least.Fault == nil:
		t.add(below+"keeps the set-up, %s: with it the train %s; with the one that takes least off, %s: %s, %s", clicks,
			fares(&after.Digest), TurnsAndClicks(least), Does(least.Verdict.Code), hasFaults(least))
	case !st.Kept && after.Spring.SetUp == st.Now.Spring.SetUp:
		t.add(below+"takes the least metal off with the set-up that it has, %s", clicks)
	case !st.Kept:
		t.add(below+"takes the least metal off and wants a set-up of %s; it has %s, and --keep-set-up works it out for these", clicks, TurnsAndClicks(&st.Now))
	}
	if after.Deepest <= cut.LeastCount {
		return
	}
	beside := cmp.Or(
		where(!st.FromBlank && math.IsNaN(after.Touch), "; a larger cone would leave the spring fewer turns to spare"),
		where(!st.FromBlank, ", and nothing at turn %s", Turns(after.Touch)))
	t.add("%sup to %v mm of diameter come off, at fusee turn %s%s", where(st.FromBlank, "against the present cone "), after.Deepest*mm, deep, beside)
	t.when(st.Between, "turn %s lies between the places that were measured, and the present diameter there is only reckoned: measure there first", deep)
}

func cutOff(o *cut.Off) string {
	if o.Fault != nil {
		return "cannot be built"
	}
	return say("unevenness %s, mean %v N·m, it %s", Percent(o.Torque.Unevenness), o.Torque.Mean, Does(o.Verdict.Code)) +
		where(o.TurnsLost > 0, ", and %v fusee turns are lost", o.TurnsLost)
}

// CutWarns are what is to be minded before the cone is cut.
func CutWarns(st *cut.Study) []string {
	after, says := &st.After, told{}
	if st.None() {
		return blocking(st.Wanted)
	}
	says.when(st.Refused != nil, "%s", CutRefused(st))
	differ := needsDiffer(&after.Digest)
	says.when(st.Wanted != nil && differ != "", "%s", differ)
	if st.Nothing || !st.Shown() {
		return append(says, Faults(&st.Now)...)
	}
	is, left, land := after.Verdict.Code, after.Spare(), st.Groove.Land
	says.when(is != rules.Suits && is != rules.Unjudged && st.Wanted == nil, "with the even cone the train %s; as it is it %s", Does(is), Does(st.Now.Verdict.Code))
	says.when(after.Missing > cut.LeastCount, "metal is missing: the new cone is up to %v mm thicker than the present one, at fusee turn %s; it takes a new blank", after.Missing*mm, Turns(after.MissingAt))
	says.when(!st.Now.Advice.Spares(left), "once it is cut %s", Spare(&after.Digest))
	says.when(land < cut.LeastLand, "the land between two turns of the groove is %v mm; less than %v breaks out (common practice, no source)", math.Max(land*mm, 0), cut.LeastLand*mm)
	return append(says, Faults(&after.Digest)...)
}

// WantedMaking tells of groove and line of the best cone that was found.
func WantedMaking(st *cut.Study) []string { return new(told).making(st) }

// CutCautions are what is to be minded with the spring and at the lathe.
func CutCautions(st *cut.Study) []string {
	says := told{Caution(math.Max(st.Now.Spring.Stored, st.After.Spring.Stored))}
	says.when(st.Wanted == nil, "Cutting a fusee cannot be undone. On a historic clock leave the cone as it is and fit a spring that suits it.")
	says.when(!st.Uncut, "Take the line and the spring off before anything is cut. Turn the fusee on a lathe with its arbor supported at both ends, never in the clock; guard against chips and the running work, and wear eye protection. Local safety rules and a qualified maker's judgement come before anything printed here.")
	return says
}
