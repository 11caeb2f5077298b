package scenario

import (
	"math"
	"slices"
	"strings"
	"testing"
)

const lengthKey = "going.mainspring.length_mm"

// without gives the pendulum clock with lines of its drive replaced.
func withoutLength(t *testing.T, replace ...string) (*Scenario, error) {
	t.Helper()
	text := strings.Replace(pendulumClock, "length_mm = 1650\n", "", 1)
	for i := 0; i < len(replace); i += 2 {
		if !strings.Contains(text, replace[i]) {
			t.Fatalf("no %q", replace[i])
		}
		text = strings.Replace(text, replace[i], replace[i+1], 1)
	}
	return Read(strings.NewReader(text), "c.toml")
}

// A length that was left out fills half the barrel as its coils pack, π/8 (D² − d²)/kh, and
// may be anything that fills 0.42 to 0.55 of it; where turns were counted they tell it.
func TestLengthLeftOut(t *testing.T) {
	s, err := withoutLength(t)
	if err != nil {
		t.Fatal(err)
	}
	half := math.Pi / 8 * (45*45 - 15*15) / (1.05 * 0.38)
	q, err := s.Quantity(lengthKey)
	if v, _ := s.Value(lengthKey); err != nil || math.Abs(*v-half) > 1e-9*half || q.Given ||
		math.Abs(q.Usual.Lo-0.84*half) > 1e-9*half || math.Abs(q.Usual.Hi-1.1*half) > 1e-9*half {
		t.Errorf("%v: %+v", err, q)
	}
	wantAssumed(t, s, "train going: mainspring.length_mm = 1772 (half the barrel filled, 1488 to 1949; common practice)")

	if s, err = withoutLength(t, "packing = 1.05", "solid_turns = 8.3"); err != nil {
		t.Fatal(err)
	}
	wantAssumed(t, s, "train going: mainspring.length_mm = 1483 (solid at 8.3 turns; 1299 to 1695 by packing; or 2104)")
	wantAssumed(t, s, "train going: mainspring.packing = 1.065 (common practice)")
	if q, err := s.Quantity(lengthKey); err != nil || q.Given || !q.Usual.Exact() {
		t.Errorf("what tells it is off, not the length: %v, %+v", err, q)
	}
	fromCoils, err := withoutLength(t, "packing = 1.05", "solid_turns = 8.3", "yield_mpa = 1620", "free_coils = 7")
	if err != nil || fromCoils.Trains[0].Mainspring.LengthMM < 1400 {
		t.Errorf("%v: %+v", err, fromCoils)
	}
	packed, err := withoutLength(t, "packing = 1.05", "packing = 1.02\nsolid_turns = 8.3")
	if err != nil {
		t.Fatal(err)
	}
	wantAssumed(t, packed, "train going: mainspring.length_mm = 1342 (solid at 8.3 turns; 1299 to 1443 by packing; or 2391)")

	// Set, it is given, and the count tells the packing.
	for _, s := range []*Scenario{s, packed} {
		if err := s.Apply([]string{lengthKey + "=1600"}); err != nil {
			t.Fatal(err)
		}
		m := &s.Trains[0].Mainspring
		if q, _ := s.Quantity(lengthKey); !q.Given || Given(m.Packing) || m.SolidTurns != 8.3 || q.Usual != withinPercent(1) {
			t.Errorf("%+v: %+v", m, q)
		}
		if slices.ContainsFunc(s.Assumed, func(a Assumption) bool {
			return strings.Contains(a.Key, "length_mm") && a.Key != "barrel.outside_length_mm"
		}) {
			t.Error(s.Assumed)
		}
	}
}

func wantAssumed(t *testing.T, s *Scenario, want string) {
	t.Helper()
	for _, a := range s.Assumed {
		if a.String() == want {
			return
		}
	}
	t.Errorf("not assumed: %s\n%v", want, s.Assumed)
}

