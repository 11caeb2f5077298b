package rules

import (
	"math/rand/v2"
	"testing"
)

func standing(code Code, faults int, unevenness, left, clicks float64) *Standing {
	return &Standing{Code: code, Faults: faults, Unevenness: unevenness, Spare: left, Clicks: clicks}
}

// The rules of another set-up, each at its edge.
func TestAnotherSetUp(t *testing.T) {
	a := DefaultAdvice()
	for _, c := range []struct {
		what      string
		now, then *Standing
		want      Finding
	}{
		{"too few turns left", standing(Stops, 1, 0.3, 3, 12), standing(Suits, 0, 0.01, 0.99, 15), Finding{false, TurnsToSpare, 0.99, 1}},
		{"the same", standing(Suits, 0, 0.3, 2, 12), standing(Suits, 0, 0.3, 2, 12), Finding{false, NothingFirst, 0, 0}},
		{"a better verdict", standing(Thin, 0, 0.01, 3, 12), standing(Suits, 0, 0.09, 1, 15), Finding{true, BetterVerdict, 0, 0}},
		{"a worse verdict", standing(Suits, 0, 0.3, 3, 12), standing(Strong, 0, 0.01, 2, 15), Finding{false, BetterVerdict, 0, 0}},
		{"fewer faults", standing(Suits, 2, 0.01, 3, 12), standing(Suits, 1, 0.01, 2, 15), Finding{true, BetterVerdict, 1, 0}},
		{"more faults", standing(Suits, 0, 0.3, 3, 12), standing(Suits, 1, 0.01, 2, 15), Finding{false, BetterVerdict, -1, 0}},
		{"turns to spare again", standing(Suits, 0, 0.01, 0.5, 15), standing(Suits, 0, 0.02, 1.2, 7), Finding{true, TurnsToSpare, 1.2, 1}},
		{"a fifth and two points", standing(Suits, 0, 0.125, 3, 12), standing(Suits, 0, 0.09375, 2, 15), Finding{true, SetUpGain, 0.25, 0.2}},
		{"less than a fifth", standing(Suits, 0, 0.25, 3, 12), standing(Suits, 0, 0.21875, 2, 15), Finding{false, SetUpGain, 0.125, 0.2}},
		{"less than two points", standing(Suits, 0, 0.03125, 3, 12), standing(Suits, 0, 0.015625, 2, 15), Finding{false, SetUpPoints, 0.015625, 0.02}},
		{"not judged", standing(Unjudged, 0, 0.5, 3, 12), standing(Unjudged, 0, 0.25, 2, 15), Finding{true, SetUpGain, 0.5, 0.2}},
	} {
		if got := a.AnotherSetUp(c.now, c.then); got != c.want {
			t.Errorf("%s: %+v, want %+v", c.what, got, c.want)
		}
	}
	a.SetUpGainPoints = 0.01
	if f := a.AnotherSetUp(standing(Suits, 0, 0.03125, 3, 12), standing(Suits, 0, 0.015625, 2, 15)); !f.Advised || f.Figure != 0.5 {
		t.Errorf("%+v", f)
	}
}

// What is gained is enough when it is just as much as the figures ask for.
func TestJustEnoughGained(t *testing.T) {
	a := DefaultAdvice()
	a.SetUpGainPoints, a.SetUpGain = 0.03125, 0.25
	now := standing(Suits, 0, 0.125, 3, 12)
	if f := a.AnotherSetUp(now, standing(Suits, 0, 0.09375, 3, 15)); f != (Finding{true, SetUpGain, 0.25, 0.25}) {
		t.Errorf("%+v", f)
	}
	a.SetUpGain = 0.26
	if f := a.AnotherSetUp(now, standing(Suits, 0, 0.09375, 3, 15)); f.Advised || f.Rule != SetUpGain {
		t.Errorf("%+v", f)
	}
}

