package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"evenpull/scenarios"

	"github.com/spf13/cobra"
)

// Golden output is written anew only when this is given:
// go test ./cmd/evenpull -regenerate
var regenerate = flag.Bool("regenerate", false, "write the golden files anew")

// few makes a command that tells how sure a verdict is do so with few draws, and one that winds
// coils do so without friction unless it says something of it, for tests that look at
// something else.
func few(args []string) []string {
	if len(args) > 0 && args[0] == "coils" && !strings.Contains(strings.Join(args, " "), "friction") {
		return append(slices.Clone(args), "--friction", "0")
	}
	judges := len(args) > 0 && slices.Contains([]string{"run", "setup", "choose", "cut", "assign", "report"}, args[0])
	if !judges || slices.Contains(args, "--draws") || slices.Contains(args, "--verify") {
		return args
	}
	return append(slices.Clone(args), "--draws", "40")
}

// call runs the command line and gives exit status, output and errors.
func call(t testing.TB, stdin string, args ...string) (code int, out, errs string) {
	t.Helper()
	var o, e bytes.Buffer
	code = Main(args, strings.NewReader(stdin), &o, &e)
	return code, o.String(), e.String()
}

// built finds which evenpull wrote a document, as JSON and in remarks.
var built = regexp.MustCompile(`(?m)^(    "(?:version|commit)": ").*(",)$|^(# (?:version|commit): ).*()$`)

