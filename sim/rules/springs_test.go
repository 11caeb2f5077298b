package rules

import "testing"

// Springs stand in the order of model and table: verdict, freedom from faults, turns to
// spare, least change of the present set-up, unevenness; and what decided is told.
func TestDecide(t *testing.T) {
	a := DefaultAdvice()
	good := Standing{Code: Suits, Unevenness: 0.02, Spare: 1.5, Clicks: 15}
	with := func(change func(*Standing)) Standing {
		s := good
		change(&s)
		return s
	}
	for _, c := range []struct {
		s    Standing
		want int
		by   Rule
	}{
		{good, 0, NoRule},
		{with(func(s *Standing) { s.Code = Strong }), 1, BetterVerdict},
		{with(func(s *Standing) { s.Code, s.Unevenness = Thin, 0 }), 1, BetterVerdict},
		{with(func(s *Standing) { s.Faults, s.Unevenness = 1, 0 }), 1, BetterVerdict},
		{with(func(s *Standing) { s.Spare, s.Clicks = 0.99, 14 }), 1, TurnsToSpare},
		{with(func(s *Standing) { s.Spare = 1 }), 0, NoRule},                            // enough is enough
		{with(func(s *Standing) { s.Clicks, s.Unevenness = 14, 0.5 }), -1, LeastChange}, // the present 14 stay
		{with(func(s *Standing) { s.Clicks, s.Unevenness = 16, 0 }), 1, LeastChange},
		{with(func(s *Standing) { s.Clicks, s.Unevenness = 13, 0.01 }), -1, LeastUneven}, // as far on the other side
		{with(func(s *Standing) { s.Clicks = 15 + 1e-9 }), 0, NoRule},
		{with(func(s *Standing) { s.Unevenness = 0.021 }), 1, LeastUneven},
	} {
		order, by := a.Decide(14, &c.s, &good)
		back, also := a.Decide(14, &good, &c.s)
		if order != c.want || by != c.by || back != -c.want || also != c.by || a.Compare(14, &c.s, &good) != c.want {
			t.Errorf("%+v: %d by %d, back %d by %d; want %d by %d", c.s, order, by, back, also, c.want, c.by)
		}
	}
	two, one := with(func(s *Standing) { s.Faults = 2 }), with(func(s *Standing) { s.Faults = 1 })
	if order, by := a.Decide(15, &two, &one); order != 0 || by != NoRule {
		t.Errorf("two faults against one: %d by %d", order, by)
	}
}

// What is ordered suits, has no fault and leaves the turns to spare.
func TestOrder(t *testing.T) {
	a := DefaultAdvice()
	for _, c := range []struct {
		s    Standing
		want Finding
	}{
		{Standing{Code: Suits, Spare: 1}, Finding{true, TurnsToSpare, 1, 1}},
		{Standing{Code: Suits, Spare: 0.9}, Finding{false, TurnsToSpare, 0.9, 1}},
		{Standing{Code: Suits, Spare: 2, Faults: 2}, Finding{false, BetterVerdict, 2, 0}},
		{Standing{Code: Thin, Spare: 2}, Finding{Rule: BetterVerdict}},
		{Standing{Spare: 2}, Finding{Rule: BetterVerdict}},
	} {
		if got := a.Order(&c.s); got != c.want {
			t.Errorf("%+v: %+v, want %+v", c.s, got, c.want)
		}
	}
}

func TestSteps(t *testing.T) {
	for s, want := range map[Step]string{Nothing: "nothing", AnotherSetUp: "another set-up", AnotherSpring: "another spring", 9: "step 9"} {
		if s.String() != want {
			t.Errorf("%s, want %s", s, want)
		}
	}
}
