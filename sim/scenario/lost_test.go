package scenario

import (
	"strings"
	"testing"
)

// lostSpring stands in place of the spring of a clock.
const lostSpring = "[train.mainspring]\npresent = false\n"

// A spring that is broken or lost leaves its sizes out, and what only it could tell is asked
// for; one that is there does not.
func TestLostSpring(t *testing.T) {
	const spring = "[train.mainspring]\nwidth_mm = 36\nthickness_mm = 0.38\nlength_mm = 1650\nyield_mpa = 1620\n"
	s, err := swap(t, chainClock, spring, lostSpring)
	if err != nil {
		t.Fatal(err)
	}
	m := &s.Trains[0].Mainspring
	if m.Present || Given(m.WidthMM) || Given(m.ThicknessMM) || Given(m.LengthMM) || m.YieldMPa != AssumedYieldMPa || m.Packing != AssumedPacking || s.Check() != nil {
		t.Errorf("%+v, %v", m, s.Check())
	}
	for _, a := range s.Assumed {
		if strings.Contains(a.String(), "present") || strings.Contains(a.String(), "length_mm = NaN") {
			t.Errorf("assumed %s", a)
		}
	}
	back := s.Clone()
	if err := back.Apply([]string{"going.mainspring.present=true"}); err == nil || !strings.Contains(err.Error(), "going.mainspring.width_mm: missing") || !strings.Contains(err.Error(), "going.mainspring.thickness_mm: missing") {
		t.Errorf("there again: %v", err)
	}
	if err := back.Apply([]string{"going.mainspring.present=true", "going.mainspring.width_mm=36", "going.mainspring.thickness_mm=0.38"}); err != nil || !Given(back.Trains[0].Mainspring.LengthMM) {
		t.Errorf("there again, with its sizes: %v", err)
	}
	// What is left of it is read and judged as any.
	if s, err = swap(t, chainClock, "[train.mainspring]\n", lostSpring); err != nil || s.Trains[0].Mainspring.ThicknessMM != 0.38 {
		t.Errorf("with its sizes: %v", err)
	}
	for with, want := range map[string]string{
		"present = false\nwidth_mm = 39\n":  "going.mainspring.width_mm: found 39, 1 mm too wide for the barrel",
		"present = \"no\"\nwidth_mm = 36\n": `going.mainspring.present: found the string "no"; want true or false`,
	} {
		if _, err := swap(t, chainClock, "width_mm = 36\n", with); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %s", with, err, want)
		}
	}
	lost := strings.Replace(chainClock, spring, lostSpring, 1)
	for _, c := range []struct{ old, with, want string }{
		{"inside_height_mm = 38\n", "", "going.barrel.inside_height_mm: missing; want the height between bottom and cover, since no mainspring tells it"},
		{"inside_height_mm = 38\n", "present = false\n", "going.barrel.present: unknown key; it belongs to [train.mainspring]"},
		{"set_up_turns = 1.25\n", "", "going.barrel.set_up_turns: missing"},
	} {
		if _, err := swap(t, lost, c.old, c.with); err == nil || !strings.Contains(err.Error(), c.want) || strings.Contains(err.Error(), "width_mm") {
			t.Errorf("%q: %v, want %s", c.old, err, c.want)
		}
	}
	even, err := swap(t, lost, "set_up_turns = 1.25", "set_up_turns = 1")
	if err != nil {
		t.Fatal(err)
	}
	if err := even.Apply([]string{"going.fusee.profile=even", "going.fusee.small_diameter_mm=18"}); err == nil || !strings.Contains(err.Error(), `going.fusee.profile: found "even" beside mainspring.present = false; want the diameters of the cone`) {
		t.Errorf("even: %v", err)
	}
	for _, key := range StripKeys() {
		if key == "present" {
			t.Error("what was measured of a strip may be absent")
		}
	}
}
