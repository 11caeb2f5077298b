package book

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/iotest"

	"evenpull/sim/scenario"
)

const sheetB = "turn,repeat,torque_nm\n0,1,0.5\n1,1,0.52\n0,2,0.51\n"

// files opens texts by their names.
func files(texts map[string]string) func(string) (io.ReadCloser, error) {
	return func(name string) (io.ReadCloser, error) {
		text, ok := texts[name]
		if !ok {
			return nil, fs.ErrNotExist
		}
		return io.NopCloser(strings.NewReader(text)), nil
	}
}

func full(t testing.TB) string {
	t.Helper()
	data, err := os.ReadFile("testdata/full.toml")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func message(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}

func TestReadsEveryKey(t *testing.T) {
	b, err := Read(strings.NewReader(full(t)), "bench.toml", files(map[string]string{"b.csv": sheetB, "b up.csv": "turn,repeat,torque_nm\n0,1,0.6\n"}))
	if err != nil {
		t.Fatal(err)
	}
	nan, yes, no := math.NaN(), true, false
	want := &Book{
		Title: "Every key, invented", Source: "bench.toml",
		Weights: []Weights{
			{Noted{}, "going", 75, 1, []Trial{{400, &no, nan, nan, NotJudged}, {450, &yes, nan, nan, NotJudged}}},
			{Noted{}, "striking", 77, 0, []Trial{{500, &no, nan, nan, NotJudged}, {600, nil, 1.5, nan, NotJudged}, {800, nil, 1.1, nan, NotJudged}}},
			{Noted{"2024-05-31", "N. N.", "brass weights"}, "quarters", 75, 0,
				[]Trial{{700, nil, nan, nan, Weak}, {900, nil, nan, nan, Liked}, {1000, nil, nan, 13.2, NotJudged}, {1200, nil, nan, nan, Brisk}}},
		},
		Springs: []Spring{{Noted{Date: "2024-05-30"}, "A", "going", []scenario.StripValue{{Key: "width_mm", Value: "36"}, {Key: "thickness_mm", Value: "0.4064"},
			{Key: "natural_form", Value: `"set"`}, {Key: "free_coils", Value: "6.5"}}, 12.5}},
		Torques: []Torque{
			{Noted{}, "going", "A", nan, [][]float64{{0.46, 0.47}, {0.45, nan, 0.48}, {0.46}}, [][]float64{{0.55, 0.56}}, 0.01, 0.01, false},
			{Noted{}, "striking", "B, the blued one", nan, [][]float64{{0.5, 0.52}, {0.51}}, [][]float64{{0.6}}, 0, 0.01, true},
			{Noted{By: "N. N."}, "striking", "C", 1.5, [][]float64{{0.5, 0.51}}, nil, 0, 0.01, true},
		},
		Letter: Letter{"A workshop", "An owner", "A bracket clock", "2024-06-01"},
	}
	if got := spell(b); got != spell(want) {
		t.Errorf("got\n%s\nwant\n%s", got, spell(want))
	}
	if b.Weights[0].Struck() || !b.Weights[1].Struck() {
		t.Error("going and striking are not told apart")
	}
}

// spell writes a book out, with what pointers point at.
func spell(b *Book) string {
	var s strings.Builder
	fmt.Fprintln(&s, b.Title, b.Source, b.Letter, b.Springs, b.Torques)
	for _, w := range b.Weights {
		fmt.Fprintln(&s, w.Noted, w.Train, w.PulleyRadiusMM, w.CordThicknessMM)
		for _, trial := range w.Trials {
			if trial.Runs != nil {
				fmt.Fprint(&s, *trial.Runs, " ")
			}
			fmt.Fprintln(&s, trial.MassG, trial.BlowIntervalS, trial.TwelveS, trial.Judged)
		}
	}
	return s.String()
}

// TestBroken makes one change to a sound file and wants what is said.
func TestBroken(t *testing.T) {
	long := strings.Repeat("0.5, ", MaxTurns) + "0.5"
	for _, c := range []struct{ old, new, want string }{
		{`"Every key, invented"`, `3`, `:1: title: found 3; want a text of 1 to 200 characters`},
		{`"Every key, invented"`, `"a\u001bb"`, `:1: title: found the control character '\x1b'; want plain text`},
		{`"Every key, invented"`, `"` + strings.Repeat("x", 201) + `"`, `:1: title: found 201 characters; want a text of 1 to 200 characters`},
		{"title =", "titel =", ":1: titel: unknown key; did you mean title?"},
		{"pulley_radius_mm = 75.0", "pulley_mm = 75.0", ":3: weights.1.pulley_radius_mm: missing; want a number from 1 to 2000 mm\nbench.toml:5: weights.1.pulley_mm: unknown key; the keys here are train, pulley_radius_mm, pulley_diameter_mm, cord_thickness_mm, trials"},
		{"75.0", `"75"`, `:5: weights.1.pulley_radius_mm: found the string "75"; want a number from 1 to 2000 mm without quotes`},
		{"75.0", `"7,5"`, `:5: weights.1.pulley_radius_mm: found the string "7,5"; want a number from 1 to 2000 mm without quotes and with a decimal point`},
		{"75.0", "nan", ":5: weights.1.pulley_radius_mm: found nan; want a number from 1 to 2000 mm"},
		{"75.0", "inf", ":5: weights.1.pulley_radius_mm: found inf; want"},
		{"75.0", "0.9", ":5: weights.1.pulley_radius_mm: found 0.9; want"},
		{"75.0", "75,0", "want a decimal point, as in 0.38, not a comma"},
		{"cord_thickness_mm = 1.0", "cord_thickness_mm = -1", ":6: weights.1.cord_thickness_mm: found -1; want a number from 0 to 50 mm"},
		{`train = "going"` + "\npulley", "pulley", ":3: weights.1.train: missing; want the name of a train: up to 64 letters, digits, - and _"},
		{`train = "going"` + "\npulley", "train = \"a b\"\npulley", `:4: weights.1.train: found the string "a b"; want the name of a train`},
		{`train = "striking"` + "\npulley", "train = \"going\"\npulley", `:10: weights.2.train: found weights for the train going a second time; want all its trials in one table [[weights]]`},
		{"mass_g = 450, runs = true", "mass_g = 450", ":7: weights.1.trials.2: found none of runs, blow_interval_s, twelve_s and judged; want what the train did under this weight"},
		{"mass_g = 450, runs = true", "mass_g = 0.5, runs = 1", ":7: weights.1.trials.2.mass_g: found 0.5; want a number from 1 to 100000 g\nbench.toml:7: weights.1.trials.2.runs: found 1; want true or false"},
		{"mass_g = 450, runs = true", "runs = true, colour = 1", "unknown key; the keys here are mass_g, runs, blow_interval_s, twelve_s, judged"},
		{"mass_g = 450, runs = true", "mass_g = 450, runs = true, blow_interval_s = 1.0", ":7: weights.1.trials.2.runs: found both runs and blow_interval_s; want one of them"},
		{"mass_g = 500.0, runs = false", "mass_g = 500.0, runs = true", ":13: weights.2.trials.1.runs: found runs = true among intervals from blow to blow; want blow_interval_s or twelve_s, or runs = false for a weight that does not strike"},
		{"blow_interval_s = 1.5", "blow_interval_s = 61", ":14: weights.2.trials.2.blow_interval_s: found 61; want a number from 0.05 to 60 s"},
		{"trials = [ { mass_g = 400.0, runs = false }, { mass_g = 450, runs = true } ]", "", ":3: weights.1.trials: missing; want a list of trials"},
		{"trials = [ { mass_g = 400.0, runs = false }, { mass_g = 450, runs = true } ]", "trials = []", ":7: weights.1.trials: found an empty list; want a list of trials"},
		{"trials = [ { mass_g = 400.0, runs = false }, { mass_g = 450, runs = true } ]", "trials = [ 3 ]", ":7: weights.1.trials: found an array; want a list of trials"},
		{"trials = [ { mass_g = 400.0, runs = false }, { mass_g = 450, runs = true } ]", "trials = { mass_g = 1 }", ":7: weights.1.trials: found a table; want a list of trials"},
		{"trials = [ { mass_g = 400.0, runs = false }, { mass_g = 450, runs = true } ]", "trials = [ " + strings.Repeat("{}, ", MaxTrials+1) + " ]", ":7: weights.1.trials: found 201 trials; want at most 200"},
		{`spring = "A"`, "", ":18: torque.1.spring: missing; want a text of 1 to 64 characters"},
		{`spring = "A"`, `spring = " "`, `:20: torque.1.spring: found the string " "; want a text of 1 to 64 characters`},
		{"running_down = [ [0.46, 0.47], [0.45, \"-\", 0.48], [0.46] ]", "", ":18: torque.1.running_down: missing; want one list a repeat, such as [ [ 0.46, 0.47 ], [ 0.45, 0.47 ] ], or file"},
		{"[0.46, 0.47], [0.45", "0.46, [0.45", ":21: torque.1.running_down.1: found 0.46; want one list a repeat"},
		{"[ [0.46, 0.47], [0.45, \"-\", 0.48], [0.46] ]", "[ ]", ":21: torque.1.running_down: found an empty list; want one list a repeat"},
		{"[ [0.46, 0.47], [0.45, \"-\", 0.48], [0.46] ]", "0.46", ":21: torque.1.running_down: found 0.46; want one list a repeat"},
		{"[0.46] ]", "[0,4600, 0,4500] ]", ":21: torque.1.running_down.3: found 0,4600, which TOML takes for two readings; want a decimal point: 0.4600"},
		{"running_down = [ [0.46, 0.47], [0.45, \"-\", 0.48], [0.46] ]", `file = "a\u001b[31m.csv"`, `:21: torque.1.file: found the control character '\x1b'; want the name of a file of readings`},
		{`"Every key, invented"`, `"a\u0000\u001bb"`, `:1: title: found the control character '\x00'; want plain text`},
		{`"Every key, invented"`, `“Every key”`, `want straight quotes, " or '`},
		{"[0.46] ]", "[] ]", ":21: torque.1.running_down.3: found no reading; want at least one reading in each repeat"},
		{"[0.46] ]", `["-", "-"] ]`, ":21: torque.1.running_down.3: found no reading; want"},
		{"[0.46] ]", "[-0.46, nan, 'x'] ]", `:21: torque.1.running_down.3.0: found -0.46; want a number from 0 to 10000 N·m, or "-" for a missing reading` + "\n" +
			`bench.toml:21: torque.1.running_down.3.1: found nan; want a number from 0 to 10000 N·m, or "-" for a missing reading` + "\n" +
			`bench.toml:21: torque.1.running_down.3.2: found the string "x"; want a number from 0 to 10000 N·m, or "-" for a missing reading`},
		{"[0.46] ]", "[" + long + "] ]", ":21: torque.1.running_down.3: found 66 readings; want at most 65, one a fusee turn"},
		{"[0.46] ]", strings.Repeat("[1], ", MaxRepeats) + "]", ":21: torque.1.running_down: found 202 repeats; want at most 200"},
		{"meter_relative = 0.01", "meter_relative = 1", ":23: torque.1.meter_relative: found 1; want a number from 0 to 0.5"},
		{"meter_relative = 0.01", "meter_share = 0.01", ":23: torque.1.meter_share: unknown key; the keys here are train, spring, first_turn, running_down, winding_up, "},
		{"meter_resolution_nm = 0.01", "meter_resolution_nm = -0.01", ":24: torque.1.meter_resolution_nm: found -0.01; want a number from 0 to 1000 N·m"},
		{`file = "b.csv"`, "file = \"b.csv\"\nrunning_down = [[1]]", `:29: torque.2.file: found both running_down and file; want one of them`},
		{`file = "b.csv"`, "file = 3", `:29: torque.2.file: found 3; want the name of a file of readings, such as "readings.csv"`},
		{`file = "b.csv"`, `file = "none.csv"`, ":29: torque.2.file: found \"none.csv\", which cannot be opened: file does not exist; want the name of a file of readings"},
		{"train = \"striking\"\nspring = \"B, the blued one\"", "train = \"going\"\nspring = \"A\"", `:28: torque.2.spring: found the spring "A" in the train going a second time; want all its repeats in one table [[torque]], or another label`},
		{`file = "b.csv"`, `file = "bad.csv"`, "bad.csv:2: turn: found \"x\"; want a whole number from 0 to 64"},
		{`title = "Every key, invented"`, "title = ", ":1: not valid TOML"},
	} {
		if !strings.Contains(full(t), c.old) {
			t.Fatalf("the file has no %q", c.old)
		}
		_, err := Read(strings.NewReader(strings.Replace(full(t), c.old, c.new, 1)), "bench.toml",
			files(map[string]string{"b.csv": sheetB, "b up.csv": sheetB, "bad.csv": "turn,repeat,torque_nm\nx,1,0.5\n"}))
		got := message(err)
		var faults scenario.Faults
		if !errors.As(err, &faults) || !strings.Contains(got, c.want) || len(faults) > 3 {
			t.Errorf("%.60s for %.40s: got %s\nwant %s", c.new, c.old, got, c.want)
		}
	}
}

// TestMostReadings: the greatest number of readings and of repeats is accepted.
func TestMostReadings(t *testing.T) {
	repeat := "[" + strings.Repeat("0.5, ", MaxTurns) + "],"
	b, err := Read(strings.NewReader("[[torque]]\ntrain = 'a'\nspring = 'b'\nrunning_down = ["+strings.Repeat(repeat, MaxRepeats)+"]\n"), "b", nil)
	if err != nil || len(b.Torques[0].RunningDown) != MaxRepeats || len(b.Torques[0].RunningDown[0]) != MaxTurns {
		t.Errorf("%.200v", err)
	}
}

// TestAllAtOnce: faults come by line, those of other files after them.
func TestAllAtOnce(t *testing.T) {
	const text = "[[torque]]\ntrain = 'a'\nspring = 's'\nfile = 'x.csv'\n[[weights]]\ntrain = 'b'\npulley_radius_mm = 1\ntrials = [ { mass_g = 1, runs = true, intervall = 2 } ]\n[[torque]]\ntrain = 'c'\n"
	want := "b.toml:8: weights.1.trials.1.intervall: unknown key; the keys here are mass_g, runs, blow_interval_s, twelve_s, judged\n" +
		"b.toml:9: torque.2.spring: missing; want a text of 1 to 64 characters\n" +
		"b.toml:9: torque.2.running_down: missing; want one list a repeat, such as [ [ 0.46, 0.47 ], [ 0.45, 0.47 ] ], or file\n" +
		"x.csv:1: turns: unknown column; did you mean turn?"
	_, err := Read(strings.NewReader(text), "b.toml", files(map[string]string{"x.csv": "turns,repeat,torque_nm\n"}))
	if got := message(err); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestBounds(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "b.toml:1: found neither weights nor torques; want at least one table [[weights]] or [[torque]]"},
		{strings.Repeat("#", scenario.MaxBytes+1), "b.toml: found more than 1048576 bytes; want a bench file of at most 1048576 bytes"},
		{"x = " + strings.Repeat("[", 100), "b.toml:1: found keys or values nested too deep; want at most 16 levels"},
		{strings.Repeat("[[torque]]\n", MaxTables+1), "b.toml:1: torque: found 65 tables; want at most 64"},
		{"[[weights]]\ntrain = 'b'\npulley_radus_mm = 40\ntrials = [ { mass_g = 1, runs = true } ]\n", "b.toml:3: weights.1.pulley_radus_mm: unknown key; did you mean pulley_radius_mm?"},
		{"[weights]\n", "b.toml:1: weights: found a table; want tables [[weights]], each in double brackets"},
		{"[[torque]]\ntrain = 'a'\nspring = 'b'\nfile = 'c'\n", "b.toml:4: torque.1.file: found the name of a file, and none can be read from here; want the readings themselves in running_down or winding_up"},
	} {
		_, err := Read(strings.NewReader(c.text), "b.toml", nil)
		if got := message(err); got != c.want {
			t.Errorf("%.20q: got %s\nwant %s", c.text, got, c.want)
		}
	}
}

