package words

import (
	"cmp"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/study/cut"
	"evenpull/sim/study/setup"
)

// CutHead asks whether the cone of a study suits its spring, and answers.
func CutHead(st *cut.Study, shown func(rules.Code) string) string {
	return say("%s train: does this cone suit this spring? %s", st.Now.Name, CutAnswer(st, shown))
}

// CutAnswer is the answer: what is tried first by the rules.
func CutAnswer(st *cut.Study, shown func(rules.Code) string) string {
	now, better := &st.Now, ""
	if st.First() == rules.AnotherSetUp {
		better = "; another set-up is advised: " + TurnsAndClicks(st.SetUp())
	}
	does, uneven := DoesLoudly(now.Verdict.Code, shown), Percent(now.Torque.Unevenness)
	switch st.Suits() {
	case cut.NotJudged:
		return say("%s: no need is known. As it is the train %s, unevenness %s%s", shown(rules.Unjudged), faultCount(now), uneven, better)
	case cut.AsItIs:
		return say("YES, as it is: the train %s, unevenness %s%s", does, uneven, better)
	case cut.WithSetUp:
		d := st.SetUp()
		return say("YES, with another set-up and nothing cut: with %s the train %s, unevenness %s",
			TurnsAndClicks(d), DoesLoudly(d.Verdict.Code, shown), Percent(d.Torque.Unevenness))
	}
	return say("NO: as it is the train %s and %s. Another spring comes first (evenpull choose); %s", does, faultCount(now), cutWould(st))
}

// cutWould tells whether a cone that was cut would do.
func cutWould(st *cut.Study) string {
	after := st.After.Standing()
	return cmp.Or(
		where(st.Nothing, "%s", cutNone(st)),
		where(st.Advised(), "%s would do as well, and is advised", cutting(st)),
		where(after.Worthwhile(), "%s would do, and is not advised", cutting(st)),
		say("%s would not do: the train then %s", cutting(st), fares(&st.After.Digest)))
}

// cutNone tells why nothing is cut.
func cutNone(st *cut.Study) string {
	return cmp.Or(
		where(st.Refused == nil, "the cone is even for this spring already"),
		where(st.Least.Fault == nil, "with this set-up no even cone can be cut within this one"),
		"no even cone can be cut within this one")
}

func cutting(st *cut.Study) string {
	return either(st.FromBlank, "this new cone", "cutting the cone")
}

// CutAdvice tells whether cutting is advised, with rule and figure.
func CutAdvice(st *cut.Study) string {
	f, a := st.Finding(), &st.Now.Advice
	if !f.Advised {
		return either(st.FromBlank, "no new cone is advised: ", "nothing is advised to be cut: ") + whyNoCut(st, f)
	}
	return say("%s is advised where no other spring is fitted: %sthe unevenness falls to %s of what it is, and %s or less is worth it (advice.cut_gain), and the cone is not said to be historic (advice.historic)", cutting(st),
		where(!st.FromBlank, "at most %s of the diameter comes off, and up to %s may (advice.cut_at_most), ", Percent(st.After.Share), Percent(a.CutAtMost)),
		Percent(f.Figure), Percent(a.CutGain))
}

func whyNoCut(st *cut.Study, f rules.Finding) string {
	return cmp.Or(where(st.Nothing, "%s", cutNone(st)), map[rules.Rule]string{
		rules.HistoricCone:  "the cone is historic (advice.historic)",
		rules.SetUpFirst:    "another set-up comes first, and does",
		rules.NothingFirst:  "the train suits as it is",
		rules.BetterVerdict: "with the even cone the train " + fares(&st.After.Digest),
		rules.TurnsToSpare:  say("with the even cone only %v turns of the spring are to spare when the fusee is wound, and %v are wanted (advice.turns_to_spare)", f.Figure, f.Limit),
		rules.CutAtMost:     say("up to %s of the diameter would come off, and at most %s may (advice.cut_at_most)", Percent(f.Figure), Percent(f.Limit)),
		rules.CutGain:       say("the unevenness would fall only to %s of what it is; %s or less would be worth it (advice.cut_gain)", Percent(f.Figure), Percent(f.Limit)),
	}[f.Rule])
}

// CutRefused tells why no even cone can be cut within the present one, and what
// would let one be cut; "" when one can.
func CutRefused(st *cut.Study) string {
	want := cmp.Or(
		where(st.Binding, "a spring with more turns than %v, or fewer fusee turns: it is the spring that leaves no room for a larger cone", st.Now.Spring.Available),
		"a larger cone, or a spring that suits this one")
	return where(st.Refused != nil, "%v; want %s%s", st.Refused, want, where(st.Least.Fault == nil, "; or leave --keep-set-up out"))
}

// CutWayFaults tells what is wrong with the ways.
func CutWayFaults(st *cut.Study) []string {
	var says told
	add := func(way string, err error) {
		says.when(err != nil && (st.Refused == nil || err.Error() != st.Refused.Error()), "%s: %v", way, err)
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
	cutPresent = "cut, with the present set-up"
	cutLeast   = "cut, with the set-up that takes least off"
)

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
	advised := st.Search != nil && st.Search.Advised != nil
	add(either(advised, "set-up advised, nothing cut", "most even set-up, nothing cut"), st.SetUp(), nil)
	switch {
	case st.FromBlank:
		add("a new cone from blank", &st.After.Digest, nil)
	case !st.Nothing || st.Refused != nil:
		add(cutPresent, &st.Present.Digest, st.Present.Fault)
		add(cutLeast, &st.Least.Digest, st.Least.Fault)
	}
	return names, ways
}
