package scenario

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"testing/iotest"
)

// TestReadsEveryKey compares single values with what the file says; the keys
// themselves are compared in TestFieldsAgreeWithTheFormat.
func TestReadsEveryKey(t *testing.T) {
	s := mustRead(t, fullText(t))
	g, st := &s.Trains[0], &s.Trains[1]
	nan := fmt.Sprint
	for _, c := range []struct{ got, want any }{
		{s.Source, "clock.toml"},
		{s.Title, "Invented bracket clock, every key of the format"},
		{s.Place, Place{9.80665, 1.225}},
		{s.Verdict, Bands{1, 1.15, 1.6, 2}},
		{s.Advice, Advice{0.75, false, 0.25, 0.03, 0.06, 0.04, 0.05, 0.4, true}},
		{nan(g.Mainspring), nan(Mainspring{38, 0.4, 1850, 206, "set", 1700, notGiven, "strip", 0.3, notGiven, 1.065, 1, 0.9, notGiven, "", LengthGiven, true})},
		{nan(g.Barrel), nan(Barrel{46, 41, 15, 50, 44, 1, 12, 2, notGiven, notGiven})},
		{g.Line, Line{"gut", 1.8, 1.8, 0.97, 400, 3.5}},
		{len(g.Fusee.DiametersMM), 17},
		{g.Fusee.DiametersMM[16], 36.0},
		{nan(g.Fusee.SmallDiameterMM), "NaN"},
		{nan(g.Meshes), nan([]Mesh{
			{96, 8, "centre", 0.93, notGiven, 0},
			{84, 7, "third", notGiven, 0.12, 0},
			{78, 7, "escape", 0.95, notGiven, 0}})},
		{nan(g.Loads), nan([]Load{{"centre", 0.002, notGiven, notGiven}})},
		{nan(*g.Escapement), nan(Escapement{"recoil", 30, 5, 0.15, 0.8, 0.5, notGiven, notGiven, 1 / (0.8 * 0.95 * 0.8 * 0.95), notGiven, notGiven, notGiven})},
		{nan(*g.Pendulum.Decay), nan(Decay{4, 2, 30, notGiven})},
		{nan(g.Pendulum.Quality), "NaN"},
		{nan(g.Demand), "{0.34 {NaN NaN} {NaN NaN}}"},
		{nan(st.Fusee), nan(Fusee{15.5, "cone", nil, nil, "groove", notGiven, 18, 36, 2.4, notGiven, notGiven, notGiven, notGiven, "right", notGiven, notGiven, notGiven, notGiven, notGiven, notGiven})},
		{*st.Strike, Strike{"pin", 8, 78, 0.35, 1, []Hammer{{45, 22, 0.8}}, nil, nil}},
		{*st.Fly, Fly{2, 24, 0, 18, 0.6, 8500, 1.2, 200}},
		{nan(st.Demand), "{NaN {0.8 1.6} {0.4 0.6}}"},
		{nan(s.Tolerances), nan([]Tolerance{
			{"going.mainspring.thickness_mm", 0.01, notGiven, Normal},
			{"striking.fusee.pitch_mm", notGiven, 0.5, Uniform}})},
	} {
		if !reflect.DeepEqual(c.got, c.want) {
			t.Errorf("got %v, want %v", c.got, c.want)
		}
	}
}

