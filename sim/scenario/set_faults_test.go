package scenario

import (
	"fmt"
	"reflect"
	"strings"
	"testing"
)

// TestSetFaults: what --set is told, the file being sound.
func TestSetFaults(t *testing.T) {
	for _, c := range []struct{ sets, want string }{
		{"going.mainspring.thicknes_mm=0.4", "--set going.mainspring.thicknes_mm: unknown key; did you mean going.mainspring.thickness_mm?"},
		{"mainspring.thickness_mm=0.4", "--set mainspring.thickness_mm: unknown key; did you mean going.mainspring.thickness_mm?"},
		{"going.mesh.center.efficiency=0.9", "--set going.mesh.center.efficiency: unknown key; did you mean going.mesh.centre.efficiency?"},
		{"going.mainspring=3", "--set going.mainspring: found the name of a table; want one of its keys: width_mm, thickness_mm, length_mm, modulus_gpa, natural_form, yield_mpa, free_coils, bending, poisson, solid_turns, packing, couple_ratio, efficiency, friction_coefficient, outer_end, present"},
		{"chimes.x=3", "--set chimes.x: unknown key; want one of title, note, place, verdict, going, striking, advice, tolerance"},
		{"going.mesh.intermediate.y=3", "--set going.mesh.intermediate.y: unknown key; after going.mesh may follow centre, third, escape"},
		{"going.line.colouring=3", "--set going.line.colouring: unknown key; after going.line may follow kind, thickness_mm, width_mm, efficiency, breaking_n, fleet_angle_max_deg"},
		{"striking.load.pinwheel.q=3", "--set striking.load.pinwheel.q: unknown key; after striking.load may follow nothing: there is none in this scenario"},
		{"striking.strike.hammers.2.mass_g=3", "--set striking.strike.hammers.2.mass_g: unknown key; did you mean striking.strike.hammers.1.mass_g?"},
		{"going.fusee.diameters_mm.17=30", `--set going.fusee.diameters_mm.17: found "17"; want a place from 0 to 16`},
		{"going.fusee.diameters_mm.x=30", `--set going.fusee.diameters_mm.x: found "x"; want a place from 0 to 16`},
		{"going.fusee.turns.0=30", "--set going.fusee.turns.0: unknown key; want going.fusee.turns with nothing after it"},
		{"=3", "--set : unknown key; want one of title, note, place, verdict, going, striking, advice, tolerance"},
		{"going.mainspring.width_mm", `--set going.mainspring.width_mm: found no "="; want KEY=VALUE`},
		{"going.mainspring.width_mm=", `--set going.mainspring.width_mm: found ""; want a number from 0.5 to 500 mm`},
		{"going.mainspring.width_mm=wide", `--set going.mainspring.width_mm: found "wide"; want a number from 0.5 to 500 mm`},
		{"going.mainspring.width_mm=37,5", `--set going.mainspring.width_mm: found "37,5"; want a number from 0.5 to 500 mm, with a decimal point: 37.5`},
		{"going.mainspring.width_mm=3,7,5", `--set going.mainspring.width_mm: found "3,7,5"; want a number from 0.5 to 500 mm`},
		{`going.mainspring.width_mm="38"`, `--set going.mainspring.width_mm: found the string "38"; want a number of millimetres without quotes`},
		{"going.mainspring.width_mm=nan", "--set going.mainspring.width_mm: found nan; want a number from 0.5 to 500 mm"},
		{"going.mainspring.width_mm=1\nx=2", `--set going.mainspring.width_mm: found "1\nx=2"; want a number from 0.5 to 500 mm`},
		{"going.mainspring.width_mm=600", "--set going.mainspring.width_mm: found 600; want a number from 0.5 to 500 mm"},
		{"going.mesh.centre.wheel=9.5", "--set going.mesh.centre.wheel: found 9.5; want a whole number from 2 to 10000"},
		{"going.fusee.diameters_mm.3=x", `--set going.fusee.diameters_mm.3: found "x"; want a number from 0.5 to 2000 mm`},
		{"going.fusee.diameters_mm=[1, 2]", "--set going.fusee.diameters_mm: found 2 values; want 17, one more than the turns"},
		{"going.fusee.diameters_mm.3=0", "--set going.fusee.diameters_mm.3: found 0; want numbers from 0.5 to 2000 mm"},
		{"going.line.kind=hair", `--set going.line.kind: found "hair"; want "gut", "wire" or "chain"`},
		{"go\x1b[31ming.x=3", `--set "go\x1b[31ming.x": unknown key; want one of title, note, place, verdict, going, striking, advice, tolerance`},
		{"going.line\u202e.kind=3", `--set "going.line\u202e.kind": unknown key; did you mean going.line.kind?`},
		{"\x00", `--set "\x00": found no "="; want KEY=VALUE`},
		{`title="a\u0000\u001b[31m"`, `--set title: found the control character '\x00'; want plain text`},
		{"title=a\u009bb", `--set title: found the control character '\u009b'; want plain text`},
		{`title="\uffff"`, "--set title: found the character U+FFFF, which cannot be printed; want plain text"},
		{"note=\u202e", "--set note: found the character U+202E, which cannot be printed; want plain text"},
		{"going.mainspring.width_mm=−38", `--set going.mainspring.width_mm: found "−38"; want a number from 0.5 to 500 mm, typed plainly: -38`},
		{`going.mainspring.width_mm="38,5"`, `--set going.mainspring.width_mm: found the string "38,5"; want a number of millimetres without quotes and with a decimal point: 38.5`},
		{"going.mainspring.width_mm=600.123456789", "--set going.mainspring.width_mm: found about 600.123; want a number from 0.5 to 500 mm"},
		{"going.fusee.diameters_mm=[36,5, 37,1]", "--set going.fusee.diameters_mm: found 36,5, which TOML takes for two numbers; want a decimal point: 36.5"},
		{"title=", `--set title: found ""; want a text of 1 to 200 characters`},
		// a fault of another key is laid to the change that causes it
		{"going.barrel.inside_height_mm=37", "--set going.barrel.inside_height_mm: going.mainspring.width_mm: found 38, 1 mm too wide for the barrel; want at most barrel.inside_height_mm, 37 mm"},
		{"striking.fusee.profile=even", "--set striking.fusee.profile: striking.fusee.large_diameter_mm: found together with small_diameter_mm; want one of the two"},
		{"going.fusee.profile=cone", "--set going.fusee.profile: going.fusee.small_diameter_mm: missing; want a number from 0.5 to 2000 mm for a cone\n" +
			"--set going.fusee.profile: going.fusee.large_diameter_mm: missing; want a number from 0.5 to 2000 mm for a cone"},
		{"going.pendulum.quality=0.5", "--set going.pendulum.quality: found 0.5; want a number from 1 to 1000000"},
		{"going.mesh.centre.drives=fusee", `--set going.mesh.centre.drives: going.mesh.fusee.drives: found "fusee"; want another name: fusee is the great wheel's own arbor`},
	} {
		s := mustRead(t, fullText(t))
		before := s.Clone()
		err := s.Apply([]string{c.sets})
		if got := message(err); got != c.want {
			t.Errorf("%q: got\n%s\nwant\n%s", c.sets, got, c.want)
		}
		if snapshot(s) != snapshot(before) {
			t.Errorf("%q was refused and yet changed the scenario", c.sets)
		}
	}
}

