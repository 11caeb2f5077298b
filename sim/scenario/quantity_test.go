package scenario

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
)

func TestQuantities(t *testing.T) {
	s := mustRead(t, fullText(t))
	all := s.Quantities()
	byKey := map[string]Quantity{}
	for _, q := range all {
		if _, twice := byKey[q.Key]; twice {
			t.Error(q.Key, "twice")
		}
		byKey[q.Key] = q
		v, err := s.Value(q.Key)
		if err != nil {
			t.Error(err)
		} else if *v < q.Lo || *v > q.Hi {
			t.Errorf("%s = %v outside [%v, %v]", q.Key, *v, q.Lo, q.Hi)
		}
	}
	for _, want := range []Quantity{
		{"place.gravity_m_s2", "acceleration of gravity", "g", "m/s²", true, 1, 30, ReadingError{}, "", ""},
		{"verdict.thin_below", "least reserve below which a train is thin", "", "", true, 0.01, 100, ReadingError{}, "", ""},
		{"going.mainspring.thickness_mm", "thickness of the going mainspring", "h", "mm", true, 0.02, 10, within(0.01), "", ""},
		{"striking.mainspring.poisson", "Poisson's ratio of the striking mainspring", "ν", "", false, 0, 0.5, ReadingError{}, "", ""},
		{"going.fusee.diameters_mm.16", "diameter of the going fusee at turn 16 from the small end", "", "mm", true, 0.5, 2000, within(0.1), "going.fusee.diameters_mm", "groove diameters of the going fusee"},
		{"going.mesh.escape.efficiency", "efficiency of the mesh that drives the escape arbor of the going train", "η", "", false, 0.01, 1, within(0.02), "", ""},
		{"going.pendulum.decay.periods", "periods of the free swing of the going pendulum", "N", "periods", true, 1, 1e6, withinPercent(10), "", ""},
		{"striking.strike.hammers.1.lift_mm", "lift of hammer 1 of the striking train", "", "mm", true, 0.01, 1000, withinPercent(3), "", ""},
		{"striking.fly.drag_coefficient", "drag coefficient of the striking fly", "Cd", "", true, 0.01, 10, withinTimes(1.4), "", ""},
		{"striking.demand.torque_band_nm.1", "greatest torque liked of the striking train", "", "N·m", true, 1e-6, 1e4, ReadingError{}, "", ""},
	} {
		if got := byKey[want.Key]; got != want {
			t.Errorf("got %+v, want %+v", got, want)
		}
	}
	for _, absent := range []string{"going.mainspring.free_coils", "going.mesh.third.efficiency", "going.mesh.centre.wheel",
		"going.demand.torque_band_nm.0", "striking.barrel.lay_mm", "going.fly.width_mm"} {
		if _, ok := byKey[absent]; ok {
			t.Error(absent, "has no value")
		}
	}
	if !slices.Equal(all, s.Quantities()) {
		t.Error("the order is not stable")
	}
}

// TestQuantitiesOfEqualNames: two loads at one arbor have KEYs of their own.
func TestQuantitiesOfEqualNames(t *testing.T) {
	s := mustRead(t, edited(t, edit{1, "[train.escapement]", "[[train.load]]\narbor = \"centre\"\ntorque_nm = 0.5\n[train.escapement]"}))
	v, err := s.Value("going.load.centre#2.torque_nm")
	if err != nil || *v != 0.5 {
		t.Error(err)
	}
	if !slices.ContainsFunc(s.Quantities(), func(q Quantity) bool { return q.Key == "going.load.centre#2.torque_nm" }) {
		t.Error("the second load is not among the quantities")
	}
}

func TestValue(t *testing.T) {
	s := mustRead(t, fullText(t))
	v, err := s.Value("going.fusee.diameters_mm.3")
	if err != nil {
		t.Fatal(err)
	}
	*v = 20
	if s.Trains[0].Fusee.DiametersMM[3] != 20 {
		t.Error("the pointer does not point into the scenario")
	}
	for key, want := range map[string]string{
		"going.mainspring.free_coils": "found no value; want one set first: a number from 0 to 200 coils",
		"going.mesh.centre.wheel":     "found what is no real number; want the key of a quantity that can vary",
		"title":                       "found what is no real number; want the key of a quantity that can vary",
		"going.fusee.diameters_mm":    "found several numbers; want the place of one after it, such as going.fusee.diameters_mm.0",
		"going.fly.width_mm":          "found no value; want one set first: the scenario has no such table",
		"going.mainspring.width":      "unknown key; did you mean going.mainspring.width_mm?",
	} {
		if _, err := s.Value(key); message(err) != "--set "+key+": "+want {
			t.Errorf("got %v, want %s", err, want)
		}
	}
}

