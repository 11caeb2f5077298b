package words

import (
	"context"
	"math"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"
	"evenpull/sim/study/cut"
)

func cutStudy(t testing.TB, name string, number int, o cut.Options, replace ...string) *cut.Study {
	t.Helper()
	s, _ := trial.Compile(t, name, replace...)
	if o.Large == 0 {
		o.Large = math.NaN()
	}
	o.Small, o.Anyway = math.NaN(), true
	st, err := cut.Run(context.Background(), s, number, o)
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// said is all that is said of a study.
func said(st *cut.Study) string {
	var all []string
	for _, list := range [][]string{{CutHead(st, Verdict)}, CutWayFaults(st), CutSays(st), CutWarns(st), CutCautions(st)} {
		all = append(all, list...)
	}
	return strings.Join(all, "\n")
}

func TestCutWords(t *testing.T) {
	drive, _ := scenarios.Text("eight-day") // and no need is known of the drive alone
	needs := func(nm string) []string { return []string{"least_torque_nm = 0.33", "least_torque_nm = " + nm} }
	for _, c := range []struct {
		name    string
		number  int
		o       cut.Options
		says    []string
		not     []string
		replace []string
	}{
		{"eight-day", 0, cut.Options{}, []string{
			"going train: does this cone suit this spring? YES, as it is: the train SUITS, unevenness 2.01 %\n", "nothing is advised to be cut: the train suits as it is",
			"wants a set-up of 1.33 turns (16 clicks); it has 1.25 turns (15 clicks), and --keep-set-up", "up to 0.629 mm of diameter come off, at fusee turn 15.78, and nothing at turn 8.08",
			"turn 15.78 lies between the places that were measured", "measure there first", "groove: right-hand, round, 1.70 mm wide and 0.80 mm deep for a line 1.60 mm thick",
			"a spring 0.01 mm thinner: unevenness", "--step 0.25 gives more diameters", "let-down key", "cannot be undone", "eye protection"},
			[]string{"metal is missing", "turns of the spring are to spare", "with the even cone the train"}, nil},
		{"too-weak", 0, cut.Options{KeepSetUp: true}, []string{
			"YES, with another set-up and nothing cut: with 1.25 turns (15 clicks) the train SUITS, unevenness 1.37 %", "another set-up comes first, and does",
			"the even cone below keeps the set-up, 0.50 turns (6 clicks)", "with the even cone the train stops; as it is it stops"}, []string{"as it is: the train SUITS"}, nil},
		{"too-strong", 0, cut.Options{}, []string{
			"NO: as it is the train is OVERDRIVEN and has 1 fault (the spring binds). Another spring comes first (evenpull choose); cutting the cone would do, and is not advised",
			"up to 29.1 % of the diameter would come off, and at most 10.0 % may", "2.43 fusee turns are lost", "less even because it winds those turns too",
			"keeps the set-up, 1.25 turns (15 clicks): with it the train suits and has no fault; with the one that takes least off, 1.00 turns (12 clicks): is strong, has no fault",
			"a larger cone would leave the spring fewer turns to spare", "turns to spare, and 1.00 are wanted"}, []string{"YES", "and nothing at turn"}, needs("0.341")},
		{"strike-quick", 0, cut.Options{Step: 0.5}, []string{
			"NO: as it is the train is OVERDRIVEN and has no fault. Another spring comes first (evenpull choose); cutting the cone would not do: the train then is strong and has no fault",
			"nothing is advised to be cut: with the even cone the train is strong and has no fault", "with the even cone the train is strong; as it is it is overdriven"}, []string{"--step"}, nil},
		{"three-trains", 1, cut.Options{}, []string{"YES, as it is: the train SUITS, unevenness 32.7 %; another set-up is advised: 1.17 turns (14 clicks)"}, []string{"between the whole turns"}, nil},
		{"three-trains", 2, cut.Options{}, []string{"YES, as it is", "the cone is even for this spring already"}, []string{"come off", "the even cone below"}, nil},
		{"eight-day", 0, cut.Options{FromBlank: true, Large: 18e-3}, []string{"no new cone is advised: the train suits as it is", "metal is missing: the new cone is up to 6.80 mm thicker than the present one, at fusee turn 16"}, []string{"the even cone below"}, nil},
		{"eight-day", 0, cut.Options{}, []string{"NO: as it is the train STOPS and has no fault", "cutting the cone would not do: the train then stops", "with the even cone the train stops; as it is it stops"}, nil, needs("0.5")},
		{"eight-day", 0, cut.Options{}, []string{"NOT JUDGED: no need is known. As it is the train has no fault, unevenness 2.01 %", "demand.least_torque_nm", "weights on a pulley at the winding square"}, []string{"NO:", "YES"}, []string{drive[strings.Index(drive, "# The wheels"):], ""}},
		{"eight-day", 0, cut.Options{}, []string{"NO: as it is", "no even cone can be cut within this one", "mm at fusee turn", "want a spring with more turns than", "another set-up alone: the fusee takes more turns"},
			[]string{"leave --keep-set-up out", "cut, least metal:"}, []string{"length_mm    = 1650.0", "length_mm    = 300.0"}},
		{"eight-day", 0, cut.Options{KeepSetUp: true}, []string{"YES, with another set-up", "want a larger cone", "; or leave --keep-set-up out", "with this set-up no even cone can be cut"}, nil, []string{"set_up_turns        = 1.25", "set_up_turns = 0.05"}},
		{"eight-day", 0, cut.Options{}, []string{"cut, same set-up: without set-up the torque falls to nothing"}, nil, []string{"set_up_turns        = 1.25", "set_up_turns = 0.0"}},
		{"eight-day", 0, cut.Options{}, []string{"the land between two turns of the groove is 0.100 mm; less than 0.200 breaks out", "groove: right-hand, square, 1.60 mm wide, as the chain is"}, nil, []string{`"gut"  `, `"chain"`, "pitch_mm           = 2.2", "pitch_mm = 1.7"}},
	} {
		got := said(cutStudy(t, c.name, c.number, c.o, c.replace...))
		for _, says := range c.says {
			if !strings.Contains(got, says) {
				t.Errorf("%s %+v: no %q in\n%s", c.name, c.o, says, got)
			}
		}
		for _, not := range append(c.not, "NaN", "−0.00", "Inf") {
			if strings.Contains(got, not) {
				t.Errorf("%s %+v: %q in\n%s", c.name, c.o, not, got)
			}
		}
	}
}

// Whether cutting is advised is told with rule and figure, whichever decides.
func TestCutAdvice(t *testing.T) {
	base := cutStudy(t, "too-strong", 0, cut.Options{}, "least_torque_nm = 0.33", "least_torque_nm = 0.341")
	base.Now.Advice.CutAtMost = 0.4
	for _, c := range []struct {
		change func(st *cut.Study)
		says   string
	}{
		{func(*cut.Study) {}, "cutting the cone is advised where no other spring is fitted: at most 29.1 % of the diameter comes off, and up to 40.0 % may, the unevenness falls to < 0.01 % of what it is, and 50.0 % or less is worth it, and the cone is not said to be historic"},
		{func(st *cut.Study) { st.FromBlank = true }, "this new cone is advised where no other spring is fitted: the unevenness falls to"},
		{func(st *cut.Study) { st.Now.Advice.Historic = true }, "the cone is historic"},
		{func(st *cut.Study) { st.Now.Advice.CutAtMost = 0.25 }, "up to 29.1 % of the diameter would come off, and at most 25.0 % may"},
		{func(st *cut.Study) { st.After.Torque.Unevenness = 0.9 * st.Now.Torque.Unevenness }, "the unevenness would fall only to 90.0 % of what it is; 50.0 % or less would be worth it"},
		{func(st *cut.Study) { st.Now.Advice.TurnsToSpare = 1.5 }, "with the even cone only 1.00 turns of the spring are to spare when the fusee is wound, and 1.50 are wanted"},
		{func(st *cut.Study) { st.After.Verdict.Code = rules.Thin }, "with the even cone the train is thin and has no fault"},
	} {
		st := *base
		c.change(&st)
		if got := CutAdvice(&st); !strings.Contains(got, c.says) {
			t.Errorf("no %q in %q", c.says, got)
		}
	}
	if got := CutAnswer(base, Verdict); !strings.HasSuffix(got, "cutting the cone would do as well, and is advised") {
		t.Error(got)
	}
}

// A way that cannot be had has a name and no run.
func TestCutWays(t *testing.T) {
	none := cutStudy(t, "eight-day", 0, cut.Options{}, "length_mm    = 1650.0", "length_mm    = 300.0")
	ways := CutWays(none)
	if len(ways) != 4 || ways[0].Run != &none.Now || ways[1].Run != nil || ways[2].Run != nil || ways[3].Run != nil {
		t.Errorf("%v", ways)
	}
	weak := cutStudy(t, "too-weak", 0, cut.Options{})
	ways = CutWays(weak)
	if ways[1].Name != "set-up advised" || ways[1].Run.Spring.SetUp != 1.25 || ways[2].Run != &weak.Present.Digest || ways[3].Run != &weak.Least.Digest ||
		ways[0].Off != 0 || ways[1].Off != 0 || ways[2].Off != weak.Present.Removed || ways[3].Off != weak.Least.Removed || !(ways[3].Off > 0) {
		t.Errorf("%v", ways)
	}
	if ways = CutWays(cutStudy(t, "three-trains", 2, cut.Options{})); len(ways) != 2 || ways[1].Name != "most even set-up" {
		t.Errorf("%v", ways)
	}
	if ways = CutWays(cutStudy(t, "eight-day", 0, cut.Options{FromBlank: true})); len(ways) != 3 || ways[2].Name != "a new cone from blank" {
		t.Errorf("%v", ways)
	}
}

// What is not advised to be cut is not shown, unless it is asked for: neither what comes off
// nor the groove.
func TestCutNotShown(t *testing.T) {
	st := cutStudy(t, "eight-day", 0, cut.Options{})
	st.Anyway = false
	got := said(st)
	for _, no := range []string{"mm of diameter", "groove:", "take the least metal"} {
		if strings.Contains(got, no) {
			t.Errorf("%s in\n%s", no, got)
		}
	}
	if !strings.Contains(got, "the even cone is not shown; --anyway shows it") {
		t.Error(got)
	}
	if st.FromBlank = true; !strings.Contains(said(st), "groove:") {
		t.Error(said(st))
	}
}