// What no length makes, or nothing tells, is a fault of what was given.
func TestNoSuchLength(t *testing.T) {
	for want, replace := range map[string][]string{
		"c.toml:10: going.mainspring.solid_turns: found 9.4; want at most 8.51, the most that a strip of this thickness makes in this barrel at any length, with packing = 1.065": {"packing = 1.05", "solid_turns = 9.4"},
		"c.toml:10: going.mainspring.solid_turns: found 0.2; want more than 0.7971":                                                                                               {"packing = 1.05", "solid_turns = 0.2", "natural_form = \"set\"\nyield_mpa = 1620\n", "free_coils = 6\nnatural_form = \"even\"\n"},
		"c.toml:10: going.mainspring.solid_turns: found 6; want length_mm, or fewer free coils":                                                                                   {"packing = 1.05", "solid_turns = 6", "yield_mpa = 1620", "free_coils = 90"},
		"c.toml:5: going.mainspring.thickness_mm: missing; want a number from 0.02 to 10 mm":                                                                                      {"thickness_mm = 0.38\n", ""},
		"c.toml:7: going.mainspring.thickness_mm: found -1; want a number from 0.02 to 10 mm":                                                                                     {"thickness_mm = 0.38\n", "thickness_mm = -1\n", "packing = 1.05", "solid_turns = 6"},
		"c.toml:17: going.barrel.arbor_diameter_mm: found 46; want less than inside_diameter_mm, 45 mm":                                                                           {"arbor_diameter_mm = 15", "arbor_diameter_mm = 46"},
		"c.toml:10: going.mainspring.packing: found 3; want a number from 1 to 2":                                                                                                 {"packing = 1.05", "packing = 3"},
		"c.toml:5: going.mainspring.width_mm: missing; want a number from 0.5 to 500 mm":                                                                                          {"width_mm = 36\n", "", "inside_height_mm = 38\n", ""},
	} {
		if _, err := withoutLength(t, replace...); message(err) != want {
			t.Errorf("got  %s\nwant %s", message(err), want)
		}
	}
}

// A height that was not measured leaves a millimetre beside the spring, and gives the line
// its room; a study of another width leaves it as it is.
func TestInsideHeightLeftOut(t *testing.T) {
	s, err := swap(t, pendulumClock, "inside_height_mm = 38\n", "")
	if err != nil {
		t.Fatal(err)
	}
	wantAssumed(t, s, "train going: barrel.inside_height_mm = 37 (from the width of the mainspring and 1 mm)")
	wantAssumed(t, s, "train going: barrel.outside_length_mm = 37 (from the inside height)")
	follow := s.Following("going.mainspring.width_mm")
	s.Trains[0].Mainspring.WidthMM = 30
	if follow(); s.Trains[0].Barrel.InsideHeightMM != 37 || s.Trains[0].Barrel.OutsideLengthMM != 37 {
		t.Errorf("%+v", s.Trains[0].Barrel)
	}
	if err := s.Set("going.mainspring.width_mm", "30"); err != nil || s.Trains[0].Barrel.OutsideLengthMM != 31 {
		t.Errorf("%v: %+v", err, s.Trains[0].Barrel)
	}
}

// A value is written into the text of a scenario without length, also the length itself.
func TestEditWithoutLength(t *testing.T) {
	text := strings.Replace(pendulumClock, "length_mm = 1650\n", "solid_turns = 8.3\n", 1)
	text = strings.Replace(text, "packing = 1.05\n", "", 1)
	for key, v := range map[string]float64{"going.mainspring.thickness_mm": 0.37, lengthKey: 1500, "going.mainspring.solid_turns": 8.2} {
		if edited, err := Edit(text, []Change{{Key: key, Value: v}}); err != nil {
			t.Errorf("%s: %v\n%s", key, err, edited)
		}
	}
	text = strings.Replace(text, "solid_turns = 8.3\n", "", 1)
	edited, err := Edit(text, []Change{{Key: lengthKey, Value: 1500}})
	if err != nil || !strings.Contains(edited, "[train.mainspring]\nlength_mm = 1500.0\n") {
		t.Errorf("%v\n%s", err, edited)
	}
}
