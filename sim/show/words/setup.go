package words

import (
	"fmt"
	"math"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/study/setup"
)

// SetUpHead is what the search for a set-up found, in a line; shown writes the
// verdict.
func SetUpHead(st *setup.Study, shown func(rules.Code) string) string {
	best := TurnsAndClicks(&st.Best) + " of set-up"
	if st.Best.Spring.SetUp == st.Now.Spring.SetUp {
		best = "the " + best + " that it has"
	}
	return fmt.Sprintf("%s train: %s %s, where it %s", st.Now.Name, mostEven(st), best, DoesLoudly(st.Best.Verdict.Code, shown))
}

// mostEven tells among which set-ups the best is the most even: others may be more
// so, and leave too few turns or bind.
func mostEven(st *setup.Study) string {
	if a := &st.Now.Advice; a.Spares(st.Best.Spare()) {
		for i := range st.Curve {
			if st.Curve[i].Torque.Unevenness < st.Best.Torque.Unevenness {
				return fmt.Sprintf("of the set-ups that leave %s turns to spare the most even is", Figure(a.TurnsToSpare))
			}
		}
	}
	if st.Now.TurnsLost > 0 {
		return "of the set-ups with which the fusee can be wound the most even is"
	}
	return "most even with"
}

// TurnsAndClicks is a set-up as it is told: turns, and clicks of the ratchet where
// they are whole.
func TurnsAndClicks(d *sim.Digest) string {
	turns, clicks := d.Spring.SetUp, d.Spring.SetUp*d.Clicks
	if whole := int(clicks + 0.5); math.Abs(clicks-float64(whole)) < 1e-6 {
		return fmt.Sprintf("%s turns (%s)", Two(turns), Count(whole, "click"))
	}
	return Two(turns) + " turns"
}

// SetUpSays tells what the best set-up gives beside the present one, and what is
// advised.
func SetUpSays(st *setup.Study) []string {
	even := fmt.Sprintf("unevenness %s there", Percent(st.Best.Torque.Unevenness))
	if st.Best.Spring.SetUp != st.Now.Spring.SetUp {
		even += fmt.Sprintf(", %s with the %s it has now", Percent(st.Now.Torque.Unevenness), TurnsAndClicks(&st.Now))
	}
	list := []string{even, SetUpAdvice(st)}
	if st.Range.Lo < st.Range.Hi {
		list = append(list, fmt.Sprintf("from %s to %s turns it stays %s", Two(st.Range.Lo), Two(st.Range.Hi), SetUpNear(st)))
	}
	return append(list, fmt.Sprintf("the fusee can be wound fully with up to %s turns of set-up", Two(st.Most)))
}

// SetUpWarns tells what stands against the set-ups.
func SetUpWarns(st *setup.Study) []string {
	var list []string
	if left := st.Best.Spare(); !st.Now.Advice.Spares(left) {
		list = append(list, "do not set it up so far: "+Spare(left, &st.Now.Advice))
	}
	if st.Now.TurnsLost > 0 {
		list = append(list, fmt.Sprintf("with the present set-up the spring binds before the fusee is wound, and %s fusee turns are lost", Two(st.Now.TurnsLost)))
	}
	return list
}

// SetUpAdvice is what is advised of the set-up, in a sentence that names rule and
// figure.
func SetUpAdvice(st *setup.Study) string {
	a, f := &st.Now.Advice, st.Finding
	if st.Advised == nil {
		return "leave the set-up as it is: " + whyNoSetUp(a, f)
	}
	to := st.Advised
	s := fmt.Sprintf("advised%s: %s in place of %s, ", untilThen(st), TurnsAndClicks(to), TurnsAndClicks(&st.Now))
	switch f.Rule {
	case rules.TurnsToSpare:
		return s + fmt.Sprintf("which leaves the spring %s turns to spare instead of %s (advice.turns_to_spare %s)", Figure(to.Spare()), Figure(st.Now.Spare()), Figure(a.TurnsToSpare))
	case rules.BetterVerdict:
		return s + fmt.Sprintf("with which the train %s and %s; now it %s and %s", Does(to.Verdict.Code), faultCount(to), Does(st.Now.Verdict.Code), faultCount(&st.Now))
	}
	return s + fmt.Sprintf("which takes %s off the unevenness; from %s on that is worth it (advice.set_up_gain)", Percent(f.Figure), Percent(f.Limit))
}

// untilThen limits advice that does not cure.
func untilThen(st *setup.Study) string {
	if st.First() == rules.AnotherSpring {
		return " until another spring is fitted, since no set-up cures it"
	}
	return ""
}

func whyNoSetUp(a *rules.Advice, f rules.Finding) string {
	switch f.Rule {
	case rules.TurnsToSpare:
		return fmt.Sprintf("the most even leaves only %s turns to spare, and %s are wanted (advice.turns_to_spare)", Figure(f.Figure), Figure(a.TurnsToSpare))
	case rules.NothingFirst:
		return "it is the most even"
	case rules.BetterVerdict:
		return "the most even is no better by its verdict and its faults"
	case rules.SetUpPoints:
		return fmt.Sprintf("the most even takes only %s of the mean off the unevenness; from %s on it would be worth it (advice.set_up_gain_points)", Percent(f.Figure), Percent(f.Limit))
	}
	return fmt.Sprintf("the most even takes only %s off the unevenness; from %s on it would be worth it (advice.set_up_gain)", Percent(f.Figure), Percent(f.Limit))
}

func faultCount(d *sim.Digest) string {
	if n := d.Faults.Count(); n > 0 {
		return "has " + Count(n, "fault")
	}
	return "has no fault"
}

// SetUpNear tells what the range keeps.
func SetUpNear(st *setup.Study) string {
	if st.Trifling() {
		return "as even as anybody could tell, below 0.1 %"
	}
	return "within 10 % of the best"
}
