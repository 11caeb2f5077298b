package cut

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"evenpull/fusee"
	"evenpull/sim/rules"
)

func TestSuits(t *testing.T) {
	needs := func(nm float64) []string {
		return []string{"least_torque_nm = 0.33", fmt.Sprintf("least_torque_nm = %v", nm)}
	}
	short := []string{"length_mm    = 1650.0", "length_mm    = 700.0"}
	for _, c := range []struct {
		name    string
		number  int
		want    Answer
		rule    rules.Rule
		nothing bool
		replace []string
	}{
		{"eight-day", 0, AsItIs, rules.NothingFirst, false, nil}, {"too-weak", 0, WithSetUp, rules.SetUpFirst, false, nil}, {"too-strong", 0, OtherSpring, rules.CutAtMost, false, needs(0.341)},
		{"three-trains", 1, AsItIs, rules.SetUpFirst, false, nil}, {"three-trains", 2, AsItIs, rules.NothingFirst, true, nil}, {"eight-day", 0, OtherSpring, rules.BetterVerdict, false, short},
		{"strike-quick", 0, OtherSpring, rules.BetterVerdict, false, nil}, // strong even when cut
		{"eight-day", 0, OtherSpring, rules.BetterVerdict, false, needs(0.5)}, {"eight-day", 0, OtherSpring, rules.BetterVerdict, false, needs(0.1)},
	} {
		st := study(t, c.name, c.number, Options{}, c.replace...)
		if f := st.Finding(); st.Suits() != c.want || st.Nothing != c.nothing || f.Rule != c.rule || f.Advised || st.Advised() {
			t.Errorf("%s %v: %v, nothing %v, %+v", c.name, c.replace, st.Suits(), st.Nothing, f)
		}
		if st.Nothing && (st.After.Deepest != 0 || st.After.Removed != 0) {
			t.Errorf("%s: %v comes off", c.name, st.After.Deepest)
		}
		if !st.Nothing && !(st.Least.Removed > 0 && st.Least.Removed <= st.Present.Removed*(1+1e-6)) {
			t.Errorf("%s: %v m³ with the best set-up, %v with the present one", c.name, st.Least.Removed, st.Present.Removed)
		}
	}
	if st := study(t, "eight-day", 0, Options{}, "set_up_turns        = 1.25", "set_up_turns = 0.0"); st.Present.Fault == nil || st.After.Torque.Unevenness > 1e-4 {
		t.Errorf("without set-up: %+v", st.Present.Fault)
	}
}

// Each rule that may forbid cutting does, from a study in which all allow it.
func TestFinding(t *testing.T) {
	st := study(t, "too-strong", 0, Options{}, "least_torque_nm = 0.33", "least_torque_nm = 0.341")
	st.Now.Advice.CutAtMost = 0.5
	if f := st.Finding(); !st.Advised() || f.Rule != rules.CutGain || math.Abs(f.Figure-st.After.Torque.Unevenness/st.Now.Torque.Unevenness) > 1e-15 || f.Limit != 0.5 {
		t.Fatalf("%+v", f)
	}
	for _, c := range []struct {
		rule   rules.Rule
		change func(st *Study)
	}{
		{rules.HistoricCone, func(st *Study) { st.Now.Advice.Historic = true }},
		{rules.CutAtMost, func(st *Study) { st.Now.Advice.CutAtMost = 0.9 * st.After.Share }},
		{rules.CutGain, func(st *Study) { st.Now.Advice.CutGain = 1e-12 }},
		{rules.TurnsToSpare, func(st *Study) { st.Now.Advice.TurnsToSpare = 1.5 }},
		{rules.BetterVerdict, func(st *Study) { st.After.Verdict.Code = rules.Strong }},
		{rules.BetterVerdict, func(st *Study) { st.After.Faults = 1 }},
		{rules.NothingFirst, func(st *Study) { st.Nothing = true }},
		{rules.NothingFirst, func(st *Study) { st.Now.Verdict.Code, st.Now.Faults = rules.Suits, 0 }},
	} {
		other := *st
		c.change(&other)
		if f := other.Finding(); f.Rule != c.rule || f.Advised {
			t.Errorf("want rule %v: %+v", c.rule, f)
		}
	}
	// Nothing comes off the present cone where a new one is made.
	st.FromBlank, st.Now.Advice.CutAtMost = true, 0
	if !st.Advised() {
		t.Errorf("from blank: %+v", st.Finding())
	}
}

