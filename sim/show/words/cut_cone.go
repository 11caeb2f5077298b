package words

import (
	"fmt"
	"math"

	"evenpull/sim/rules"
	"evenpull/sim/study/cut"
)

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
	if left := after.Spare(); !st.Now.Advice.Spares(left) {
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