// TestFaultsAreCapped: fifty are told, and how many there are besides.
func TestFaultsAreCapped(t *testing.T) {
	for n, end := range map[int]string{1: "found 1", 50: "found 50", 51: "and 1 fault more", 6000: "and 5950 faults more"} {
		var fs Faults
		for i := range n {
			fs = append(fs, Fault{Found: fmt.Sprint("found ", i+1)})
		}
		if got := fs.Error(); !strings.HasSuffix(got, end) || strings.Count(got, "\n") != min(n, 51)-1 || !strings.HasPrefix(got, "found 1") {
			t.Errorf("%d: %d lines, the last %q", n, strings.Count(got, "\n")+1, got[strings.LastIndexByte(got, '\n')+1:])
		}
	}
}

// TestApplyTellsAll: faults of keys, of values and of combinations together.
func TestApplyTellsAll(t *testing.T) {
	s := mustRead(t, fullText(t))
	err := s.Apply([]string{"going.mainspring.colour=red", "going.line.thickness_mm=2.5", "nonsense", "striking.fly.vanes=two"})
	want := "--set going.mainspring.colour: unknown key; after going.mainspring may follow width_mm, thickness_mm, length_mm, modulus_gpa and 12 more: \"evenpull help keys\"\n" +
		"--set nonsense: found no \"=\"; want KEY=VALUE\n" +
		"--set striking.fly.vanes: found \"two\"; want a whole number from 1 to 64\n" +
		"--set going.line.thickness_mm: going.fusee.pitch_mm: found 2.4, so that turns of the line would overlap; want at least line.thickness_mm, 2.5 mm\n" +
		"--set going.line.thickness_mm: going.barrel.lay_mm: found 2, so that turns of the line would overlap; want at least line.thickness_mm, 2.5 mm"
	if got := message(err); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if err := s.Apply(nil); err != nil {
		t.Error(err)
	}
}

