package words

import (
	"strings"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"
)

// What a sureness means counts the clocks that end as is said first, and is silent without
// draws.
func TestMeant(t *testing.T) {
	var d sim.Digest
	if got := Meant(&d); got != "" {
		t.Errorf("%q", got)
	}
	d.Verdict.Sureness = sim.Sureness{Draws: 100, Same: 0.84, Else: rules.Thin, ElseIn: 0.16}
	if got := Meant(&d); !strings.HasSuffix(got, ", 84 would be judged so") {
		t.Errorf("%q", got)
	}
	d.Verdict.Sureness = sim.Sureness{Draws: 100, Same: 0.4, Else: rules.Thin, ElseIn: 0.6}
	if got := Meant(&d); !strings.HasSuffix(got, ", 60 would be judged so") {
		t.Errorf("%q", got)
	}
}

// Trains that run down together are told so; else the first comes first, and one alone is
// not told of.
func TestRunDown(t *testing.T) {
	clock := func(name string, replace ...string) *sim.Clock {
		s, _ := trial.Compile(t, name, replace...)
		c, err := sim.RunClock(s, sim.Options{})
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	if got := RunDown(clock("three-trains")); got != "all trains together, after 192 h, 8.00 days" {
		t.Errorf("%q", got)
	}
	if got := RunDown(clock("eight-day")); got != "" {
		t.Errorf("%q", got)
	}
	c := clock("three-trains")
	c.Trains[1].Digest.TurnsLost = 4
	if got := RunDown(c); !strings.HasPrefix(got, "the "+c.Trains[1].Name+" train after 144 h, 6.00 days; the ") || strings.Count(got, ";") != 2 {
		t.Errorf("%q", got)
	}
}

// Only of a train that strikes is told where the work of a blow goes.
func TestStrikesBy(t *testing.T) {
	for name, want := range map[string]int{"eight-day": 0, "strike-quick": 2} {
		_, trains := trial.Compile(t, name)
		if got := StrikesBy(&trial.Run(t, trains)[0]); len(got) != want || want > 0 && !strings.HasPrefix(got[0], "a blow takes ") {
			t.Errorf("%s: %q", name, got)
		}
	}
}
