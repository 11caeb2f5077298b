package scenario

import (
	"strings"
	"testing"
)

// TestLinesOfBroken reads a whole scenario of mixed styles with a fault in
// each, under both kinds of line end.
func TestLinesOfBroken(t *testing.T) {
	const text = `title = "Invented"
[[train]]
name = "a"
kind = "going"
mainspring = { width_mm = "3", thickness_mm = 0.4, length_mm = 1850 }
barrel.inside_diameter_mm = 46
barrel.inside_height_mm = 41
barrel."arbor_diameter_mm" = 150
barrel.outside_diameter_mm = 50
barrel.setup_turns = 1
[train.line]
kind = "gut"
thickness_mm = 1.8
[train.fusee]
turns = 2
profile = "measured"
diameters_mm = [
  20, # small end

  -30,
  40, 'x',
]
pitch_mm = 2.4
[[train.mesh]]
wheel = 96
pinion = 8
drives = "centre"
[[train.mesh]]
pinion = 8.0
drives = "b"
`
	want := `clock.toml:5: a.mainspring.width_mm: found the string "3"; want a number of millimetres without quotes
clock.toml:8: a.barrel.arbor_diameter_mm: found 150; want less than inside_diameter_mm, 46 mm
clock.toml:10: a.barrel.setup_turns: unknown key; did you mean set_up_turns?
clock.toml:21: a.fusee.diameters_mm.3: found the string "x"; want a list of numbers from 0.5 to 2000 mm
clock.toml:28: a.mesh.b.wheel: missing; want a whole number from 2 to 10000
clock.toml:29: a.mesh.b.pinion: found 8.0; want a whole number from 2 to 10000 without a decimal point`
	for _, eol := range []string{"\n", "\r\n"} {
		_, err := read(strings.ReplaceAll(text, "\n", eol))
		if got := message(err); got != want {
			t.Errorf("with %q got\n%s\nwant\n%s", eol, got, want)
		}
	}
	_, err := read(strings.Replace(text, ", 'x'", "", 1))
	if got := message(err); !strings.Contains(got, "clock.toml:20: a.fusee.diameters_mm.1: found -30; want numbers from 0.5 to 2000 mm") {
		t.Error(got)
	}
}