// TestSetBounds: what is too long to look at.
func TestSetBounds(t *testing.T) {
	s := mustRead(t, fullText(t))
	for _, c := range [][2]string{
		{strings.Repeat("k", maxKey+1), "1"},
		{"going.mainspring.width_mm", strings.Repeat("3", maxValue+1)},
		{"going.fusee.diameters_mm", strings.Repeat("[", 1000)},
		{"title", strings.Repeat("t", maxValue+1)},
	} {
		if err := s.Set(c[0], c[1]); err == nil || len(err.Error()) > 300 {
			t.Errorf("%.20s: %.400v", c[0], err)
		}
	}
}

// TestCheckAfterChange: a change made directly carries the file's line.
func TestCheckAfterChange(t *testing.T) {
	s := mustRead(t, fullText(t))
	s.Trains[0].Mainspring.ThicknessMM = -1
	s.Trains[1].Meshes[2].Wheel = 0
	s.Trains[1].Strike.Hammers = nil
	s.Place.GravityMS2 = notGiven
	s.Trains[1].Meshes[0].Efficiency = notGiven
	want := "clock.toml:7: place.gravity_m_s2: missing; want a number from 1 to 30 m/s²\n" +
		"clock.toml:22: going.mainspring.thickness_mm: found -1; want a number from 0.02 to 10 mm\n" +
		"clock.toml:124: striking.mesh.pin.efficiency: missing; want efficiency or friction_coefficient\n" +
		"clock.toml:135: striking.mesh.fly.wheel: found 0; want a whole number from 2 to 10000\n" +
		"clock.toml:144: striking.strike.hammers: missing; want at least one table [[train.strike.hammers]]"
	if got := message(s.Check()); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	built := Scenario{Title: "By hand"}
	if got := message(built.Check()); !strings.HasPrefix(got, "place.gravity_m_s2: found 0; want a number from 1 to 30 m/s²\n") {
		t.Error("a scenario without a file:", got)
	}
}

func TestCloneIsIndependent(t *testing.T) {
	s := mustRead(t, fullText(t))
	before := snapshot(s)
	c := s.Clone()
	if snapshot(c) != before || !reflect.DeepEqual(c.lines, s.lines) {
		t.Fatal("the clone differs")
	}
	tr := &trail{s: c}
	tr.visit(root, c, func(t *table, item any) { // overwrite all there is
		for i := range t.fields {
			switch v := t.fields[i].ref(item).(type) {
			case *float64:
				*v = -7
			case *int:
				*v = -7
			case *string:
				*v = "seven"
			case *Range:
				*v = Range{-7, -7}
			case *[]float64:
				for i := range *v {
					(*v)[i] = -7
				}
			}
		}
	})
	c.Assumed[0].Value = "seven"
	c.supplied["title"], c.set = true, map[string]string{"title": "title"}
	if snapshot(s) != before || s.supplied["title"] || s.set != nil {
		t.Error("the clone is tied to the original")
	}
	if c.Check() == nil || s.Check() != nil {
		t.Error("the check looked at the wrong one")
	}
}

// TestFaultAt: a fault found later points at the file, or at --set.
func TestFaultAt(t *testing.T) {
	s := mustRead(t, fullText(t))
	if got := s.FaultAt(1, "barrel.set_up_turns", "found 0.75", "want less").Error(); got != "clock.toml:111: striking.barrel.set_up_turns: found 0.75; want less" {
		t.Error(got)
	}
	if err := s.Apply([]string{"striking.barrel.set_up_turns=2"}); err != nil {
		t.Fatal(err)
	}
	if got := s.FaultAt(1, "barrel.set_up_turns", "found 2", "want less").Error(); got != "--set striking.barrel.set_up_turns: found 2; want less" {
		t.Error(got)
	}
}
