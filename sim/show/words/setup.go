package words

import (
	"cmp"
	"math"
	"slices"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/study/setup"
)

// SetUpHead is what is advised.
func SetUpHead(st *setup.Study) string { return say("%s train: %s", st.Now.Name, SetUpAdvice(st)) }

// SetUpBest tells which set-up is the most even.
func SetUpBest(st *setup.Study) string {
	now, best := &st.Now, &st.Best
	has := best.Spring.SetUp == now.Spring.SetUp
	// Others may be more even, and leave too few turns or bind.
	among := now.Advice.Spares(best.Spare()) && slices.ContainsFunc(st.Curve, func(d sim.Digest) bool {
		return d.Torque.Unevenness < best.Torque.Unevenness
	})
	mostEven := cmp.Or(
		where(among, "of the set-ups that leave %v turns to spare the most even is", now.Advice.TurnsToSpare),
		where(now.TurnsLost > 0, "of the set-ups with which the fusee can be wound the most even is"),
		"most even with")
	return say("%s %s%s of set-up%s: unevenness %s%s", mostEven, where(has, "the "), TurnsAndClicks(best), where(has, " that it has"),
		Percent(best.Torque.Unevenness), where(!has, ", against %s with the %s it has now", Percent(now.Torque.Unevenness), TurnsAndClicks(now)))
}

// TurnsAndClicks is a set-up: turns, and clicks of the ratchet where they are whole.
func TurnsAndClicks(d *sim.Digest) string {
	turns, clicks := d.Spring.SetUp, d.Spring.SetUp*d.Clicks
	whole := int(clicks + 0.5)
	return Two(turns) + " turns" + where(math.Abs(clicks-float64(whole)) < 1e-6, " (%s)", Count(whole, "click"))
}

// SetUpMark is a set-up that has a name among the others.
type SetUpMark struct {
	Name   string
	Now    bool // the present one
	Chosen bool // the one that is advised or, where none is, the best
	Run    *sim.Digest
}

// SetUpMarks are the present set-up and the best: the most even or, where another is advised,
// that, and the most even beside it.
func SetUpMarks(st *setup.Study) []SetUpMark {
	now, even, advised := &st.Now, &st.Best, st.Advised
	if advised == nil || advised.Spring.SetUp == even.Spring.SetUp {
		advised = nil
	}
	name := Either(advised == nil, "best", "most even")
	marks := []SetUpMark{{"now", true, false, now}, {name, false, advised == nil, even}}
	if even.Spring.SetUp == now.Spring.SetUp {
		marks = []SetUpMark{{"now and " + name, true, advised == nil, even}}
	}
	if advised != nil {
		marks = append(marks, SetUpMark{"advised", false, true, advised})
	}
	return marks
}

// SetUpSays tells how the present set-up, the one advised and the best are judged, and
// what is even.
func SetUpSays(st *setup.Study, shown func(rules.Code) string) []string {
	now, best, to := &st.Now, &st.Best, st.Advised
	says := told{say("as it is, with %s: %s", TurnsAndClicks(now), Judged(now, shown))}
	says.when(to != nil, "%s", say("with %s: %s", TurnsAndClicks(cmp.Or(to, now)), Judged(cmp.Or(to, now), shown)))
	decides := Decides(cmp.Or(to, now)) // of the one told last
	says.when(decides != "", "%s", decides)
	says.when(best.Spring.SetUp != now.Spring.SetUp && (to == nil || best.Spring.SetUp != to.Spring.SetUp), "with %s: %s", TurnsAndClicks(best), Judged(best, shown))
	says.add("%s", SetUpBest(st))
	says.when(st.Range.Lo < st.Range.Hi, "from %s to %s turns the pull stays %s", Two(st.Range.Lo), Two(st.Range.Hi), SetUpNear(st))
	says.add("the fusee can be wound fully with up to %s turns of set-up", Two(st.Most))
	return says
}

// SetUpWarns tells what stands against the set-ups.
func SetUpWarns(st *setup.Study) []string {
	var says told
	said := st.Advised == nil && st.Finding.Rule == rules.TurnsToSpare // by the advice
	says.when(!st.Now.Advice.Spares(st.Best.Spare()) && !said, "do not set it up so far: %s", Spare(&st.Best))
	says.when(st.Now.TurnsLost > 0, "with the present set-up the spring binds before the fusee is wound, and %s fusee turns are lost", Two(st.Now.TurnsLost))
	return says
}

// SetUpAdvice is what is advised of the set-up, with rule and figure.
func SetUpAdvice(st *setup.Study) string {
	to, f := st.Advised, st.Finding
	if to == nil {
		return "leave the set-up as it is: " + map[rules.Rule]string{
			rules.TurnsToSpare:  say("the most even one leaves only %v turns to spare, and %v are wanted", f.Figure, f.Limit),
			rules.NothingFirst:  "it is the most even",
			rules.BetterVerdict: "the most even one is no better by its verdict and its faults",
			rules.SetUpPoints:   say("the most even one would lower the unevenness by only %s of the mean torque; from %s on that would be worth it", Percent(f.Figure), Percent(f.Limit)),
			rules.SetUpGain:     say("the most even one would take only %s of the unevenness away; from %s on that would be worth it", Percent(f.Figure), Percent(f.Limit)),
		}[f.Rule]
	}
	// Advice that does not cure is for the time being.
	meanwhile := where(st.First() == rules.AnotherSpring, " until another spring is fitted, since no set-up cures it")
	return say("another set-up is advised%s: %s", meanwhile, setUpChange(st))
}

// setUpChange is the set-up advised in place of the present one, and what it is good for.
func setUpChange(st *setup.Study) string {
	now, to, f := &st.Now, st.Advised, st.Finding
	return say("%s in place of %s, %s", TurnsAndClicks(to), TurnsAndClicks(now), map[rules.Rule]string{
		rules.TurnsToSpare:  say("which leaves %v turns to spare instead of %v; %v are wanted", to.Spare(), now.Spare(), f.Limit),
		rules.BetterVerdict: say("with which the train %s%s; now it %s", versus(to, now), surely(to), versus(now, to)),
		rules.SetUpGain:     say("which takes %s of the unevenness away; from %s on that is worth it", Percent(f.Figure), Percent(f.Limit)),
	}[f.Rule])
}

// versus is what a train does, and which faults it has where it or another has any.
func versus(d, other *sim.Digest) string {
	return Does(d.Verdict.Code) + where(d.Faults|other.Faults != 0, " and %s", hasFaults(d))
}

// SetUpNear tells what the range keeps.
func SetUpNear(st *setup.Study) string {
	return Either(st.Trifling(), "as even as anybody could tell, below 0.1 %", "within 10 % of the best")
}
