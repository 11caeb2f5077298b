package scenario

import (
	"fmt"
	"strings"
	"testing"
)

// TestQuantity: a KEY's Quantity is that of the list; its errors are Value's.
func TestQuantity(t *testing.T) {
	s := mustRead(t, quarterTrain)
	for _, want := range s.Quantities() {
		if got, err := s.Quantity(want.Key); err != nil || got != want {
			t.Errorf("%+v (%v), want %+v", got, err, want)
		}
	}
	for _, key := range []string{"quarters.strike.pins", "quarters.strike.pin_set.1.lifts.0", "quarters.line.breaking_n", "title", "", "quarters"} {
		q, err := s.Quantity(key)
		_, same := s.Value(key)
		if q != (Quantity{}) || err == nil || err.Error() != message(same) {
			t.Errorf("%s: %+v, %v and %v", key, q, err, same)
		}
	}
	want := "--set quarters.strike.pin_set.1.lifts.0: found numbers that stand for names; want the key of a quantity that can vary"
	if _, err := s.Value("quarters.strike.pin_set.1.lifts.0"); message(err) != want {
		t.Error(err)
	}
}

// TestNearKeys: what is suggested for a KEY that names nothing.
func TestNearKeys(t *testing.T) {
	s := mustRead(t, fullText(t))
	for key, want := range map[string]string{
		"going.mainspring.thickness":       "unknown key; did you mean going.mainspring.thickness_mm?",
		"thickness_mm":                     "unknown key; did you mean going.mainspring.thickness_mm?",
		"thickness":                        "unknown key; did you mean going.mainspring.thickness_mm?",
		"mainspring.length":                "unknown key; did you mean going.mainspring.length_mm?",
		"striking.thickness_mm":            "unknown key; did you mean striking.mainspring.thickness_mm?",
		"striking.mass_g":                  "unknown key; did you mean striking.strike.hammers.1.mass_g?",
		"striking.strike.hammer.1.mass_g":  "unknown key; did you mean striking.strike.hammers.1.mass_g?",
		"strikng.barrel.set_up_turns":      "unknown key; did you mean striking.barrel.set_up_turns?",
		"going.fly.width":                  "unknown key; did you mean going.fly.width_mm?",
		"going.fly.width_mm":               "found no value; want one set first: the scenario has no such table",
		"going.mainspring.colour":          "unknown key; after going.mainspring may follow width_mm, thickness_mm, length_mm, modulus_gpa and 12 more: \"evenpull help keys\"",
		"going.mesh.centre.wheel":          "found what is no real number; want the key of a quantity that can vary",
		"going.mesh.centre":                "found the name of a table; want one of its keys: wheel, pinion, drives, efficiency, friction_coefficient, drag_nm",
		"tolerance":                        "found no quantity of the clock; want the key of a quantity that can vary",
		"striking.fusee.diameters_mm.0":    "found no value; want the whole list set first: a list of numbers from 0.5 to 2000 mm",
		"going.demand.torque_band_nm.1":    "found no value; want one set first: two rising numbers from 0.000001 to 10000 N·m, such as [ 0.4, 0.6 ]",
		"striking.demand.torque_band_nm.2": `found "2"; want a place from 0 to 1`,
	} {
		if _, err := s.Quantity(key); message(err) != "--set "+key+": "+want {
			t.Errorf("got %v, want %s: %s", err, key, want)
		}
	}
}

// TestManyNearKeys: a misspelt KEY is compared with no more than some of the
// KEYs of a large scenario, or with those of its train.
func TestManyNearKeys(t *testing.T) {
	s := mustRead(t, pendulumClock)
	one := s.Trains[0]
	for n := range MaxTrains - 1 {
		one.Name = fmt.Sprint("going", n)
		s.Trains = append(s.Trains, one)
	}
	if err := s.Check(); err != nil {
		t.Fatal(err)
	}
	ofTrain := 0 // keys that the format has for a train, those of its arrays once
	for _, f := range Fields() {
		if strings.Contains(f.Table, "train") {
			ofTrain++
		}
	}
	for key, most := range map[string]int{"gong.mainspring.thickness_mm": maxNear + 20, "going7.mainspring.thicknes": ofTrain} {
		tg, err := s.resolve(key, false)
		if err == nil {
			t.Fatal(key)
		}
		present, absent := tg.around()
		if n := len(present) + len(absent); n > most || n < most*9/10 {
			t.Errorf("%s: %d KEYs, want at most %d", key, n, most)
		}
	}
	if _, err := s.Value("going7.mainspring.thicknes"); message(err) != "--set going7.mainspring.thicknes: unknown key; did you mean going7.mainspring.thickness_mm?" {
		t.Error(err)
	}
}