func TestAnswers(t *testing.T) {
	for a, want := range map[Answer]string{NotJudged: "not judged", AsItIs: "as it is", WithSetUp: "with another set-up", OtherSpring: "no", NewCone: "with a new cone", 200: "with a new cone"} {
		if a.String() != want {
			t.Errorf("%d: %s", a, a)
		}
	}
}

// A cone too slim for any even profile, and a spring that leaves room for none, are
// answered as far as they can be.
func TestNoneCanBeCut(t *testing.T) {
	thin := "  13.0, 13.4, 13.7, 14.1, 14.5, 14.9, 15.3, 15.9, 16.3,\n  17.0, 17.6, 18.5, 19.2, 20.4, 21.9, 24.4, 29.2,"
	slim := strings.Repeat("6.5, ", 17)
	for _, c := range []struct {
		o       Options
		replace []string
		binding bool
	}{
		{Options{}, []string{thin, slim}, false},
		{Options{KeepSetUp: true, Step: 0.25}, []string{thin, slim}, false},
		{Options{}, []string{"length_mm    = 1650.0", "length_mm    = 300.0"}, true},
	} {
		st := study(t, "eight-day", 0, c.o, c.replace...)
		if st.Suits() != OtherSpring || st.Advised() || st.After.Deepest != 0 || !st.Nothing || !errors.Is(st.Refused, fusee.ErrThin) || st.Binding != c.binding {
			t.Errorf("%v: suits %v, %v, binding %v", c.replace, st.Suits(), st.Refused, st.Binding)
		}
		for i := range st.Rows {
			if r := &st.Rows[i]; r.Diameter != r.Now || r.Remove != 0 || math.IsNaN(r.Torque) != math.IsNaN(r.TorqueBefore) {
				t.Errorf("%+v", r)
			}
		}
	}
	// What cannot be cut with the set-up kept may be cut with another.
	kept := study(t, "eight-day", 0, Options{KeepSetUp: true}, "set_up_turns        = 1.25", "set_up_turns = 0.05")
	if kept.Suits() != WithSetUp || kept.Refused == nil || kept.Least.Fault != nil {
		t.Errorf("suits %v, %v", kept.Suits(), kept.Refused)
	}
}

// The cone to cut is the one with which the train suits, whatever metal it takes.
func TestTheOneThatSuitsIsCut(t *testing.T) {
	st := study(t, "too-strong", 0, Options{}, "least_torque_nm = 0.33", "least_torque_nm = 0.341")
	if !st.Kept || st.Least.Verdict.Code != rules.Strong || st.After.Verdict.Code != rules.Suits || st.After.Spring.SetUp != st.Now.Spring.SetUp || !(st.After.Removed > st.Least.Removed) {
		t.Errorf("kept %v, %v with least off, %v cut", st.Kept, st.Least.Verdict, st.After.Verdict)
	}
	same := study(t, "too-strong", 0, Options{KeepSetUp: true}, "least_torque_nm = 0.33", "least_torque_nm = 0.341")
	for i := range st.Rows {
		if st.Rows[i].Diameter != same.Rows[i].Diameter {
			t.Errorf("turn %d: %v, %v with the set-up kept", i, st.Rows[i].Diameter, same.Rows[i].Diameter)
		}
	}
	if weak := study(t, "too-weak", 0, Options{}); weak.Kept || weak.After.Verdict.Code != rules.Suits {
		t.Errorf("too weak: kept %v, %v", weak.Kept, weak.After.Verdict)
	}
	// The greatest share of the diameter, by the rows alone.
	least := 1.0
	for i := range st.Rows {
		least = min(least, st.Rows[i].Diameter/st.Rows[i].Now)
	}
	if share := st.After.Share; !(share > 0.1 && math.Abs(share-(1-least)) < 0.01) {
		t.Errorf("share %v, %v by the rows", share, 1-least)
	}
}
