package scenario

import (
	"strings"
	"testing"
)

// swap gives the base scenario with one piece of text replaced.
func swap(t *testing.T, text, old, with string) (*Scenario, error) {
	t.Helper()
	if !strings.Contains(text, old) {
		t.Fatalf("the text has no %q", old)
	}
	return Read(strings.NewReader(strings.Replace(text, old, with, 1)), "c.toml")
}

// someDrive is the drive of the scenarios here.
const someDrive = `[train.mainspring]
width_mm = 36
thickness_mm = 0.38
length_mm = 1650
natural_form = "set"
yield_mpa = 1620
packing = 1.05
couple_ratio = 1.01
friction_coefficient = 0.1
outer_end = "braced"
[train.barrel]
inside_diameter_mm = 45
inside_height_mm = 38
arbor_diameter_mm = 15
outside_diameter_mm = 49
set_up_turns = 1.25
clicks = 16
[train.line]
kind = "gut"
thickness_mm = 1.6
[train.fusee]
turns = 16
profile = "cone"
small_diameter_mm = 13
large_diameter_mm = 30
pitch_mm = 2.2
`

const pendulumClock = `title = "t"
[[train]]
name = "going"
kind = "going"
` + someDrive + `[[train.mesh]]
wheel = 96
pinion = 8
drives = "escape"
[[train.load]]
arbor = "escape"
torque_nm = 0.001
every_h = 0.5
lasts_min = 10
[train.escapement]
kind = "deadbeat"
teeth = 30
escaping_arc_deg = 3
impulse_late_deg = 0.25
trip_deg = 8
dead_friction = 0.12
pallet_radius_mm = 40
wheel_radius_mm = 25
[train.pendulum]
length_mm = 994
mass_g = 5000
quality = 4000
`

func TestKeysOfOurOwn(t *testing.T) {
	s, err := Read(strings.NewReader(pendulumClock), "c.toml")
	if err != nil {
		t.Fatal(err)
	}
	tr := &s.Trains[0]
	if l := tr.Loads[0]; l.EveryH != 0.5 || l.LastsMin != 10 {
		t.Errorf("load %+v", l)
	}
	if e := tr.Escapement; e.ImpulseLateDeg != 0.25 || e.TripDeg != 8 || e.DeadFriction != 0.12 || e.PalletRadiusMM != 40 || e.WheelRadiusMM != 25 {
		t.Errorf("escapement %+v", e)
	}
	cases := []struct{ old, with, want string }{
		{"lasts_min = 10\n", "", "c.toml:38: going.load.escape.every_h: found without lasts_min; want both or neither"},
		{"every_h = 0.5\n", "", "c.toml:38: going.load.escape.lasts_min: found without every_h; want both or neither"},
		{"lasts_min = 10", "lasts_min = 30", "c.toml:39: going.load.escape.lasts_min: found 30; want less than every_h, 30 min, or neither for a load that stands"},
		{"trip_deg = 8", "trip_deg = 0", "c.toml:45: going.escapement.trip_deg: found 0; want a number from 0.01 to 90 deg"},
		{"impulse_late_deg = 0.25", "impulse_late_deg = 60", "c.toml:44: going.escapement.impulse_late_deg: found 60; want a number from -45 to 45 deg"},
		{"thickness_mm = 0.38", "thickness_mm = 0,38", `c.toml:7: not valid TOML: `},
	}
	for _, c := range cases {
		_, err := swap(t, pendulumClock, c.old, c.with)
		if err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%q: %v, want %s", c.with, err, c.want)
		}
	}
	if _, err := swap(t, pendulumClock, "= 0.38", "= 0,38"); !strings.Contains(err.Error(), "want a decimal point") {
		t.Errorf("a decimal comma: %v", err)
	}
	if s, err := swap(t, pendulumClock, "kind = \"deadbeat\"\nteeth = 30\nescaping_arc_deg = 3\nimpulse_late_deg = 0.25\ntrip_deg = 8\ndead_friction = 0.12\npallet_radius_mm = 40\nwheel_radius_mm = 25",
		"kind = \"recoil\"\nteeth = 30\nescaping_arc_deg = 3\nimpulse_late_deg = 0.25"); err != nil || s.Trains[0].Escapement.ImpulseLateDeg != 0.25 {
		t.Errorf("a value given stays: %v", err)
	}
	if !(Fault{Source: "--set a.b"}).BySet() || (Fault{Source: "a.toml"}).BySet() {
		t.Error("BySet")
	}
}

const quarterTrain = `title = "t"
[[train]]
name = "quarters"
kind = "striking"
` + someDrive + `[[train.mesh]]
wheel = 120
pinion = 8
drives = "pin"
[[train.mesh]]
wheel = 64
pinion = 8
drives = "fly"
[train.strike]
pin_arbor = "pin"
pins = 8
blows_per_12h = 120
lift_share = 0.4
tail_efficiency = 0.9
hammers = [ { mass_g = 20, lift_mm = 10, spring_n = 0.3 }, { mass_g = 25, lift_mm = 12, spring_n = 0.3 } ]
[[train.strike.pin_set]]
pins = 3
lifts = [ 1 ]
[[train.strike.pin_set]]
pins = 4
lifts = [ 1, 2 ]
[[train.strike.pin_set]]
pins = 1
[train.fly]
vanes = 2
width_mm = 26
inner_radius_mm = 0
outer_radius_mm = 14
thickness_mm = 0.6
`

func TestPinSets(t *testing.T) {
	s, err := Read(strings.NewReader(quarterTrain), "q.toml")
	if err != nil {
		t.Fatal(err)
	}
	k := s.Trains[0].Strike
	if len(k.PinSets) != 3 || k.PinSets[1].Pins != 4 || len(k.PinSets[1].Lifts) != 2 || k.PinSets[2].Lifts != nil || k.Tail != 0.9 {
		t.Errorf("%+v", k)
	}
	c := s.Clone()
	c.Trains[0].Strike.PinSets[1].Lifts[0] = 2
	if k.PinSets[1].Lifts[0] != 1 {
		t.Error("a clone shares its pin sets")
	}
	for _, q := range s.Quantities() {
		if strings.Contains(q.Key, "lifts") {
			t.Errorf("%s is no quantity", q.Key)
		}
	}
	for _, c := range []struct{ old, with, want string }{
		{"pins = 4", "pins = 5", "c.toml:41: quarters.strike.pins: found 8; want 9, the pins of all sets of pin_set"},
		{"lifts = [ 1, 2 ]", "lifts = [ 1 ]", "found no set that lifts hammer 2; want every hammer lifted by some pins"},
		{"lifts = [ 1, 2 ]", "lifts = [ 1, 2, 1 ]", "lifts.2: found 1 again; want each hammer once"},
		{"lifts = [ 1, 2 ]", "lifts = [ 1, 3 ]", "want the number of a hammer, 1 to 2"},
		{"lifts = [ 1, 2 ]", "lifts = [ 1, 1.5 ]", "found 1.5; want the number of a hammer, 1 to 2"},
	} {
		if _, err := swap(t, quarterTrain, c.old, c.with); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %s", c.with, err, c.want)
		}
	}
}