// headerLine finds the headers and the keys of the full scenario, those of
// inline tables too.
var headerLine = regexp.MustCompile(`(?m)^(\[+[a-z._]+\]+)|^([a-z_0-9]+) *=|([a-z_0-9]+) =`)

// inPlace are keys in place of what stands in the full scenario.
var inPlace = []string{"[train.pendulum] quality", "[train.pendulum] beats_per_minute", "[train.mainspring] solid_turns", "[train.escapement] recoil_ratio",
	"[train.pendulum.decay] lasts_s",
	"[train.strike.timed] torque_nm", "[train.strike.timed] blow_interval_s", "[train.strike.timed] twelve_s"}

// TestFieldsAgreeWithTheFormat: every key of the list is used in the full
// scenario or the one with keys of our own, and every key of the scenario is in the list, and is read: a file
// without it says so or reads differently.
func TestFieldsAgreeWithTheFormat(t *testing.T) {
	data, err := os.ReadFile("testdata/full-format.toml")
	if err != nil {
		t.Fatal(err)
	}
	used := map[string]bool{}
	header := ""
	for _, m := range headerLine.FindAllStringSubmatch(string(data)+chainClock[strings.Index(chainClock, "[[train]]"):]+strings.ReplaceAll(wantedFusee, "most_in", "most_mm")+pendulumClock[strings.Index(pendulumClock, "[[train]]"):]+quarterTrain[strings.Index(quarterTrain, "[[train]]"):]+lostSpring, -1) {
		switch {
		case m[1] != "":
			header = m[1]
		case strings.Contains("mass_g lift_mm spring_n", m[2]+m[3]) && header == "[train.strike]":
			used["[[train.strike.hammers]] "+m[2]+m[3]] = true
		case strings.Contains("from_deg to_deg periods", m[2]+m[3]):
			used["[train.pendulum.decay] "+m[2]+m[3]] = true
		case m[2]+m[3] != "decay" && m[2]+m[3] != "hammers":
			used[header+" "+m[2]+m[3]] = true
		}
	}
	for _, f := range Fields() {
		id := f.Table + " " + f.Key
		if !used[id] && !slices.Contains(inPlace, id) {
			t.Errorf("%s is not in the full scenario", id)
		}
		delete(used, id)
		if f.Meaning == "" || f.Accepts == "" || f.Type == "" || f.Default == "" || f.Words == "" || strings.ContainsAny(f.Words, "{}_") {
			t.Errorf("%s is not fully described: %+v", id, f)
		}
	}
	for id := range used {
		t.Errorf("%s is in the full scenario and not in the list of keys", id)
	}
}

func TestFieldsSample(t *testing.T) {
	want := []Field{
		{"[[train]]", "kind", "kind of the train", "", "", "choice", "required", `"going" or "striking"`, 0, 0, ReadingError{}, "what the train does"},
		{"[train.barrel]", "outside_length_mm", "outside length of the barrel", "", "mm", "number", "the inside height", "a number from 0.5 to 2000 mm", 0.5, 2000,
			ReadingError{}, "room for the line"},
		{"[train.barrel]", "lay_mm", "lay of the line along the barrel", "", "mm", "number", "follows the fusee", "a number from 0.1 to 100 mm", 0.1, 100,
			ReadingError{}, "advance of the line along the barrel for each barrel turn"},
		{"[[train.mesh]]", "wheel", "teeth of the wheel of a mesh", "Z", "", "whole number", "required", "a whole number from 2 to 10000", 2, 10000, ReadingError{}, "teeth of the wheel"},
		{"[train.mainspring]", "bending", "bending of the mainspring", "", "", "choice", `"wide"`, `"wide", "strip" or "plate"`, 0, 0, ReadingError{},
			"as wide as it is, or for comparison as a narrow strip or a plate"},
		{"[train.demand]", "blow_interval_s", "blow interval wanted of the train", "", "s", "pair", "[ 0.8, 1.6 ]", "two rising numbers from 0.01 to 100 s, such as [ 0.8, 1.6 ]", 0.01, 100,
			ReadingError{}, "striking: the cadence wanted, fastest and slowest"},
		{"[advice]", "historic", "rule that the cone is kept", "", "", "true or false", "false", "true or false", 0, 0, ReadingError{}, "true: the cone is kept, cutting it is never advised"},
	}
	all := Fields()
	for _, w := range want {
		if !slices.Contains(all, w) {
			t.Errorf("no %+v", w)
		}
	}
}

// TestReservedNames: trainLabel's list is that of the KEYs of the whole clock.
func TestReservedNames(t *testing.T) {
	for _, k := range root.keys() {
		if reserved(k) != (k != trains.key) {
			t.Error(k)
		}
	}
}
