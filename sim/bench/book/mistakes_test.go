package book_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"evenpull/sim/bench/book"
	"evenpull/sim/bench/readings"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
)

// TestMistakes: what people get wrong in a bench book is answered with file, line, key and
// cure.
func TestMistakes(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	read := func(text string) error {
		b, err := book.Read(strings.NewReader(text), "bench.toml", nil)
		if err != nil {
			return err
		}
		return readings.Beside(b, s)
	}
	if err := read(book.Right); err != nil {
		t.Fatal(err)
	}
	first := "0.463, 0.455, 0.452, 0.451, 0.449, 0.452, 0.45, 0.451, 0.452, 0.453, 0.449, 0.45, 0.451, 0.449, 0.448, 0.45, 0.451"
	lists := book.Right[strings.Index(book.Right, "running_down = "):strings.Index(book.Right, "meter_relative")]
	times := func(by float64) string {
		scaled := strings.Split(first, ", ")
		for i := range scaled {
			var v float64
			fmt.Sscan(scaled[i], &v)
			scaled[i] = fmt.Sprintf("%.6g", v*by)
		}
		return "running_down = [ [" + strings.Join(scaled, ", ") + "] ]\n"
	}
	for _, c := range []struct {
		what, old, new string
		line           int
		key, cure      string
	}{
		{"cN·m for N·m", lists, times(100), 21, "torque.1.running_down", "written in cN·m? running_down_cnm"},
		{"mN·m for N·m", lists, times(1000), 21, "torque.1.running_down", "written in mN·m? running_down_mnm"},
		{"kgf·cm for N·m", lists, times(10.197), 21, "torque.1.running_down", "written in kgf·cm? running_down_kgfcm"},
		{"N·m for cN·m", "running_down = [", "running_down_cnm = [", 21, "torque.1.running_down", "each under the key of its unit"},
		{"oz for g", "mass_g = 440.0, runs = false }, { mass_g = 460.0", "mass_g = 15.5, runs = false }, { mass_g = 16.2", 9, "weights.1.trials", "written in oz? mass_oz"},
		{"kg for g", "mass_g = 440.0, runs = false }, { mass_g = 460.0", "mass_g = 1.44, runs = false }, { mass_g = 1.46", 9, "weights.1.trials", "written in kg? mass_kg"},
		{"kg for g, below 1", "mass_g = 460.0", "mass_g = 0.46", 9, "weights.1.trials.2.mass_g", "a number from 1 to 100000 g"},
		{"a unit that there is not", "running_down =", "running_down_nmm =", 21, "torque.1.running_down_nmm", "running_down"},
		{"a point one place off", "0.453, 0.449", "4.53, 0.449", 21, "torque.1.running_down.1.9", "want 0.453"},
		{"a point two places off", "0.453, 0.449", "0.00453, 0.449", 21, "torque.1.running_down.1.9", "want 0.453"},
		{"two digits changed about", "0.451, 0.449, 0.452", "0.541, 0.449, 0.452", 21, "torque.1.running_down.1.3", `want 0.451, or "-"`},
		{"the same in one repeat", lists, strings.Replace(times(1), "0.452, 0.453", "0.542, 0.453", 1), 21, "torque.1.running_down.1.8", `want 0.452, or "-"`},
		{"decimal commas and semicolons", "[" + first + "]", "[" + strings.ReplaceAll(strings.ReplaceAll(first, ", ", "; "), ".", ",") + "]", 21, "", "want commas between values, and decimal points"},
		{"decimal commas as TOML reads them", "[" + first + "]", "[0,463, 0,455, 0,452, 0,451]", 21, "torque.1.running_down.1", "want a decimal point: 0.463"},
		{"decimal commas in another unit", "running_down = [", "running_down_cnm = [ [46,3, 45,5, 45,2, 45,1],", 21, "torque.1.running_down_cnm.1", "want a decimal point: 46.3"},
		{"a decimal comma", "pulley_radius_mm = 75.0\ncord", "pulley_radius_mm = 75,0\ncord", 7, "", "want a decimal point"},
		{"a decimal comma in quotes", "pulley_radius_mm = 75.0\ncord", "pulley_radius_mm = '75,0'\ncord", 7, "weights.1.pulley_radius_mm", "75.0"},
		{"a number in quotes", "pulley_radius_mm = 75.0\ncord", "pulley_radius_mm = '75'\ncord", 7, "weights.1.pulley_radius_mm", "without quotes"},
		{"smart quotes", `spring = "A"`, `spring = “A”`, 20, "", "straight quotes"},
		{"a train's name", `train = "striking"`, `train = "strikng"`, 11, "weights.2.train", "did you mean striking?"},
		{"the train of a torque", "[[torque]]\ntrain = \"going\"", "[[torque]]\ntrain = \"time\"", 19, "torque.1.train", "want going, striking, quarters"},
		{"a name with a blank", `train = "striking"`, `train = "striking train"`, 11, "weights.2.train", "letters, digits"},
		{"no name", "train = \"striking\"\n", "", 10, "weights.2.train", "the name of a train"},
		{"a label in another case", `label = "A"`, `label = "a"`, 15, "spring.1.label", `did you mean "A"?`},
		{"a label that nothing has", `label = "A"`, `label = "the blue one"`, 15, "spring.1.label", "[[torque]] with its readings"},
		{"a torque without a label", "spring = \"A\"\n", "", 18, "torque.1.spring", "1 to 64 characters"},
		{"too few readings", lists, "running_down = [ [0.463, 0.455, 0.452, 0.451, 0.449, 0.452, 0.45, 0.451, 0.452, 0.453, 0.449, 0.45, 0.451] ]\n", 21, "torque.1.running_down", "want 17, at 0 to 16 turns paid out; or first_turn"},
		{"too many readings", "0.451],\n", "0.451, 0.45, 0.45],\n", 21, "torque.1.running_down", "want at most 17"},
		{"a first turn with all readings", "meter_relative", "first_turn = 2\nmeter_relative", 21, "torque.1.running_down", "want at most 15"},
		{"solid past the fusee", `label = "A"`, "label = \"A\"\nsolid_at_turn = 18", 16, "spring.1.solid_at_turn", "want at most 16, the turns of the fusee"},
		{"solid in two trains", "label = \"A\"", "label = \"A\"\nsolid_at_turn = 12\ntrain = 'striking'", 17, "spring.1.train", "want going"},
		{"ran, in a word", `runs = true`, `runs = "yes"`, 9, "weights.1.trials.2.runs", "without quotes: true"},
		{"stopped, in a word", `runs = false }, { mass_g = 460`, `runs = "stops" }, { mass_g = 460`, 9, "weights.1.trials.1.runs", "without quotes: false"},
		{"dragged, in a word", `runs = true`, `runs = "drags"`, 9, "weights.1.trials.2.runs", `judged = "weak"`},
		{"judged under runs", `runs = true`, `runs = "weak"`, 9, "weights.1.trials.2.runs", `want judged = "weak"`},
		{"another word of judging", `"liked"`, `"good"`, 13, "weights.2.trials.3.judged", `did you mean "liked"?`},
		{"a misspelt word of judging", `"brisk"`, `"brisc"`, 13, "weights.2.trials.4.judged", `did you mean "brisk"?`},
		{"a word that tells nothing", `"liked"`, `"hm"`, 13, "weights.2.trials.3.judged", `want "weak", "liked" or "brisk"`},
		{"two outcomes", `judged = "liked"`, `judged = "liked", twelve_s = 14.0`, 13, "weights.2.trials.3.twelve_s", "want one of them"},
		{"a date the other way", `date = "2024-06-01"`, `date = "1.6.2024"`, 4, "letter.date", `"2024-05-31"`},
		{"no such day", `date = "2024-06-01"`, `date = "2024-06-31"`, 4, "letter.date", "year, month and day"},
		{"a key of a strip misspelt", "thickness_mm = 0.40", "thicknes_mm = 0.40", 16, "spring.1.thicknes_mm", "did you mean thickness_mm?"},
		{"a strip in the wrong unit", "thickness_mm = 0.40", "thickness_in = 0.40", 16, "spring.1.thickness_in", "from 0.02 to 10 mm"},
		{"a strip in inches under mm", "thickness_mm = 0.40", "thickness_mm = 0.0157", 16, "spring.1.thickness_mm", "from 0.02 to 10 mm"},
		{"a form that there is not", "width_mm = 36.0", "width_mm = 36.0\nnatural_form = 'curled'", 18, "spring.1.natural_form", `"set", "even" or "straight"`},
		{"what tells the same twice", "width_mm = 36.0", "free_coils = 6.5\nyield_mpa = 1700", 17, "spring.1.free_coils", "want one of the two"},
		{"a letter in double brackets", "[letter]", "[[letter]]", 2, "letter", "one table [letter] in single brackets"},
		{"radius and diameter", "pulley_radius_mm = 75.0\ncord", "pulley_radius_mm = 75.0\npulley_diameter_mm = 150.0\ncord", 8, "weights.1.pulley_diameter_mm", "want one of them"},
	} {
		if !strings.Contains(book.Right, c.old) {
			t.Fatalf("%s: the book has no %q", c.what, c.old)
		}
		err := read(strings.Replace(book.Right, c.old, c.new, 1))
		var faults scenario.Faults
		if !errors.As(err, &faults) {
			t.Errorf("%s: got %v", c.what, err)
			continue
		}
		if !slices.ContainsFunc(faults, func(f scenario.Fault) bool {
			return f.Source == "bench.toml" && f.Line == c.line && f.Key == c.key && strings.Contains(f.Found+f.Want, c.cure) && f.Found != ""
		}) || len(faults) > 2 {
			t.Errorf("%s: %s", c.what, err)
		}
	}
}