// TestReaderErrors: what cannot be read is no fault of what stands in it.
func TestReaderErrors(t *testing.T) {
	broken := errors.New("broken pipe")
	if _, err := Read(iotest.ErrReader(broken), "standard input", nil); !errors.Is(err, broken) || !strings.Contains(err.Error(), "bench file: reading standard input") {
		t.Error(err)
	}
	if _, err := ReadCSV(iotest.ErrReader(broken), "r.csv"); !errors.Is(err, broken) || !strings.Contains(err.Error(), "r.csv") {
		t.Error(err)
	}
	open := func(string) (io.ReadCloser, error) { return io.NopCloser(iotest.ErrReader(broken)), nil }
	_, err := Read(strings.NewReader("[[torque]]\ntrain = 'a'\nspring = 'b'\nfile = 'c'\n"), "b.toml", open)
	if got := message(err); !strings.HasPrefix(got, "b.toml:4: torque.1.file: found a file that cannot be read: readings: reading c: broken pipe") {
		t.Error(got)
	}
}

// TestFilesGoByTheirPath: a fault in a file of readings is told with the path that it was
// opened by.
func TestFilesGoByTheirPath(t *testing.T) {
	path := filepath.Join(t.TempDir(), "meter.csv")
	if err := os.WriteFile(path, []byte("turn,repeat,torque_nm\n0,1,x\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	_, err := Read(strings.NewReader("[[torque]]\ntrain = 'a'\nspring = 'b'\nfile = 'meter.csv'\n"), "b.toml", func(string) (io.ReadCloser, error) { return os.Open(path) })
	if got := message(err); !strings.HasPrefix(got, path+":2: torque_nm: found") {
		t.Error(got)
	}
}

// TestWritingsAreOne: inline tables and headers say the same, under either line
// end.
func TestWritingsAreOne(t *testing.T) {
	const inline = "weights = [ { train = 'a', pulley_radius_mm = 10, trials = [ { mass_g = 5, runs = true } ] } ]\n"
	const headed = "[[weights]]\ntrain = 'a'\npulley_radius_mm = 10\n[[weights.trials]]\nmass_g = 5\nruns = true\n"
	a, err := Read(strings.NewReader(inline), "b", nil)
	if err != nil {
		t.Fatal(err)
	}
	b, err := Read(strings.NewReader(strings.ReplaceAll(headed, "\n", "\r\n")), "b", nil)
	if err != nil {
		t.Fatal(err)
	}
	if spell(a) != spell(b) {
		t.Errorf("%s\n%s", spell(a), spell(b))
	}
}

// TestUnitsAsHeld: a book in inches, pounds and centinewton metres says the same.
func TestUnitsAsHeld(t *testing.T) {
	const metric = "[[weights]]\ntrain = 'a'\npulley_radius_mm = 63.5\ntrials = [ { mass_g = 453.59237, runs = true } ]\n" +
		"[[torque]]\ntrain = 'a'\nspring = 's'\nrunning_down = [ [0.5, '-'] ]\nwinding_up = [ [0.25] ]\nmeter_resolution_nm = 0.125\n"
	const held = "[[weights]]\ntrain = 'a'\npulley_diameter_in = 5\ntrials = [ { mass_lb = 1, runs = true } ]\n" +
		"[[torque]]\ntrain = 'a'\nspring = 's'\nrunning_down_cnm = [ [50, '-'] ]\nwinding_up_nm = [ [0.25] ]\nmeter_resolution_mnm = 125\n"
	a, err := Read(strings.NewReader(metric), "b.toml", nil)
	if err != nil {
		t.Fatal(err)
	}
	b, err := Read(strings.NewReader(held), "b.toml", nil)
	if err != nil || fmt.Sprint(a.Torques, a.Weights[0].PulleyRadiusMM, a.Weights[0].Trials[0].MassG) != fmt.Sprint(b.Torques, b.Weights[0].PulleyRadiusMM, b.Weights[0].Trials[0].MassG) {
		t.Errorf("%v: %+v, want %+v", err, b, a)
	}
	for _, c := range []struct{ from, to, want string }{
		{"pulley_diameter_in = 5", "pulley_diameter_in = 600", "b.toml:3: weights.1.pulley_diameter_in: found 15240.0 (pulley_diameter_mm); want a number from 2 to 4000 mm"},
		{"pulley_diameter_in = 5", "pulley_diameter_mm = 6\npulley_radius_mm = 3", "b.toml:3: weights.1.pulley_diameter_mm: found together with pulley_radius_mm; want one of them"},
		{"running_down_cnm = [ [50", "running_down = [ [1] ]\nrunning_down_cnm = [ [50", "b.toml:9: torque.1.running_down_cnm: unknown key"},
		{"running_down_cnm = [ [50", "running_down_cnm = [ [-50", "b.toml:8: torque.1.running_down.1.0: found -0.5; want a number from 0"},
	} {
		if _, err := Read(strings.NewReader(strings.Replace(held, c.from, c.to, 1)), "b.toml", nil); !strings.HasPrefix(message(err), c.want) {
			t.Errorf("%s: got %v, want %s", c.to, err, c.want)
		}
	}
}
