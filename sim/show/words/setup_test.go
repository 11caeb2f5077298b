package words

import (
	"context"
	"strings"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"
	"evenpull/sim/study/setup"
)

func searched(t testing.TB, name string, number int, replace ...string) *setup.Study {
	t.Helper()
	s, _ := trial.Compile(t, name, replace...)
	st, err := setup.Run(context.Background(), s, number)
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// Every finding on a set-up is told with its rule and its figure.
func TestSetUpAdvice(t *testing.T) {
	now := "set_up_turns        = 1.25"
	for _, c := range []struct {
		name    string
		number  int
		replace []string
		says    string
	}{
		{"eight-day", 0, []string{now, "set_up_turns        = 1.3333333333333333"}, "leave the set-up as it is: it is the most even"},
		{"eight-day", 0, []string{now, "set_up_turns        = 1.24"}, "leave the set-up as it is: the most even one would lower the unevenness by only 0."},
		{"eight-day", 0, []string{now, "set_up_turns        = 1.24"}, "of the mean torque; from 2.00 % on that would be worth it"},
		{"eight-day", 0, []string{now, "set_up_turns        = 1.17"}, "another set-up is advised: 1.33 turns (16 clicks) in place of 1.17 turns, which takes 58.2 % of the unevenness away; from 20.0 % on that is worth it"},
		{"eight-day", 0, []string{now, "set_up_turns        = 2.25"}, "another set-up is advised: 1.33 turns (16 clicks) in place of 2.25 turns (27 clicks), which leaves 1.77 turns to spare instead of 0.852; 1.00 are wanted"},
		{"eight-day", 0, []string{now, "set_up_turns        = 0.75"}, "with which the train suits; now it stops"},
		{"too-strong", 0, nil, "leave the set-up as it is: the most even one leaves only 0."},
		{"too-strong", 0, nil, "turns to spare, and 1.00 are wanted"},
		{"strike-quick", 0, nil, "advised until another spring is fitted, since no set-up cures it: 0.75 turns (9 clicks) in place"},
		{"three-trains", 2, nil, "leave the set-up as it is: it is the most even"},
	} {
		if got := SetUpAdvice(searched(t, c.name, c.number, c.replace...)); !strings.Contains(got, c.says) {
			t.Errorf("%s %q: %q, want %q", c.name, c.replace, got, c.says)
		}
	}
	st := searched(t, "eight-day", 0, now, "set_up_turns        = 1.17")
	for rule, says := range map[rules.Rule]string{rules.SetUpGain: "would take only 58.2 % of the unevenness away", rules.BetterVerdict: "no better by its verdict and its faults"} {
		st.Finding.Rule, st.Advised = rule, nil
		if got := SetUpAdvice(st); !strings.Contains(got, says) {
			t.Errorf("%v: %q", rule, got)
		}
	}
}

func TestSetUpSays(t *testing.T) {
	strong := searched(t, "too-strong", 0)
	if head := SetUpHead(strong); head != "going train: "+SetUpAdvice(strong) {
		t.Error(head)
	}
	if best := SetUpBest(strong); !strings.HasPrefix(best, "of the set-ups with which the fusee can be wound the most even is 0.50 turns (6 clicks) of set-up: unevenness 66.") {
		t.Error(best)
	}
	if warns := strings.Join(SetUpWarns(strong), "\n"); strings.Contains(warns, "do not set it up") || // which the advice says
		!strings.Contains(warns, "the spring binds before the fusee is wound, and 2.") {
		t.Error(warns)
	}
	if says := SetUpSays(strong, Verdict); says[1] != "with 0.50 turns (6 clicks): THIN" || !strings.Contains(says[3], "from 0.42 to 0.50 turns the pull stays within 10 % of the best") {
		t.Errorf("%q", says)
	}
	striking := searched(t, "three-trains", 1)
	if head := SetUpBest(striking); !strings.HasPrefix(head, "of the set-ups that leave 1.00 turns to spare the most even is 1.17 turns (14 clicks)") {
		t.Error(head)
	}
	striking.Best.Torque.Unevenness = 0.0005
	if says := SetUpSays(striking, Verdict); !strings.Contains(says[3], "the pull stays as even as anybody could tell, below 0.1 %") {
		t.Errorf("%q", says)
	}
	even := searched(t, "three-trains", 2)
	if says := SetUpSays(even, Verdict); len(says) != 3 || !strings.HasSuffix(says[0], ": SUITS") || !strings.HasSuffix(says[1], "of set-up that it has: unevenness < 0.01 %") {
		t.Errorf("%q", says)
	}
	plain := searched(t, "eight-day", 0, "set_up_turns        = 1.25", "set_up_turns        = 1.5")
	if says := SetUpSays(plain, Verdict); says[0] != "as it is, with 1.50 turns (18 clicks): SUITS" || !strings.HasPrefix(says[1], "with 1.33 turns (16 clicks): SUITS") ||
		!strings.Contains(says[2], "unevenness 1.97 %, against 6.") || !strings.Contains(says[2], "with the 1.50 turns (18 clicks) it has now") ||
		!strings.Contains(says[4], "up to 2.63 turns of set-up") || len(SetUpWarns(plain)) != 0 {
		t.Errorf("%q", says)
	}
}

// A note tells when too few turns are left, and no other command is needed for it.
func TestFewTurnsLeft(t *testing.T) {
	for setUp, want := range map[string]bool{"1.25": false, "2.10": false, "2.11": true, "2.6": true} {
		_, trains := trial.Compile(t, "eight-day", "set_up_turns        = 1.25", "set_up_turns = "+setUp)
		r := trial.Run(t, trains)[0]
		notes := strings.Join(Notes(&r.Digest), "\n")
		if got := strings.Contains(notes, "are to spare when wound"); got != want {
			t.Errorf("%s turns of set-up leave %v: %q", setUp, r.Spare(), notes)
		}
		if want && !strings.Contains(notes, "are to spare when wound, even were its coils ideally packed; 1.00 are wanted (common practice, no source)") {
			t.Error(notes)
		}
	}
}

// The set-ups that are named: what is now, the most even, which is the best unless another is
// advised, and what is advised.
func TestSetUpMarks(t *testing.T) {
	at := func(turns float64) *sim.Digest {
		d := sim.Unknown()
		d.Spring.SetUp = turns
		return &d
	}
	for want, st := range map[string]*setup.Study{
		"now 1, best 2*":                   {Now: *at(1), Best: *at(2)},
		"now 1, best 2* ":                  {Now: *at(1), Best: *at(2), Advised: at(2)},
		"now and best 1*":                  {Now: *at(1), Best: *at(1)},
		"now 1, most even 2, advised 3*":   {Now: *at(1), Best: *at(2), Advised: at(3)},
		"now and most even 1, advised 3* ": {Now: *at(1), Best: *at(1), Advised: at(3)},
	} {
		var got []string
		for _, m := range SetUpMarks(st) {
			got = append(got, m.Name+" "+Turns(m.Run.Spring.SetUp)+Either(m.Chosen, "*", ""))
			if m.Now != strings.HasPrefix(m.Name, "now") {
				t.Errorf("%+v", m)
			}
		}
		if is := strings.Join(got, ", "); is != strings.TrimSpace(want) {
			t.Errorf("%s, want %s", is, want)
		}
	}
}
