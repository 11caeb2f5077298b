package scenario

import (
	"strings"
	"testing"
)

// mistakes are what people type, each with the whole answer: line, key, what was found and
// the cure. Those of cones are in TestConesAskedAbout.
var mistakes = []struct {
	name  string
	edits []edit
	want  string
}{
	{"width in cm", []edit{{1, "width_mm = 38.0", "width_mm = 3.8"}},
		`:21: going.mainspring.width_mm: found 3.8 mm beside barrel.inside_height_mm, 41 mm; is it width_cm = 3.8, that is 38 mm?`},
	{"height in cm", []edit{{1, "inside_height_mm = 41.0", "inside_height_mm = 4.1"}},
		`:32: going.barrel.inside_height_mm: found 4.1 mm beside mainspring.width_mm, 38 mm; is it inside_height_cm = 4.1, that is 41 mm?`},
	{"barrel in cm", []edit{{1, "inside_diameter_mm = 46.0", "inside_diameter_mm = 4.6"}},
		`:31: going.barrel.inside_diameter_mm: found 4.6 mm beside barrel.outside_diameter_mm, 50 mm; is it inside_diameter_cm = 4.6, that is 46 mm?`},
	{"thickness in inches", []edit{{1, "thickness_mm = 0.40", "thickness_in = 0.40"}},
		`:22: going.mainspring.thickness_in: found 10.16 (thickness_mm); want a number from 0.02 to 10 mm; is it thickness_mm = 0.4?`},
	{"inches as mm", []edit{{1, "thickness_mm = 0.40", "thickness_mm = 0.0157"}},
		`:22: going.mainspring.thickness_mm: found 0.0157; want a number from 0.02 to 10 mm; is it thickness_cm = 0.0157, that is 0.157 mm, or thickness_in = 0.0157, that is 0.3988 mm?`},
	{"length in cm", []edit{{1, "length_mm = 1850.0", "length_mm = 185"}},
		`:23: going.mainspring.length_mm: found 185 mm; is it length_cm = 185, that is 1850 mm, or length_in = 185, that is 4699 mm?`},
	{"modulus in MPa", []edit{{1, "modulus_gpa = 206.0", "modulus_gpa = 206000"}},
		`:24: going.mainspring.modulus_gpa: found 206000; want a number from 10 to 500 GPa; is it modulus_mpa = 206000, that is 206 GPa?`},
	{"modulus in GPa", []edit{{1, "modulus_gpa = 206.0", "modulus_mpa = 206"}},
		`:24: going.mainspring.modulus_mpa: found about 0.206 (modulus_gpa); want a number from 10 to 500 GPa; is it modulus_gpa = 206?`},
	{"flow stress in GPa", []edit{{1, "yield_mpa = 1700.0", "yield_mpa = 1.7"}},
		`:25: going.mainspring.yield_mpa: found 1.7; want a number from 50 to 5000 MPa; is it yield_gpa = 1.7, that is 1700 MPa?`},
	{"pendulum in cm", []edit{{1, "length_mm = 200.0", "length_mm = 20"}},
		`:88: going.pendulum.length_mm: found 20 mm; is it length_cm = 20, that is 200 mm, or length_in = 20, that is 508 mm?`},
	{"mass in kg", []edit{{1, "mass_g = 500.0", "mass_g = 0.5"}},
		`:89: going.pendulum.mass_g: found 0.5 g; is it mass_kg = 0.5, that is 500 g, or mass_oz = 0.5, that is 14.17 g, or mass_lb = 0.5, that is 226.8 g?`},
	{"decimal comma", []edit{{1, "thickness_mm = 0.40", "thickness_mm = 0,40"}},
		`:22: not valid TOML: found a comma in a number; want a decimal point, as in 0.38, not a comma`},
	{"comma in a text", []edit{{1, "width_mm = 38.0", "width_mm = \"38,0\""}},
		`:21: going.mainspring.width_mm: found the string "38,0"; want a number of millimetres without quotes and with a decimal point: 38.0`},
	{"text with a unit", []edit{{1, "thickness_mm = 0.40", "thickness_mm = \"0.40 mm\""}},
		`:22: going.mainspring.thickness_mm: found the string "0.40 mm"; want a number without quotes: thickness_mm = 0.4`},
	{"unit after the number", []edit{{1, "thickness_mm = 0.40", "thickness_mm = 0.40 mm"}},
		`:22: not valid TOML: expected a top-level item to end with a newline, comment, or EOF, but got 'm' instead; want the number alone: its key ends in its unit, such as thickness_mm or thickness_in`},
	{"unit of the text", []edit{{1, "thickness_mm = 0.40", "thickness_mm = \"0.0157 in\""}},
		`:22: going.mainspring.thickness_mm: found the string "0.0157 in"; want a number without quotes: thickness_in = 0.0157`},
	{"fraction", []edit{{1, "width_mm = 38.0", "width_in = 3/8"}},
		`:21: not valid TOML: expected a top-level item to end with a newline, comment, or EOF, but got '/' instead; want a decimal number, such as 0.375 for 3/8`},
	{"fraction in a text", []edit{{1, "width_mm = 38.0", "width_in = \"1 1/2\""}},
		`:21: going.mainspring.width_in: found the string "1 1/2"; want a number without quotes: 1.5`},
	{"percent", []edit{{1, "efficiency = 0.90", "efficiency = 90%"}},
		`:28: not valid TOML: expected a top-level item to end with a newline, comment, or EOF, but got '%' instead; want a share, such as 0.9 for 90 %`},
	{"percent in a text", []edit{{1, "efficiency = 0.90", "efficiency = \"90 %\""}},
		`:28: going.mainspring.efficiency: found the string "90 %"; want a number without quotes: efficiency = 0.9`},
	{"percent without a sign", []edit{{1, "efficiency = 0.90", "efficiency = 90"}},
		`:28: going.mainspring.efficiency: found 90; want a number from 0.01 to 1; 90 % are 0.9`},
	{"yes", []edit{{0, "historic = true", "historic = yes"}},
		`:178: not valid TOML: expected value but found "yes" instead; want true or false`},
	{"yes in quotes", []edit{{0, "historic = true", "historic = \"yes\""}},
		`:178: advice.historic: found the string "yes"; want true or false`},
	{"True", []edit{{0, "historic = true", "historic = True"}},
		`:178: not valid TOML: expected value but found "True" instead; want true or false`},
	{"smart quotes", []edit{{1, `name = "going"`, `name = “going”`}},
		`:17: not valid TOML: expected value but found '“' instead; want straight quotes, " or '`},
	{"no quotes", []edit{{1, `kind = "gut"`, `kind = gut`}},
		`:40: not valid TOML: expected value but found "gut" instead; want a text in straight quotes, or a number`},
	{"minus", []edit{{1, "width_mm = 38.0", "width_mm = -38"}},
		`:21: going.mainspring.width_mm: found -38; want a number from 0.5 to 500 mm`},
	{"typeset minus", []edit{{1, "width_mm = 38.0", "width_mm = −38"}},
		`:21: not valid TOML: expected value but found '−' instead; want a plain -`},
	{"key of another table", []edit{{1, "set_up_turns = 1.0", "set_up_turns = 1.0\nthickness_mm = 0.4"}},
		`:37: going.barrel.thickness_mm: unknown key; it belongs to [train.mainspring], [train.line] or [train.fly]`},
	{"key without its unit", []edit{{1, "width_mm = 38.0", "width = 38.0"}},
		`:21: going.mainspring.width: unknown key; did you mean width_mm?`},
	{"key in a unit that is none of its kind", []edit{{1, "thickness_mm = 0.40", "thickness_thou = 16"}},
		`:22: going.mainspring.thickness_thou: unknown key; want thickness_mm, or in another unit thickness_cm, thickness_m or thickness_in`},
	{"key with its unit in full", []edit{{1, "thickness_mm = 0.40", "thickness_inches = 0.016"}},
		`:22: going.mainspring.thickness_inches: unknown key; did you mean thickness_in?`},
	{"key in other words", []edit{{1, "thickness_mm = 0.40", "strength_mm = 0.40"}},
		`:20: going.mainspring.thickness_mm: missing; want a number from 0.02 to 10 mm
:22: going.mainspring.strength_mm: unknown key; the keys here are width_mm, thickness_mm, length_mm, modulus_gpa and 12 more: "evenpull help keys"`},
	{"colon", []edit{{1, "width_mm = 38.0", "width_mm: 38.0"}},
		`:21: not valid TOML: expected '.' or '=', but got ':' instead; want = between a key and its value`},
	{"train twice", []edit{{2, `name = "striking"`, `name = "going"`}},
		`:96: going#2.name: found "going" again; want a name that no other train has`},
	{"train misspelt in a tolerance", []edit{{0, `key = "going.mainspring.thickness_mm"`, `key = "gonig.mainspring.thickness_mm"`}},
		`:161: tolerance.1.key: found "gonig.mainspring.thickness_mm": unknown key; did you mean going.mainspring.thickness_mm?`},
	{"arbor misspelt in a load", []edit{{1, "arbor = \"centre\"", "arbor = \"center\""}},
		`:76: going.load.center.arbor: found "center"; did you mean centre? the arbors of this train are fusee, centre, third, escape`},
	{"single brackets", []edit{{1, "[[train]]", "[train]"}},
		`:95: not valid TOML: Key 'train' was already created and cannot be used as an array.; want the same brackets at each of them: [[…]] for what there are several of`},
	{"double brackets", []edit{{1, "[train.barrel]", "[[train.barrel]]"}},
		`:30: going.barrel: found an array of tables; want one table [train.barrel] in single brackets`},
	{"sixteen diameters", []edit{{1, "33.6, 36.0,", "36.0,"}},
		`:49: going.fusee.diameters_mm: found 16 values; want 17, one more than the turns`},
	{"key twice", []edit{{1, "width_mm = 38.0", "width_mm = 38.0\nwidth_mm = 38.5"}},
		`:22: not valid TOML: Key 'train.mainspring.width_mm' has already been defined.; want it once`},
}

func TestMistakes(t *testing.T) {
	for _, m := range mistakes {
		_, err := read(edited(t, m.edits...))
		if got := strings.ReplaceAll(message(err), "clock.toml", ""); got != m.want {
			t.Errorf("%s:\n%s", m.name, got)
		}
	}
}