// TestDefaults checks every default of the format: the values of
// scenario-format, standard gravity of the 3rd CGPM (1901; NIST SP 811), air of ISO 2533.
func TestDefaults(t *testing.T) {
	s, err := ReadFile("testdata/least.toml")
	if err != nil {
		t.Fatal(err)
	}
	drive := "%[1]s: mainspring.modulus_gpa = 206 (spring steel, from memory)\n%[1]s: mainspring.natural_form = \"set\"\n%[1]s: mainspring.yield_mpa = 1600 (0.95 of what strip of EN 10132-4 bears, from memory)\n" +
		"%[1]s: mainspring.bending = \"wide\"\n%[1]s: mainspring.poisson = 0.3 (steel, from memory)\n%[1]s: mainspring.packing = 1.065 (common practice)\n%[1]s: mainspring.couple_ratio = 1\n%[1]s: mainspring.efficiency = 0.9 (common practice)\n" +
		"%[1]s: barrel.outside_length_mm = 41 (from the inside height)\n%[1]s: barrel.clicks = 12 (common practice)\n%[1]s: barrel.lay_mm: follows the fusee\n" +
		"%[1]s: line.width_mm = %[3]s (from the thickness)\n%[1]s: line.efficiency = 0.95 (with the pivots that are not given; common practice)\n%[1]s: line.fleet_angle_max_deg = 4 (common practice)\n" +
		"%[1]s: fusee.over = \"groove\"\n%[1]s: fusee.hand = \"right\"\n" +
		"%[1]s: mesh.%[2]s.efficiency = 0.95 (common practice)\n%[1]s: mesh.%[2]s.drag_nm = 0\n"
	want := "place.gravity_m_s2 = 9.80665 (standard gravity, CGPM 1901)\nplace.air_density_kg_m3 = 1.225 (ISO 2533 at sea level)\n" +
		"verdict.stops_below = 1 (common practice)\nverdict.thin_below = 1.15 (common practice)\nverdict.suits_up_to = 1.6 (common practice)\nverdict.strong_up_to = 2 (common practice)\n" +
		fmt.Sprintf(drive, "train going", "centre", "1.8") +
		"train going: escapement.drop = 0.15 (common practice)\ntrain going: escapement.efficiency = 0.8 (common practice)\ntrain going: escapement.margin_deg = 0.5 (common practice)\n" +
		"train going: escapement.impulse_late_deg = 0\n" +
		fmt.Sprintf(drive, "train striking", "pin", "1") +
		"train striking: strike.tail_efficiency = 1\n" +
		"train striking: fly.density_kg_m3 = 8500 (brass, from memory)\ntrain striking: fly.drag_coefficient = 1.2 (near that of a flat plate, from memory)\n" +
		"train striking: demand.blow_interval_s = [ 0.8, 1.6 ] (common practice)\n"
	got := ""
	for _, a := range s.Assumed {
		got += a.String() + "\n"
	}
	if got != want {
		t.Errorf("assumed\n%s\nwant\n%s", got, want)
	}
	g, st := &s.Trains[0], &s.Trains[1]
	values := fmt.Sprint(s.Place, s.Verdict, g.Mainspring, g.Barrel, g.Line, g.Meshes, *g.Escapement, *st.Fly, st.Demand)
	if values != "{9.80665 1.225} {1 1.15 1.6 2} {38 0.4 1850 206 set 1600 NaN wide 0.3 NaN 1.065 1 0.9 NaN  0 true} {46 41 15 50 41 1 12 NaN NaN NaN} "+
		"{gut 1.8 1.8 0.95 NaN 4} [{96 8 centre 0.95 NaN 0}] {deadbeat 30 3 0.15 0.8 0.5 0 NaN NaN NaN NaN NaN} {2 24 0 18 0.6 8500 1.2 NaN} {NaN {0.8 1.6} {NaN NaN}}" {
		t.Error(values)
	}
}