// golden compares what was written with a file, whatever evenpull was built from.
func golden(t *testing.T, file, got string) {
	t.Helper()
	got = built.ReplaceAllString(got, "${1}${3}that of the test${2}${4}")
	file = filepath.Join("testdata", file)
	if *regenerate {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if rounded(got) != rounded(string(want)) {
		t.Errorf("%s has changed; read it and run with -regenerate when it should. Now:\n%s", file, got)
	}
}

var longNumber = regexp.MustCompile(`-?[0-9]+\.[0-9]{9,}(e[-+][0-9]+)?`)

// rounded cuts long numbers to nine figures: the last ones differ between
// processors.
func rounded(s string) string {
	return longNumber.ReplaceAllStringFunc(s, func(n string) string {
		v, err := strconv.ParseFloat(n, 64)
		if err != nil {
			return n
		}
		return strconv.FormatFloat(v, 'g', 9, 64)
	})
}

func TestGoldenOutput(t *testing.T) {
	for _, name := range scenarios.Names() {
		code, out, errs := call(t, "", "run", name)
		if code != exitDone || errs != "" {
			t.Errorf("%s: exit %d, %s", name, code, errs)
		}
		golden(t, name+".txt", out)
	}
	_, out, _ := call(t, "", "run", "eight-day", "--format", "csv", "--step", "4")
	golden(t, "eight-day.csv", out)
	_, out, _ = call(t, "", "run", "eight-day", "--format", "json", "--step", "8")
	golden(t, "eight-day.json", out)
	_, out, _ = call(t, "", "beat")
	golden(t, "beat.txt", out)
	_, out, _ = call(t, "", "samples")
	golden(t, "samples.txt", out)
}

// The default sample suits, the other three show what they say.
func TestSamplesShowWhatTheySay(t *testing.T) {
	want := map[string]string{"eight-day": "suits", "too-strong": "overdriven", "too-weak": "stops", "three-trains": "suits suits suits", "strike-quick": "overdriven", "strike-pleasant": "suits"}
	for _, name := range scenarios.Names() {
		_, out, _ := call(t, "", "run", name, "--format", "json")
		var doc struct {
			Scenario string
			Trains   []struct{ Verdict struct{ Code string } }
		}
		if err := json.Unmarshal([]byte(out), &doc); err != nil {
			t.Fatal(err)
		}
		var codes []string
		for _, train := range doc.Trains {
			codes = append(codes, train.Verdict.Code)
		}
		if got := strings.Join(codes, " "); got != want[name] {
			t.Errorf("%s: %s, want %s", name, got, want[name])
		}
		if !strings.Contains(doc.Scenario, "invented") {
			t.Errorf("%s does not say that it is invented", name)
		}
	}
}

// Every example in the help is run, as it stands, in an empty directory.
func TestExamplesInHelp(t *testing.T) {
	ran := 0
	everyCommand(newRoot(streams{}), func(c *cobra.Command) {
		t.Chdir(t.TempDir())
		writeText(t, "springs.csv", springsTable(3)) // a table that a reader has
		for line := range strings.Lines(c.Example) {
			words := strings.Fields(line)
			if len(words) == 0 || words[0] != "evenpull" {
				t.Errorf("%s: the example %q is no call", c.Name(), line)
				continue
			}
			if elsewhere(words) {
				continue
			}
			if code, _, errs := call(t, asked(t, words), few(words[1:])...); code != exitDone {
				t.Errorf("%s: exit %d: %s", strings.TrimSpace(line), code, errs)
			}
			ran++
		}
		if c.Example == "" {
			t.Errorf("%s has no example", c.Name())
		}
	})
	if ran < 12 {
		t.Errorf("only %d examples", ran)
	}
}

// wantExit wants a command line to end with a status, to say something in its
// messages, to print nothing when it fails, and never a number that is none.
func wantExit(t *testing.T, args string, code int, says string) {
	t.Helper()
	got, out, errs := call(t, "", few(strings.Fields(args))...)
	if got != code || !strings.Contains(errs, says) {
		t.Errorf("%q: exit %d, want %d; says %q, want %q in it", args, got, code, errs, says)
	}
	if got != exitDone && out != "" {
		t.Errorf("%q: half a result: %s", args, out)
	}
	if strings.Contains(out, "NaN") || strings.Contains(out, "Inf") {
		t.Errorf("%q: NaN or Inf in\n%s", args, out)
	}
}

func TestExitStatus(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.WriteFile("bad.toml", []byte("title = 3\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	tight, _ := scenarios.Text(scenarios.Default)
	tight = strings.Replace(tight, "set_up_turns        = 1.25", "set_up_turns = 9.5", 1)
	if err := os.WriteFile("tight.toml", []byte(tight), 0o644); err != nil {
		t.Fatal(err)
	}
	book, _ := scenarios.BenchText(scenarios.DefaultBench)
	clock, _ := scenarios.Text(scenarios.Default)
	for name, text := range map[string]string{"book.toml": book, "clock.toml": clock} {
		if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	cases := []struct {
		args string
		code int
		says string
	}{
		{"run", exitDone, ""},
		{"", exitDone, ""},
		{"run too-weak", exitDone, ""}, // whatever the verdict
		{"run bad.toml", exitInput, "bad.toml:1: title: found 3; want a text"},
		{"run missing.toml", exitInput, "missing.toml"},
		{"run eight-dya", exitInput, "did you mean eight-day?"},
		{"run nothing", exitInput, "the samples are: eight-day, strike"},
		{"run --set going.mainspring.thicknes_mm=0.4", exitUsage, "thickness_mm"},
		{"run --set going.mainspring.thickness_mm=-1", exitUsage, "--set going.mainspring.thickness_mm"},
		{"run --set going.barrel.set_up_turns=9.5", exitUsage, "--set going.barrel.set_up_turns: the set-up alone winds the spring home"},
		{"run tight.toml", exitInput, "tight.toml:32: going.barrel.set_up_turns: the set-up alone"},
		{"run --plot=", exitUsage, ".svg, .png or .pdf"},
		{"beat", exitDone, ""},
		{"beat --periods 0", exitUsage, "--periods 0: want 1 to"},
		{"beat --start-deg -3", exitUsage, "--start-deg"},
		{"beat --fusee-turn 99", exitUsage, "outside the run"},
		{"beat --fusee-turn NaN", exitUsage, "want a number of turns"},
		{"beat too-strong", exitDone, ""},
		{"beat --set going.escapement.trip_deg=4 --start-deg 5", exitUsage, "--start-deg 5: want"},
		{"run --set going.escapement.trip_deg=1", exitUsage, "--set going.escapement.trip_deg: found 1; want more than"},
		{"beat --format xml", exitUsage, "want text, json or csv"},
		{"beat --plot x.gif", exitUsage, ".svg, .png or .pdf"},
		{"beat three-trains --train striking", exitInput, "no train asked for has an escapement"},
		{"beat three-trains --train nothing", exitUsage, "the scenario has: going, striking, quarters"},
		{"sweep --from 0,3", exitUsage, `--from: found "0,3"; want a number with a decimal point: 0.3`},
		{"spread --runs many", exitUsage, `--runs: found "many"; want a whole number`},
		{"run --set going.mainspring.thickness_mm=0,4", exitUsage, "with a decimal point: 0.4"},
		{"run mixed-barrels", exitInput, "mixed-barrels is a sample bench file; want a scenario"},
		{"record eight-day", exitInput, "eight-day is a sample scenario; want a bench file"},
		{"run book.toml", exitInput, "this looks like a bench file, which record and assign read; want a scenario\n"},
		{"record clock.toml", exitInput, "this looks like a scenario, which run reads; want a bench file\n"},
		{"run go\x1b[31m.toml", exitUsage, `argument 2, "go\x1b[31m.toml": found the control character '\x1b'; want plain text`},
		{"run --plot \u202egvs.svg", exitUsage, "found the character U+202E, which cannot be printed"},
		{"run --set note=\xff", exitUsage, "found the character U+FFFD, which cannot be printed"},
		{"run --train \u009b", exitUsage, `found the control character '\u009b'`},
		{"\x00", exitUsage, `argument 1, "\x00": found the control character '\x00'`},
		{"run --set nonsense", exitUsage, "want KEY=VALUE"},
		{"run --format xml", exitUsage, "want text, json or csv"},
		{"run --plot picture.gif", exitUsage, ".svg, .png or .pdf"},
		{"run --plot none/picture.svg", exitInput, "none"},
		{"run --drawing clock.svg", exitDone, "drawing written to clock.svg"},
		{"run --drawing clock.svg", exitInput, "exists already"},
		{"run --drawing clock.gif", exitUsage, ".svg, .png or .pdf"},
		{"run --step 0", exitUsage, "--step"},
		{"run --step -1", exitUsage, "--step"},
		{"run --step NaN", exitUsage, "--step"},
		{"run --train going", exitDone, ""},
		{"run --train striking", exitUsage, "the scenario has: going"},
		{"run a b", exitUsage, "found 2 arguments: a, b; want evenpull run [SCENARIO]"},
		{"run --stpe 1", exitUsage, "unknown flag"},
		{"rum", exitUsage, "there is no command"},
		{"help", exitDone, ""},
		{"help run", exitDone, ""},
		{"help completion bash", exitDone, ""},
		{"help rum", exitUsage, `there is no command "rum"; there are assign, batch, beat`},
		{"help run rum", exitUsage, `there is no command "run rum"; there are assign, batch, beat`},
		{"help completion rum", exitUsage, `there is no command "completion rum"`},
		{"completion", exitDone, ""},
		{"completion rum", exitUsage, `there is no command "rum"; there are bash, fish, powershell and zsh`},
		{"completion bash rum", exitUsage, "found 1 argument: rum; want evenpull completion bash"},
		{"samples nothing", exitUsage, "there are eight-day"},
		{"run strike-quick --set striking.strike.hammers.1.mass_g=900", exitDone, ""},
		{"run strike-quick --set striking.strike.lift_share=1.2", exitUsage, "a pin that lifts longer than its pitch"},
		{"run strike-quick --set striking.fly.outer_radius_mm=0", exitUsage, "want a number"},
		{"init", exitUsage, "found no argument; want evenpull init FILE"},
		{"init bad.toml", exitInput, "exists already"},
		{"init new.toml --from nothing", exitUsage, "no such sample"},
		{"man nowhere", exitInput, "no such directory"},
	}
	for _, c := range cases {
		wantExit(t, c.args, c.code, c.says)
	}
}

// A pendulum that cannot be kept going, qualities and arcs at their limits, a
// clock that trips: a sentence each, and never a number that is none.
func TestPendulumsAtTheirLimits(t *testing.T) {
	t.Chdir(t.TempDir())
	cases := map[string]string{
		"going.pendulum.quality=1":                "by prediction it does not keep swinging",
		"going.pendulum.quality=1e6":              "semi-arc 8.59° to 8.59°",
		"going.pendulum.mass_g=900000":            "by prediction it does not keep swinging",
		"going.escapement.escaping_arc_deg=178":   "by prediction it does not keep swinging",
		"going.escapement.escaping_arc_deg=0.01":  "semi-arc",
		"going.escapement.trip_deg=3":             "at which the escapement trips",
		"going.escapement.drop=0.99":              "by prediction it does not keep swinging",
		"going.pendulum.length_mm=10":             "hours",
		"going.escapement.teeth=10000":            "by prediction it does not keep swinging",
		"going.mesh.escape.drag_nm=1":             "take alone",
		"going.demand.least_torque_nm=0.00000123": "0.00000123 N·m",
	}
	for set, says := range cases {
		code, out, errs := call(t, "", "run", "--set", set, "--plot", "p.svg", "--force")
		if code != exitDone || !strings.Contains(strings.Join(strings.Fields(out), " "), says) {
			t.Errorf("%s: exit %d, no %q in\n%s%s", set, code, says, out, errs)
		}
		picture, _ := os.ReadFile("p.svg")
		_, asJSON, _ := call(t, "", "run", "--set", set, "--format", "json")
		_, beat, beatErrs := call(t, "", "beat", "--set", set, "--periods", "5000")
		_, beatJSON, _ := call(t, "", "beat", "--set", set, "--periods", "5000", "--format", "json")
		if beat == "" || !json.Valid([]byte(asJSON)) || !json.Valid([]byte(beatJSON)) {
			t.Errorf("%s: beat says %q", set, beat+beatErrs)
		}
		for _, text := range []string{out, string(picture), asJSON, beat, beatJSON} {
			if strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
				t.Errorf("%s: NaN or Inf in\n%s", set, text)
			}
		}
	}
}

// bodyOf is a run without the next step, which names its file.
func bodyOf(said string) string {
	body, _, _ := strings.Cut(said, "Next: ")
	return body
}

func TestInitThenRun(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, name := range scenarios.Names() {
		file := name + "-mine.toml"
		if code, _, errs := call(t, "", "init", file, "--from", name); code != exitDone {
			t.Fatalf("%s: %s", name, errs)
		}
		_, mine, _ := call(t, "", "run", "--full", file)
		_, theirs, _ := call(t, "", "run", "--full", name)
		text, _ := os.ReadFile(file)
		_, piped, _ := call(t, string(text), "run", "--full", "-")
		mine, theirs, piped = bodyOf(mine), bodyOf(theirs), bodyOf(piped)
		_, results, _ := strings.Cut(theirs, "\n\n") // below title and note
		if !strings.HasSuffix(mine, "\n\n"+results) || piped != mine || results == "" {
			t.Errorf("%s: file, standard input and sample differ", name)
		}
		if !strings.Contains(mine, "sample "+name) || len(mine) > len(theirs)+200 {
			t.Errorf("%s: the file does not say whose numbers it has:\n%s", name, mine)
		}
	}
	if _, before, _ := call(t, "", "samples", "too-weak"); !strings.Contains(before, "[train.mainspring]") {
		t.Error("samples NAME does not print the sample")
	}
}

// An existing file stays as it is unless --force is given, and no other file
// is left behind.
func TestFilesAreWhole(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.WriteFile("plot.svg", []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	if code, _, errs := call(t, "", "run", "--plot", "plot.svg"); code != exitInput || !strings.Contains(errs, "exists already") {
		t.Errorf("exit %d: %s", code, errs)
	}
	if text, _ := os.ReadFile("plot.svg"); string(text) != "mine" {
		t.Error("overwritten without being asked")
	}
	if code, _, errs := call(t, "", "run", "--plot", "plot.svg", "--force"); code != exitDone || !strings.Contains(errs, "plot written to plot.svg") {
		t.Errorf("exit %d: %s", code, errs)
	}
	if text, _ := os.ReadFile("plot.svg"); !bytes.Contains(text, []byte("</svg>")) {
		t.Error("not overwritten when asked")
	}
	if err := writeFile(t.Context(), "half.txt", false, failHalfway); err == nil {
		t.Error("a write that failed was called done")
	}
	left, _ := os.ReadDir(".")
	if len(left) != 1 {
		t.Errorf("left behind: %v", left)
	}
}

// A link is followed, its target's mode is kept, and what is no plain file is
// left alone.
func TestWhatIsOverwritten(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.WriteFile("real.svg", []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("real.svg", "link.svg"); err != nil {
		t.Skip("no links here")
	}
	if code, _, errs := call(t, "", "run", "--plot", "link.svg", "--force"); code != exitDone {
		t.Fatal(errs)
	}
	if st, err := os.Lstat("link.svg"); err != nil || st.Mode()&os.ModeSymlink == 0 {
		t.Error("the link is gone")
	}
	st, _ := os.Stat("real.svg")
	if text, _ := os.ReadFile("real.svg"); !bytes.Contains(text, []byte("</svg>")) || st.Mode().Perm() != 0o600 {
		t.Errorf("the target was not written, or has the mode %v", st.Mode())
	}
	if err := os.Symlink("nowhere.svg", "dangling.svg"); err != nil {
		t.Fatal(err)
	}
	if code, _, errs := call(t, "", "run", "--plot", "dangling.svg", "--force"); code != exitInput || !strings.Contains(errs, "a link to nothing") {
		t.Errorf("exit %d: %s", code, errs)
	}
	if err := os.Mkdir("dir.svg", 0o755); err != nil {
		t.Fatal(err)
	}
	if code, _, errs := call(t, "", "run", "--plot", "dir.svg", "--force"); code != exitInput || !strings.Contains(errs, "is no plain file") {
		t.Errorf("exit %d: %s", code, errs)
	}
	if code, _, errs := call(t, "", "init", "nowhere/x.toml"); code != exitInput || !strings.Contains(errs, "nowhere/x.toml cannot be written: no such file or directory") {
		t.Errorf("exit %d: %s", code, errs)
	}
}

func TestColourOnlyOnTerminals(t *testing.T) {
	if wantsColour(&bytes.Buffer{}) {
		t.Error("colour into a buffer")
	}
	f, err := os.Create(filepath.Join(t.TempDir(), "out"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if wantsColour(f) {
		t.Error("colour into a file")
	}
	null, err := os.OpenFile(os.DevNull, os.O_WRONLY, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer null.Close()
	t.Setenv("NO_COLOR", "1")
	if wantsColour(null) {
		t.Error("colour in spite of NO_COLOR")
	}
}

func TestCompletion(t *testing.T) {
	for _, shell := range []string{"bash", "zsh", "fish", "powershell"} {
		if code, out, errs := call(t, "", "completion", shell); code != exitDone || len(out) < 500 {
			t.Errorf("%s: exit %d, %s", shell, code, errs)
		}
	}
	if _, out, _ := call(t, "", "__complete", "run", ""); !strings.Contains(out, "too-strong") {
		t.Errorf("samples are not completed: %s", out)
	}
	if _, out, _ := call(t, "", "__complete", "run", "--format", ""); !strings.Contains(out, "json") {
		t.Errorf("formats are not completed: %s", out)
	}
	if _, out, _ := call(t, "", "__complete", "run", "eight-day", ""); strings.Contains(out, "too-strong") {
		t.Errorf("a second scenario is offered: %s", out)
	}
}

func failHalfway(w io.Writer) error {
	if _, err := w.Write([]byte("half")); err != nil {
		return err
	}
	return fmt.Errorf("the pen broke")
}
