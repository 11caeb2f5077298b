package words

import (
	"fmt"

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
	case st.Nothing:
		return cutNone(st)
	case st.Advised():
		return cutting(st) + " would do as well, and is advised"
	case after.Worthwhile():
		return cutting(st) + " would do, and is not advised"
	}
	return fmt.Sprintf("%s would not do: the train then %s and %s", cutting(st), Does(after.Code), faultCount(&st.After.Digest))
}

// cutNone tells why nothing is cut.
func cutNone(st *cut.Study) string {
	switch {
	case st.Refused == nil:
		return "the cone is even for this spring already"
	case st.Least.Fault == nil:
		return "with this set-up no even cone can be cut within this one"
	}
	return "no even cone can be cut within this one"
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
	if st.Nothing {
		return cutNone(st)
	}
	after := &st.After.Digest
	switch f.Rule {
	case rules.HistoricCone:
		return "the cone is historic (advice.historic)"
	case rules.SetUpFirst:
		return "another set-up comes first, and does"
	case rules.NothingFirst:
		return "the train suits as it is"
	case rules.BetterVerdict:
		return fmt.Sprintf("with the even cone the train %s and %s", Does(after.Verdict.Code), faultCount(after))
	case rules.TurnsToSpare:
		return fmt.Sprintf("with the even cone only %s turns of the spring are to spare when the fusee is wound, and %s are wanted (advice.turns_to_spare)", Figure(f.Figure), Figure(f.Limit))
	case rules.CutAtMost:
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
