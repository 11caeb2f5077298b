package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// The worked study is made by its script, and every figure of it comes out again in a fresh
// folder from its data alone; a digit, a file and a scenario that were changed are told by name.
func TestWorkedStudy(t *testing.T) {
	script, err := filepath.Abs("../../scenarios/evenness/make.sh")
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	if err := os.CopyFS(".", os.DirFS(filepath.Dir(script))); err != nil {
		t.Fatal(err)
	}
	runScript(t, script)
	fresh := t.TempDir()
	for _, name := range []string{"evenness-data", "evenness.html"} {
		to := strings.Replace(name, "evenness-data", "kept", 1)
		if err := os.Rename(name, filepath.Join(fresh, to)); err != nil {
			t.Fatal(err)
		}
	}
	t.Chdir(fresh)
	verifies(t, "whole", "")
	again := restored(t)
	for what, c := range map[string]struct{ says, file, old, new string }{
		"a digit of a map":      {"studies/thickness_and_set-up_of_the_small_train/sweep.csv was changed", "studies/thickness_and_set-up_of_the_small_train/sweep.csv", "0.27,", "0.28,"},
		"a digit of the table":  {"studies/the_family_in_one_table/batch.csv was changed", "studies/the_family_in_one_table/batch.csv", "suits", "thin"},
		"a scenario":            {"inputs/large.toml was changed", "inputs/large.toml", "0.48", "0.49"},
		"a scenario of a study": {"studies/the_family_in_one_table/inputs/middle-straight.toml was changed", "studies/the_family_in_one_table/inputs/middle-straight.toml", "12.0", "12.1"},
		"the table that it had": {"studies/the_family_in_one_table/inputs/family.csv was changed", "studies/the_family_in_one_table/inputs/family.csv", "small.toml,-10", "small.toml,-11"},
	} {
		edit(t, filepath.Join("kept", c.file), c.old, c.new)
		verifies(t, what, c.says)
		again()
	}
	os.Remove("kept/studies/one_batch_of_clocks_like_the_middle_train/spread.csv")
	verifies(t, "a file less", "studies/one_batch_of_clocks_like_the_middle_train/spread.csv is missing")
	again()
	// What was changed with all check sums made again comes out otherwise.
	folder := "kept/studies/straight_cones_in_place_of_the_even_one"
	edit(t, folder+"/inputs/middle-straight.toml", "width_mm     = 32", "width_mm     = 31")
	sealedIn(t, folder, nil)
	sealed(t, nil)
	verifies(t, "another scenario, well sealed", "studies/straight_cones_in_place_of_the_even_one/sweep.csv: line ")
}

// runScript runs the calls of a shell script, which a shell has to find sound.
func runScript(t *testing.T, script string) {
	t.Helper()
	if sh, err := exec.LookPath("sh"); err == nil {
		if out, err := exec.Command(sh, "-n", script).CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", err, out)
		}
	}
	calls := 0
	for line := range strings.Lines(strings.ReplaceAll(fileOf(t, script), "\\\n", " ")) {
		line, _, _ = strings.Cut(strings.TrimSpace(line), " > ")
		words := strings.Fields(line)
		switch {
		case len(words) == 0 || strings.HasPrefix(line, "#") || words[0] == "set":
		case words[0] == "mkdir":
			if err := os.MkdirAll(words[2], 0o755); err != nil {
				t.Fatal(err)
			}
		case words[0] == "evenpull":
			calls++
			if code, _, errs := call(t, "", words[1:]...); code != exitDone {
				t.Fatalf("%s: %s", line, errs)
			}
		default:
			t.Errorf("%s: %q is not known here", script, line)
		}
	}
	if calls < 5 {
		t.Errorf("%s makes %d calls", script, calls)
	}
}