// TestAccepted are scenarios out of the common that must be read.
func TestAccepted(t *testing.T) {
	for name, edits := range map[string][]edit{
		"spring straight":            {{1, "yield_mpa = 1700.0\n", ""}},
		"integers for numbers":       {{1, "width_mm = 38.0", "width_mm = 38"}},
		"drive alone":                {{1, "[[train.mesh]]…[train.demand]", ""}, {1, "[train.demand]…[[train]]", ""}},
		"striking drive alone":       {{2, "[[train.mesh]]…[train.demand]", ""}},
		"two loads at one arbor":     {{1, "[train.escapement]", "[[train.load]]\narbor = \"centre\"\ntorque_nm = 0.001\n[train.escapement]"}},
		"a load on the great wheel":  {{1, `arbor = "centre"`, `arbor = "fusee"`}},
		"letters of other alphabets": {{1, `name = "going"`, `name = "Gehwerk-ä_2"`}, {0, `"going.mainspring`, `"Gehwerk-ä_2.mainspring`}},
		"train called train":         {{1, `name = "going"`, `name = "train"`}, {0, `"going.mainspring`, `"train.mainspring`}},
		"bands all the same":         {{0, "1.15", "1"}, {0, "1.6", "1"}, {0, "2.0", "1"}},
		"hammers over several lines": {{2, "hammers = [ {", "\"hammers\" = [ # two\n {"}, {2, "} ]", "},\n { mass_g = 1, lift_mm = 1, spring_n = 1 } ]"}},
	} {
		if _, err := read(edited(t, edits...)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestBounds are texts beyond what is read.
func TestBounds(t *testing.T) {
	train := func(n int) string { return strings.Repeat("[[train]]\n", n) }
	mesh := "[[train.mesh]]\nwheel = 8\npinion = 8\ndrives = \"a\"\n"
	for _, c := range []struct {
		name, text, want string
		whole            bool // want is all that is said
	}{
		{"too many bytes", strings.Repeat("#", MaxBytes+1), "clock.toml: found more than 1048576 bytes; want a scenario of at most 1048576 bytes", true},
		{"65 trains", train(65), "clock.toml:1: train: found 65 tables; want at most 64", false},
		{"no train", "title = \"x\"\n", "clock.toml:1: train: missing; want at least one table [[train]]", false},
		{"65 meshes", edited(t, edit{1, "[[train.mesh]]", strings.Repeat(mesh, 62) + "[[train.mesh]]"}),
			"clock.toml:57: going.mesh: found 65 tables; want at most 64", true},
		{"65 loads", edited(t, edit{1, "[[train.load]]", strings.Repeat("[[train.load]]\n", 64) + "[[train.load]]"}),
			"clock.toml:75: going.load: found 65 tables; want at most 64", true},
		{"65 hammers", edited(t, edit{2, "hammers = [", "hammers = [" + strings.Repeat("{}, ", 64)}),
			"clock.toml:144: striking.strike.hammers: found 65 tables; want at most 64", true},
		{"one train in single brackets", "[train]\nname = \"a\"", "clock.toml:1: train: found a single table; want tables [[train]], each in double brackets", false},
		{"deep arrays", "\nx = " + strings.Repeat("[", MaxBytes-10), "clock.toml:2: found keys or values nested too deep; want at most 16 levels", true},
		{"deep keys", strings.Repeat("a.", 17) + "a = 1", "clock.toml:1: found keys or values nested too deep; want at most 16 levels", true},
		{"long key", strings.Repeat("k", 100) + " = 1", "unknown key; the keys here are", false},
		{"note too long", edited(t, edit{0, "note  = \"", "note = \"" + strings.Repeat("n", 4000)}), "clock.toml:4: note: found 4046 characters; want a text of 1 to 4000 characters", true},
		{"name too long", edited(t, edit{1, `name = "going"`, `name = "` + strings.Repeat("n", 65) + `"`}), "train.#1.name: found \"" + strings.Repeat("n", 40) + "…\"; want a name", false},
		{"not UTF-8", "title = \"\xff\"", "clock.toml:1: found a byte that is not UTF-8, as in a text in Latin-1 or Windows-1252; want a scenario: save it again as plain text in UTF-8", false},
	} {
		_, err := read(c.text)
		if got := message(err); !strings.Contains(got, c.want) || c.whole && got != c.want {
			t.Errorf("%s: got %.300s", c.name, message(err))
		}
	}
	if _, err := read(fullText(t) + strings.Repeat("#", MaxBytes-len(fullText(t)))); err != nil {
		t.Error("a text of exactly MaxBytes:", err)
	}
}

func TestFileErrors(t *testing.T) {
	if _, err := ReadFile(filepath.Join(t.TempDir(), "none.toml")); !errors.Is(err, fs.ErrNotExist) {
		t.Error(err)
	}
	if _, err := ReadFile(t.TempDir()); err == nil {
		t.Error("a directory was read")
	}
	broken := errors.New("broken pipe")
	if _, err := Read(iotest.ErrReader(broken), "standard input"); !errors.Is(err, broken) || !strings.Contains(err.Error(), "standard input") {
		t.Error(err)
	}
	path := filepath.Join(t.TempDir(), "bad.toml")
	if err := os.WriteFile(path, []byte("title = 3"), 0o600); err != nil {
		t.Fatal(err)
	}
	_, err := ReadFile(path)
	var faults Faults
	if !errors.As(err, &faults) || faults[0].Source != path || faults[0].Line != 1 {
		t.Error(err)
	}
}

// TestManyFaults: a text made of nothing but unknown keys is refused in full,
// and soon.
func TestManyFaults(t *testing.T) {
	var b strings.Builder
	n := 0
	for ; b.Len() < MaxBytes-20; n++ {
		fmt.Fprintf(&b, "key%d = 1\n", n)
	}
	_, err := read(b.String())
	if faults, ok := err.(Faults); !ok || len(faults) != n+2 { // no title, no train
		t.Errorf("%d faults, want %d", len(faults), n+2)
	}
}
