package words

import (
	"cmp"
	"math"

	"evenpull/sim/rules"
	"evenpull/sim/study/cut"
)

// CutSays are the sentences on what is advised and on the cone of the rows.
func CutSays(st *cut.Study) []string {
	var says told
	if st.Suits() == cut.NotJudged {
		says = Reasons(&st.Now)
	}
	if st.Search != nil {
		says.add("set-up: %s", SetUpAdvice(st.Search))
	}
	says.add("cone: %s", CutAdvice(st))
	if !st.Nothing {
		says.cone(st)
	}
	says.groove(st)
	s := &st.Sensitivity
	says.add("a spring %.2f mm thinner: %s; %.2f mm thicker: %s", s.By*mm, cutOff(&s.Thinner), s.By*mm, cutOff(&s.Thicker))
	says.when(st.Whole > 5e-5, "turned to the diameters at whole turns and joined smoothly in between, the unevenness would be %s%s",
		Percent(st.Whole), where(st.Step >= 1, "; --step 0.25 gives more diameters"))
	return says
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
			fares(&after.Digest), TurnsAndClicks(least), Does(least.Verdict.Code), faultCount(least))
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
	t.when(st.Between, "turn %s lies between the whole turns that were measured, and the present diameter there is only reckoned: measure there first", deep)
}

// groove tells of the groove and of the line that lies in it.
func (t *told) groove(st *cut.Study) {
	g, d, l := &st.Groove, &st.Cut.Drive, &st.After.Line
	shape := either(g.Square, say("square, %.2f mm wide, as the chain is", g.Width*mm),
		say("round, %.2f mm wide and %.2f mm deep for a line %.2f mm thick", g.Width*mm, g.Depth*mm, d.Line.Thickness*mm))
	t.add("groove: %s, leaving %.2f mm of land at a pitch of %.2f mm (common practice, no source); diameters are over its bottom", shape, math.Max(g.Land*mm, 0), d.Cone.Pitch*mm)
	t.add("line: %.0f mm on the fusee%s, besides what the fastenings take; it takes %.1f of the %.1f mm of barrel", l.OnFusee*mm,
		where(!math.IsNaN(st.Span), " and %.0f mm from there to the barrel when wound", st.Span*mm), math.Max(l.Room, l.Spread)*mm, st.After.BarrelRoom*mm)
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
	says.when(st.Refused != nil, "%s", CutRefused(st))
	if st.Nothing {
		return append(says, Faults(&after.Digest)...)
	}
	is, left, land := after.Verdict.Code, after.Spare(), st.Groove.Land
	says.when(is != rules.Suits && is != rules.Unjudged, "with the even cone the train %s; as it is it %s", Does(is), Does(st.Now.Verdict.Code))
	says.when(after.Missing > cut.LeastCount, "metal is missing: the new cone is up to %v mm thicker than the present one, at fusee turn %s; it takes a new blank", after.Missing*mm, Turns(after.MissingAt))
	says.when(!st.Now.Advice.Spares(left), "once it is cut %s", Spare(left, &st.Now.Advice))
	says.when(land < cut.LeastLand, "the land between two turns of the groove is %v mm; less than %v breaks out (common practice, no source)", math.Max(land*mm, 0), cut.LeastLand*mm)
	return append(says, Faults(&after.Digest)...)
}

// CutCautions are what is to be minded with the spring and at the lathe.
func CutCautions(st *cut.Study) []string {
	return []string{Caution(math.Max(st.Now.Spring.Stored, st.After.Spring.Stored)),
		"Cutting a fusee cannot be undone. On a historic clock leave the cone as it is and fit a spring that suits it.",
		"Take the line and the spring off before anything is cut. Turn the fusee on a lathe with its arbor supported at both ends, never in the clock; guard against chips and the running work, and wear eye protection. Local safety rules and a qualified maker's judgement come before anything printed here.",
	}
}
