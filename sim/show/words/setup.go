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
		Percent(best.Torque.Unevenness), where(!has, ", %s with the %s it has now", Percent(now.Torque.Unevenness), TurnsAndClicks(now)))
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
	says.when(st.Range.Lo < st.Range.Hi, "from %s to %s turns it stays %s", Two(st.Range.Lo), Two(st.Range.Hi), SetUpNear(st))
	says.add("the fusee can be wound fully with up to %s turns of set-up", Two(st.Most))
	return says
}

// SetUpWarns tells what stands against the set-ups.
func SetUpWarns(st *setup.Study) []string {
	var says told
	left, a := st.Best.Spare(), &st.Now.Advice
	says.when(!a.Spares(left), "do not set it up so far: %s", Spare(left, a))
	says.when(st.Now.TurnsLost > 0, "with the present set-up the spring binds before the fusee is wound, and %s fusee turns are lost", Two(st.Now.TurnsLost))
	return says
}

// SetUpAdvice is what is advised of the set-up, with rule and figure.
func SetUpAdvice(st *setup.Study) string {
	now, to, f := &st.Now, st.Advised, st.Finding
	if to == nil {
		const gain = "the most even takes only %s off the unevenness; from %s on it would be worth it (advice.set_up_gain"
		return "leave the set-up as it is: " + map[rules.Rule]string{
			rules.TurnsToSpare:  say("the most even leaves only %v turns to spare, and %v are wanted (advice.turns_to_spare)", f.Figure, f.Limit),
			rules.NothingFirst:  "it is the most even",
			rules.BetterVerdict: "the most even is no better by its verdict and its faults",
			rules.SetUpPoints:   say(gain+"_points)", Percent(f.Figure)+" of the mean", Percent(f.Limit)),
			rules.SetUpGain:     say(gain+")", Percent(f.Figure), Percent(f.Limit)),
		}[f.Rule]
	}
	// Advice that does not cure is for the time being.
	meanwhile := where(st.First() == rules.AnotherSpring, " until another spring is fitted, since no set-up cures it")
	return say("advised%s: %s in place of %s, %s", meanwhile, TurnsAndClicks(to), TurnsAndClicks(now), map[rules.Rule]string{
		rules.TurnsToSpare:  say("which leaves the spring %v turns to spare instead of %v (advice.turns_to_spare %v)", to.Spare(), now.Spare(), f.Limit),
		rules.BetterVerdict: say("with which the train %s; now it %s", fares(to), fares(now)),
		rules.SetUpGain:     say("which takes %s off the unevenness; from %s on that is worth it (advice.set_up_gain)", Percent(f.Figure), Percent(f.Limit)),
	}[f.Rule])
}

// SetUpNear tells what the range keeps.
func SetUpNear(st *setup.Study) string {
	return Either(st.Trifling(), "as even as anybody could tell, below 0.1 %", "within 10 % of the best")
}