// A better verdict beats a worse one whatever the faults, and with the same verdict
// fewer faults do; what is not judged is beaten by its faults alone.
func TestBeats(t *testing.T) {
	for _, c := range []struct {
		s, t *Standing
		want bool
	}{
		{standing(Suits, 3, 0.3, 0, 12), standing(Strong, 0, 0, 3, 12), true}, {standing(Strong, 0, 0, 3, 12), standing(Suits, 3, 0.3, 0, 12), false},
		{standing(Thin, 1, 0.3, 0, 12), standing(Thin, 2, 0, 3, 12), true}, {standing(Thin, 2, 0, 3, 12), standing(Thin, 1, 0, 3, 12), false},
		{standing(Suits, 0, 0, 3, 12), standing(Suits, 0, 0.3, 0, 12), false},
		{standing(Suits, 1, 0, 3, 12), standing(Unjudged, 1, 0, 3, 12), false}, {standing(Unjudged, 0, 0, 3, 12), standing(Suits, 1, 0, 3, 12), true},
	} {
		if got := c.s.Beats(c.t); got != c.want {
			t.Errorf("%+v beats %+v: %v", *c.s, *c.t, got)
		}
	}
}

func TestFirst(t *testing.T) {
	a := DefaultAdvice()
	good, worse := standing(Suits, 0, 0.02, 2, 12), standing(Strong, 0, 0.02, 2, 12)
	for _, c := range []struct {
		now, setUp *Standing
		want       Step
	}{
		{good, good, Nothing}, {standing(Thin, 0, 0.1, 2, 9), good, AnotherSetUp}, {standing(Overdriven, 0, 0.3, 2, 9), worse, AnotherSpring},
		{standing(Suits, 1, 0.1, 2, 9), good, AnotherSetUp}, {standing(Suits, 0, 0.1, 2, 9), good, AnotherSetUp}, {standing(Suits, 1, 0.02, 2, 12), standing(Suits, 1, 0.02, 2, 12), AnotherSpring},
		{standing(Unjudged, 0, 0.02, 2, 12), standing(Unjudged, 0, 0.02, 2, 12), Nothing}, {standing(Unjudged, 1, 0.02, 2, 9), standing(Unjudged, 1, 0.02, 2, 12), AnotherSpring},
	} {
		if got := a.First(c.now, c.setUp); got != c.want {
			t.Errorf("%+v, set up %+v: %v, want %v", c.now, c.setUp, got, c.want)
		}
	}
}

func TestOrderable(t *testing.T) {
	a := DefaultAdvice()
	for _, c := range []struct {
		s    *Standing
		want Finding
	}{
		{standing(Suits, 0, 0.3, 1, 12), Finding{true, TurnsToSpare, 1, 1}}, {standing(Suits, 0, 0.3, 0.75, 12), Finding{false, TurnsToSpare, 0.75, 1}},
		{standing(Suits, 1, 0, 3, 12), Finding{false, BetterVerdict, 1, 0}}, {standing(Strong, 0, 0, 3, 12), Finding{false, BetterVerdict, 0, 0}},
		{standing(Unjudged, 0, 0, 3, 12), Finding{false, BetterVerdict, 0, 0}},
	} {
		if got := a.Order(c.s); got != c.want {
			t.Errorf("%+v: %+v, want %+v", c.s, got, c.want)
		}
	}
}

