package scenario

import (
	"slices"
	"strings"
	"testing"
)

// TestAdvice: the rules have their defaults, are no quantities of the clock and no
// assumptions about it, and can be set.
func TestAdvice(t *testing.T) {
	s := mustRead(t, pendulumClock)
	if want := (Advice{1, true, 0.2, 0.02, 0.05, 0.03, 0.1, 0.5, false}); s.Advice != want {
		t.Errorf("defaults %+v, want %+v", s.Advice, want)
	}
	if got := assumedOf(s, "advice"); got != "" {
		t.Errorf("assumed of the clock: %s", got)
	}
	if slices.ContainsFunc(s.Quantities(), func(q Quantity) bool { return strings.HasPrefix(q.Key, "advice") }) {
		t.Error("a rule is listed as a quantity of the clock")
	}
	if err := s.Apply([]string{"advice.turns_to_spare=0.5", "advice.historic=true"}); err != nil {
		t.Fatal(err)
	}
	if want := (Advice{0.5, true, 0.2, 0.02, 0.05, 0.03, 0.1, 0.5, true}); s.Advice != want {
		t.Errorf("set %+v, want %+v", s.Advice, want)
	}
	if err := s.Apply([]string{"advice.historic=false"}); err != nil || s.Advice.Historic {
		t.Error("historic stays true:", err)
	}
	for set, want := range map[string]string{
		"advice.historic=1":        "--set advice.historic: found 1; want true or false",
		"advice.historic=\"true\"": `--set advice.historic: found the string "true"; want true or false`,
		"advice.turns_to_spare=21": "--set advice.turns_to_spare: found 21; want a number from 0 to 20 turns",
		"advice.set_up_gain=1.1":   "--set advice.set_up_gain: found 1.1; want a number from 0 to 1",
		"advice.maintaining=true":  "--set advice.maintaining: unknown key; after advice may follow turns_to_spare, note_beyond_handbook, set_up_gain, set_up_gain_points, shorten_gain, equal_within, cut_at_most, cut_gain, historic",
		"going.barrel.clicks=0":    "--set going.barrel.clicks: found 0; want a whole number from 1 to 200",
		"going.barrel.clicks=12.5": "--set going.barrel.clicks: found 12.5; want a whole number from 1 to 200",
		"going.barrel.clicks=201":  "--set going.barrel.clicks: found 201; want a whole number from 1 to 200",
	} {
		if err := s.Apply([]string{set}); message(err) != want {
			t.Errorf("%s: %v, want %s", set, err, want)
		}
	}
	if _, err := swap(t, pendulumClock, `name = "going"`, `name = "advice"`); !strings.Contains(message(err), "want another name") {
		t.Error("a train may be called advice:", err)
	}
}

// TestClicks: the teeth of the ratchet are read, and assumed where they are not told.
func TestClicks(t *testing.T) {
	const clicks = "train going: barrel.clicks"
	s := mustRead(t, pendulumClock)
	if s.Trains[0].Barrel.Clicks != 16 || assumedOf(s, clicks) != "" {
		t.Errorf("%d clicks, assumed: %q", s.Trains[0].Barrel.Clicks, assumedOf(s, clicks))
	}
	s, err := swap(t, pendulumClock, "clicks = 16\n", "")
	if err != nil || s.Trains[0].Barrel.Clicks != 12 || assumedOf(s, clicks) != " = 12 (common practice)" {
		t.Errorf("%+v, assumed: %q, %v", s.Trains[0].Barrel, assumedOf(s, clicks), err)
	}
	if err := s.Set("going.barrel.clicks", "15"); err != nil || s.Trains[0].Barrel.Clicks != 15 || assumedOf(s, clicks) != "" {
		t.Errorf("set: %+v, assumed: %q, %v", s.Trains[0].Barrel, assumedOf(s, clicks), err)
	}
}
