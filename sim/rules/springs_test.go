package rules

import (
	"slices"
	"testing"
)

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

// Shares that suit are equal within the rule of the greatest of their class, not of their
// neighbour: a chain of small steps does not make the last equal to the first.
func TestClasses(t *testing.T) {
	a := DefaultAdvice() // equal within 0.03
	for _, c := range []struct {
		shares []float64
		want   []int
	}{
		{nil, nil},
		{[]float64{0.5}, []int{0}},
		{[]float64{0.90, 0.87, 0.86}, []int{0, 0, 1}}, // just within is within
		{[]float64{0.86, 0.90, 0.88}, []int{1, 0, 0}}, // whatever their order
		{[]float64{0.90, 0.88, 0.86, 0.84}, []int{0, 0, 1, 1}},
		{[]float64{0, 0, 1}, []int{1, 1, 0}},
	} {
		if got := a.Classes(c.shares); !slices.Equal(got, c.want) {
			t.Errorf("%v: %v, want %v", c.shares, got, c.want)
		}
	}
	a.EqualWithin = 0
	if got := a.Classes([]float64{0.9, 0.9, 0.899}); !slices.Equal(got, []int{0, 0, 1}) {
		t.Errorf("where only the same is equal: %v", got)
	}
}

// Of springs that can be ordered the surest stands first, before the least change; it does
// not stand before one that suits, has no fault and leaves the turns to spare.
func TestSurestStandsFirst(t *testing.T) {
	a := DefaultAdvice()
	surer := Standing{Code: Suits, Unevenness: 0.2, Spare: 1.5, Clicks: 20}
	nearer := Standing{Code: Suits, Unevenness: 0.01, Spare: 1.5, Clicks: 14, Class: 1}
	if order, by := a.Decide(14, &surer, &nearer); order != -1 || by != SurestToSuit {
		t.Errorf("%d by %d", order, by)
	}
	for _, c := range []struct {
		change func(*Standing)
		by     Rule
	}{{func(s *Standing) { s.Code = Strong }, BetterVerdict}, {func(s *Standing) { s.Faults = 1 }, BetterVerdict}, {func(s *Standing) { s.Spare = 0.5 }, TurnsToSpare}} {
		s := surer
		c.change(&s)
		if order, by := a.Decide(14, &s, &nearer); order != 1 || by != c.by {
			t.Errorf("%+v: %d by %d", s, order, by)
		}
	}
	// Of two that do not suit the surer comes before the better verdict.
	thin, strong := Standing{Code: Thin, Spare: 2}, Standing{Code: Strong, Spare: 2, Class: 1}
	if order, by := a.Decide(14, &thin, &strong); order != -1 || by != SurestToSuit {
		t.Errorf("%d by %d", order, by)
	}
}

// Where no torque reaches the margin the verdict is at best thin; one that is worse,
// or not judged, stays so.
func TestAtBestThin(t *testing.T) {
	for code, want := range map[Code]Code{Unjudged: Unjudged, Stops: Stops, Thin: Thin, Suits: Thin, Strong: Thin, Overdriven: Overdriven} {
		if got := AtBestThin(code); got != want {
			t.Errorf("%v: %v, want %v", code, got, want)
		}
	}
}

// A spring is cut shorter for a share that suits larger by the rule's figure, never for a
// worse verdict, and never where that leaves too few turns to spare that it had.
func TestShorten(t *testing.T) {
	a := DefaultAdvice()
	suits, thin := Standing{Code: Suits, Spare: 1.5}, Standing{Code: Thin, Spare: 1.5}
	short := Standing{Code: Suits, Spare: 0.5}
	for _, c := range []struct {
		whole, cut Standing
		rise       float64
		want       bool
	}{
		{suits, suits, 0.05, true}, {suits, suits, 0.049, false}, {thin, suits, 0.2, true}, {suits, thin, 0.2, false},
		{suits, short, 0.2, false}, {short, short, 0.2, true}, {short, suits, 0.2, true},
	} {
		if got := a.Shorten(&c.whole, &c.cut, 0.7, 0.7+c.rise); got != c.want {
			t.Errorf("%+v", c)
		}
	}
}