func TestCutting(t *testing.T) {
	a, historic := DefaultAdvice(), DefaultAdvice()
	historic.Historic = true
	weak, cut := standing(Thin, 0, 0.25, 2, 12), standing(Suits, 0, 0.0625, 2, 12)
	for _, c := range []struct {
		what              string
		a                 *Advice
		now, setUp, after *Standing
		off               float64
		want              Finding
	}{
		{"historic", &historic, weak, weak, cut, 0.05, Finding{false, HistoricCone, 0, 0}},
		{"suits already", &a, standing(Suits, 0, 0.25, 2, 12), standing(Suits, 0, 0.25, 2, 12), cut, 0.05, Finding{false, NothingFirst, 0, 0}},
		{"a set-up does", &a, weak, standing(Suits, 0, 0.2, 2, 15), cut, 0.05, Finding{false, SetUpFirst, 0, 0}},
		{"not even then", &a, weak, weak, standing(Thin, 0, 0.01, 2, 12), 0.05, Finding{false, BetterVerdict, 0, 0}},
		{"with a fault", &a, weak, weak, standing(Suits, 2, 0.01, 2, 12), 0.05, Finding{false, BetterVerdict, 2, 0}},
		{"too few turns", &a, weak, weak, standing(Suits, 0, 0.01, 0.5, 12), 0.05, Finding{false, TurnsToSpare, 0.5, 1}},
		{"too much", &a, weak, weak, cut, 0.125, Finding{false, CutAtMost, 0.125, 0.1}},
		{"as much as may be", &a, weak, weak, cut, 0.1, Finding{true, CutGain, 0.25, 0.5}},
		{"half is enough", &a, weak, weak, standing(Suits, 0, 0.125, 2, 12), 0.05, Finding{true, CutGain, 0.5, 0.5}},
		{"too little gained", &a, weak, weak, standing(Suits, 0, 0.1875, 2, 12), 0.05, Finding{false, CutGain, 0.75, 0.5}},
		{"not judged", &a, standing(Unjudged, 0, 0.25, 2, 12), standing(Unjudged, 0, 0.25, 2, 12), standing(Unjudged, 0, 0.0625, 2, 12), 0.05, Finding{true, CutGain, 0.25, 0.5}},
	} {
		if got := c.a.Cutting(c.now, c.setUp, c.after, c.off); got != c.want {
			t.Errorf("%s: %+v, want %+v", c.what, got, c.want)
		}
	}
}

// Springs in their order: each stands before the next by one thing alone.
func TestCompare(t *testing.T) {
	a := DefaultAdvice()
	list := []*Standing{
		standing(Suits, 0, 0.02, 2, 13), standing(Suits, 0, 0.03, 2, 11), standing(Suits, 0, 0.01, 2, 9), standing(Suits, 0, 0.01, 0.5, 12),
		standing(Suits, 1, 0, 2, 12), standing(Strong, 0, 0, 2, 12), standing(Thin, 0, 0, 2, 12), standing(Overdriven, 0, 0, 2, 12), standing(Stops, 0, 0, 2, 12), standing(Unjudged, 0, 0, 2, 12),
	}
	for i, s := range list {
		for k, u := range list {
			if got, want := a.Compare(12, s, u), sign(i-k); got != want {
				t.Errorf("%+v and %+v: %d, want %d", *s, *u, got, want)
			}
		}
	}
}

func sign(n int) int {
	switch {
	case n < 0:
		return -1
	case n > 0:
		return 1
	}
	return 0
}

// What is advised is never worse, and leaves the turns to spare; nothing is advised
// of what it advised already.
func TestAdviceIsStable(t *testing.T) {
	a := DefaultAdvice()
	random := rand.New(rand.NewPCG(3, 4))
	draw := func() *Standing {
		return standing(Code(random.IntN(6)), random.IntN(3), random.Float64()/4, 3*random.Float64(), float64(random.IntN(30)))
	}
	for range 50000 {
		now, then := draw(), draw()
		if f := a.AnotherSetUp(now, then); f.Advised {
			if !a.Spares(then.Spare) || now.Beats(then) {
				t.Fatalf("%+v to %+v: %+v", now, then, f)
			}
			if a.Spares(now.Spare) && a.AnotherSetUp(then, now).Advised {
				t.Fatalf("%+v and %+v: each in place of the other", now, then)
			}
		}
		after := draw()
		if f := a.Cutting(now, then, after, random.Float64()/5); f.Advised && (!a.Spares(after.Spare) || !after.Worthwhile() || now.Sound()) {
			t.Fatalf("%+v, %+v, %+v: %+v", now, then, after, f)
		}
	}
}
