package setup

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"
)

func search(t testing.TB, name string, number int, replace ...string) (*Study, sim.Train) {
	t.Helper()
	s, trains := trial.Compile(t, name, replace...)
	st, err := Run(context.Background(), s, number)
	if err != nil {
		t.Fatal(err)
	}
	return st, trains[number]
}

// with is a train run down with another set-up; an even cone stays as it was cut.
func with(t testing.TB, tr sim.Train, setUp float64) *sim.Result {
	t.Helper()
	w, err := tr.Drive.Wind()
	if err != nil {
		t.Fatal(err)
	}
	tr.Drive.Cone = w.CutCone()
	tr.Drive.Barrel.SetUp = setUp
	r, err := tr.Run(sim.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// No click that leaves the turns to spare is less uneven than the best, every
// figure is that of a run, and the range holds what is within 10 % of the best.
func TestBestIsBest(t *testing.T) {
	for _, c := range []struct {
		name   string
		number int
	}{{"eight-day", 0}, {"too-strong", 0}, {"too-weak", 0}, {"strike-quick", 0}, {"three-trains", 1}} {
		st, tr := search(t, c.name, c.number)
		for i := range st.Curve {
			d := &st.Curve[i]
			r := with(t, tr, float64(i)/12)
			if r.Torque.Unevenness != d.Torque.Unevenness || r.Verdict != d.Verdict || r.TurnsLost != 0 || r.Faults != d.Faults {
				t.Errorf("%s: click %d: %v, by a run %v", c.name, i, d.Torque, r.Torque)
			}
			if st.spares(d) && d.Torque.Unevenness < st.Best.Torque.Unevenness {
				t.Errorf("%s: %v at click %d, best %v", c.name, d.Torque.Unevenness, i, st.Best.Torque.Unevenness)
			}
			x := d.Spring.SetUp
			within := d.Torque.Unevenness <= math.Max(1.1*st.Best.Torque.Unevenness, 0.001)
			if inside := st.Range.Contains(x); inside && !within && x != st.Now.Spring.SetUp {
				t.Errorf("%s: click %d is in the range at %v", c.name, i, d.Torque.Unevenness)
			}
		}
		if clicks := st.Best.Spring.SetUp * 12; math.Abs(clicks-math.Round(clicks)) > 1e-9 {
			t.Errorf("%s: %v clicks", c.name, clicks)
		}
		if r := with(t, tr, st.Most+1e-6); r.TurnsLost == 0 {
			t.Errorf("%s: more than %v turns of set-up still let the fusee be wound", c.name, st.Most)
		}
		if spared := st.spares(&st.Best); !st.Range.Contains(st.Best.Spring.SetUp) || spared != st.spares(&st.Curve[0]) {
			t.Errorf("%s: best at %v, range %v", c.name, st.Best.Spring.SetUp, st.Range)
		}
	}
}

// An even cone is cut for one set-up and is most even with that: along it
// ∫M dφ = C(n − θ), which holds from there only.
func TestEvenConeWantsItsSetUp(t *testing.T) {
	st, _ := search(t, "three-trains", 2) // the quarters have an even cone
	if st.Best.Spring.SetUp != st.Now.Spring.SetUp || st.Best.Torque.Unevenness > 1e-8 || !st.Range.Contains(st.Now.Spring.SetUp) || !st.Trifling() {
		t.Errorf("best %+v, now %+v, range %v", st.Best.Spring, st.Now.Spring, st.Range)
	}
	if st.Advised != nil || st.First() != rules.Nothing {
		t.Errorf("%+v", st.Finding)
	}
}

// What is advised follows from the rules: the verdict, the turns to spare, the
// gain.
func TestAdvised(t *testing.T) {
	for _, c := range []struct {
		name    string
		replace []string
		first   rules.Step
		rule    rules.Rule
		advised bool
	}{
		{"eight-day", nil, rules.Nothing, rules.SetUpPoints, false},
		{"too-weak", nil, rules.AnotherSetUp, rules.BetterVerdict, true},
		{"eight-day", []string{"set_up_turns        = 1.25", "set_up_turns        = 2.25"}, rules.AnotherSetUp, rules.TurnsToSpare, true},
		{"eight-day", []string{"set_up_turns        = 1.25", "set_up_turns        = 0.75"}, rules.AnotherSetUp, rules.BetterVerdict, true},
		{"eight-day", []string{"set_up_turns        = 1.25", "set_up_turns        = 1.17"}, rules.AnotherSetUp, rules.SetUpGain, true},
		{"eight-day", []string{"set_up_turns        = 1.25", "set_up_turns        = 1.24"}, rules.Nothing, rules.SetUpPoints, false},
	} {
		st, _ := search(t, c.name, 0, c.replace...)
		if st.First() != c.first || st.Finding.Rule != c.rule || (st.Advised != nil) != c.advised || st.Finding.Advised != c.advised {
			t.Errorf("%s %q: first %v, %+v, advised %v", c.name, c.replace, st.First(), st.Finding, st.Advised != nil)
		}
	}
}

func TestNoRoom(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day", "length_mm    = 1650.0", "length_mm    = 700.0")
	if _, err := Run(context.Background(), s, 0); !errors.Is(err, ErrNoRoom) {
		t.Errorf("%v", err)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	s, _ = trial.Compile(t, "eight-day")
	if _, err := Run(ctx, s, 0); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

// What the spring has is told when it is too little, and a scenario that cannot be run
// is refused.
func TestRefused(t *testing.T) {
	s, trains := trial.Compile(t, "eight-day", "length_mm    = 1650.0", "length_mm    = 700.0")
	r, err := trains[0].Run(sim.Options{})
	if err != nil {
		t.Fatal(err)
	}
	_, err = Run(context.Background(), s, 0)
	if want := fmt.Sprintf("(it has %.3g)", r.Spring.Available); err == nil || !strings.HasSuffix(err.Error(), want) {
		t.Errorf("%v, want %s", err, want)
	}
	s.Trains[0].Mainspring.LengthMM = 1e6
	if st, err := Run(context.Background(), s, 0); err == nil || errors.Is(err, ErrNoRoom) || st != nil {
		t.Errorf("%v: %+v", err, st)
	}
}
