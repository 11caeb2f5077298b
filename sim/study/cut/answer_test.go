package cut

import (
	"fmt"
	"math"
	"strings"
	"testing"

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
		nothing bool
		replace []string
	}{
		{"eight-day", 0, AsItIs, false, nil}, {"too-weak", 0, ByTheSetUp, false, nil}, {"too-strong", 0, ByTheCutter, false, nil},
		{"three-trains", 1, ByTheCutter, false, nil}, {"three-trains", 2, AsItIs, true, nil}, {"eight-day", 0, Never, false, short},
		{"strike-quick", 0, Never, false, nil}, // strong even when cut
		{"eight-day", 0, SpringAtFault, false, needs(0.5)}, {"eight-day", 0, SpringAtFault, false, needs(0.1)}, {"eight-day", 0, SpringAtFault, false, needs(0.4)},
	} {
		st := study(t, c.name, c.number, Options{}, c.replace...)
		if st.Suits() != c.want || st.Nothing != c.nothing {
			t.Errorf("%s: %v, nothing %v", c.name, st.Suits(), st.Nothing)
		}
		if want := !c.nothing && c.want <= ByTheCutter; st.Advised() != want {
			t.Errorf("%s: advised to be cut %v", c.name, st.Advised())
		}
		if st.Nothing && (st.Deepest != 0 || st.After.Removed != 0) {
			t.Errorf("%s: %v comes off", c.name, st.Deepest)
		}
		if !st.Nothing && !(st.Least.Removed > 0 && st.Least.Removed <= st.Present.Removed*(1+1e-6)) {
			t.Errorf("%s: %v m³ with the best set-up, %v with the present one", c.name, st.Least.Removed, st.Present.Removed)
		}
	}
	if st := study(t, "eight-day", 0, Options{}, "set_up_turns        = 1.25", "set_up_turns = 0.0"); st.Present.Fault == "" || st.After.Torque.Unevenness > 1e-4 {
		t.Errorf("without set-up: %+v", st.Present)
	}
}

// A cone too slim for any even profile, and a spring that leaves room for none, are
// answered as far as they can be.
func TestNoneCanBeCut(t *testing.T) {
	thin := "  13.0, 13.4, 13.7, 14.1, 14.6, 15.0, 15.4, 16.0, 16.5,\n  17.2, 17.9, 18.8, 19.6, 21.0, 22.7, 25.6, 31.5,"
	slim := strings.Repeat("6.5, ", 17)
	for _, c := range []struct {
		o       Options
		replace []string
		says    string
	}{
		{Options{}, []string{thin, slim}, "want a larger cone"},
		{Options{KeepSetUp: true, Step: 0.25}, []string{thin, slim}, "want a larger cone"},
		{Options{}, []string{"length_mm    = 1650.0", "length_mm    = 300.0"}, "want a spring with more turns than"},
	} {
		st := study(t, "eight-day", 0, c.o, c.replace...)
		if st.Suits() != Never || st.Advised() || st.Deepest != 0 || !st.Nothing || !strings.Contains(st.Refused, "mm at fusee turn") || !strings.Contains(st.Refused, c.says) {
			t.Errorf("%v: suits %v, %q", c.replace, st.Suits(), st.Refused)
		}
		for i := range st.Rows {
			if r := &st.Rows[i]; r.Diameter != r.Now || r.Remove != 0 || math.IsNaN(r.Torque) != math.IsNaN(r.TorqueBefore) {
				t.Errorf("%+v", r)
			}
		}
	}
	// What cannot be cut with the set-up kept may be cut with another.
	kept := study(t, "eight-day", 0, Options{KeepSetUp: true}, "set_up_turns        = 1.25", "set_up_turns = 0.05")
	if kept.Suits() > ByTheCutter || !strings.Contains(kept.Refused, "leave --keep-set-up out") {
		t.Errorf("suits %v, %q", kept.Suits(), kept.Refused)
	}
}

// The cone to cut is the one with which the train suits, whatever metal it takes.
func TestTheOneThatSuitsIsCut(t *testing.T) {
	st := study(t, "too-strong", 0, Options{})
	if !st.Kept || st.Least.Verdict != rules.Strong || st.After.Verdict != rules.Suits || st.After.SetUp != st.AsItIs.SetUp || !(st.After.Removed > st.Least.Removed) {
		t.Errorf("kept %v, %v with least off, %v cut", st.Kept, st.Least.Verdict, st.After.Verdict)
	}
	same := study(t, "too-strong", 0, Options{KeepSetUp: true})
	for i := range st.Rows {
		if st.Rows[i].Diameter != same.Rows[i].Diameter {
			t.Errorf("turn %d: %v, %v with the set-up kept", i, st.Rows[i].Diameter, same.Rows[i].Diameter)
		}
	}
	if weak := study(t, "too-weak", 0, Options{}); weak.Kept || weak.After.Verdict != rules.Suits {
		t.Errorf("too weak: kept %v, %v", weak.Kept, weak.After.Verdict)
	}
	// The greatest share of the diameter, by the rows alone.
	least := 1.0
	for i := range st.Rows {
		least = min(least, st.Rows[i].Diameter/st.Rows[i].Now)
	}
	if !(st.Share > muchOff && math.Abs(st.Share-(1-least)) < 0.01) {
		t.Errorf("share %v, %v by the rows", st.Share, 1-least)
	}
}
