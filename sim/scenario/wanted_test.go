package scenario

import (
	"math"
	"strings"
	"testing"
)

// wantedFusee is a cone that is not there yet, with every limit that it can have.
const wantedFusee = `[train.fusee]
profile = "wanted"
runtime_at_least_h = 30
height_at_most_mm = 33
diameter_at_most_in = 1.34
diameter_at_least_mm = 9
end_margin_mm = 1.5
reserve_wanted = 1.3
`

// wantedClock wants a cone, and leaves out the set-up.
var wantedClock = strings.Replace(chainClock[:strings.Index(chainClock, "[train.fusee]")], "set_up_turns = 1.25\n", "", 1) + wantedFusee

func TestWanted(t *testing.T) {
	s := mustRead(t, wantedClock)
	f := s.Trains[0].Fusee
	if f.Profile != Wanted || Given(f.Turns) || Given(f.PitchMM) || Given(s.Trains[0].Barrel.SetUpTurns) || f.RuntimeAtLeastH != 30 || math.Abs(f.DiameterAtMostMM-34.036) > 1e-9 || f.HeightAtMostMM != 33 ||
		f.DiameterAtLeastMM != 9 || f.EndMarginMM != 1.5 || f.ReserveWanted != 1.3 {
		t.Errorf("%+v", f)
	}
	s = mustRead(t, strings.Replace(wantedClock, "end_margin_mm = 1.5\n", "turns = 8\n", 1))
	if f := s.Trains[0].Fusee; f.EndMarginMM != UsualMarginMM || f.Turns != 8 {
		t.Errorf("%+v", f)
	}
	if all := chainAssumes(s); !strings.Contains(all, "fusee.end_margin_mm = 2 (common practice)\n") {
		t.Error(all)
	}
}

func TestWantedFaults(t *testing.T) {
	for _, c := range []struct{ old, now, want string }{
		{`"wanted"`, `"even"`, `found in a profile that does not take it; want it left out: limits are those of profile = "wanted"`},
		{`"wanted"`, `"even"`, "going.fusee.turns: missing; want a number from 0.5 to "},
		{`"wanted"`, `"even"`, "going.fusee.pitch_mm: missing; want a number from 0.1 to 100 mm"},
		{`"wanted"`, `"even"`, "going.barrel.set_up_turns: missing; want a number from 0 to 60 turns"},
		{"least_mm = 9", "least_mm = 35", "going.fusee.diameter_at_least_mm: found 35; want less than diameter_at_most_mm, 34.036 mm"},
		{"margin_mm = 1.5", "margin_mm = 16.5", "going.fusee.height_at_most_mm: found 33; want more than the two end margins, 33 mm"},
		{"most_mm = 33", "most_in = 33", "is it height_at_most_mm = 33?"},
		{"profile", "diameters_mm = [10, 20]\nprofile", "going.fusee.diameters_mm: found in a profile that does not take it; want it left out: a cone that is wanted has none yet"},
		{"profile", "points = [[0, 10], [2, 12], [3, 13]]\nprofile", "going.fusee.points: found in a profile that does not take it"},
		{"profile", "large_diameter_mm = 20\nprofile", "going.fusee.large_diameter_mm: found in a profile that does not take it; want it left out: a cone that is wanted has none yet"},
		{"reserve_wanted = 1.3", "reserve_wanted = 0", "going.fusee.reserve_wanted: found 0; want a number from 0.1 to 100"},
	} {
		_, err := read(strings.Replace(wantedClock, c.old, c.now, 1))
		if got := message(err); !strings.Contains(got, c.want) {
			t.Errorf("%s for %s: got\n%s\nwant\n%s", c.now, c.old, got, c.want)
		}
	}
}
