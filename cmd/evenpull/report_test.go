package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/show/words"
)

func TestReportExitStatus(t *testing.T) {
	t.Chdir(t.TempDir())
	writeText(t, "bad.toml", "title = 3\n")
	writeText(t, "mine.html", "mine")
	if err := os.MkdirAll("others/deep", 0o755); err != nil {
		t.Fatal(err)
	}
	writeText(t, "others/letter.txt", "not of the study")
	cases := []struct {
		args string
		code int
		says string
	}{
		{"report", exitUsage, "want --out FILE.html or FILE.md, or --data DIR"},
		{"report --out page.pdf", exitUsage, "ending in .html or .md"},
		{"report --out page.html", exitDone, "study written to page.html"},
		{"report --out page.html", exitInput, "exists already"},
		{"report --out page.html --force", exitDone, ""},
		{"report --out mine.html", exitInput, "exists already"},
		{"report nowhere.toml --out a.html", exitInput, "nowhere.toml cannot be read"},
		{"report bad.toml --out a.html", exitInput, "bad.toml:1: title: found 3"},
		{"report --set going.mainspring.thicknes_mm=1 --out a.html", exitUsage, "did you mean"},
		{"report --bench nothing --out a.html", exitInput, "the samples are: mixed-barrels"},
		{"report three-trains --bench mixed-barrels --out b.html", exitDone, ""},
		{"report eight-day too-weak too-strong --out c.md", exitDone, "study written to c.md"},
		{"report eight-day --out c.md", exitInput, "c.md exists already"},
		{"report --data kept", exitDone, "data written to kept"},
		{"report --data kept", exitInput, "exists already"},
		{"report --data kept --force", exitDone, ""},
		{"report --data others --force", exitInput, "not of the study"},
		{"report --data mine.html --force", exitInput, "is no folder"},
		{"report --verify kept", exitDone, ""},
		{"report --verify others", exitInput, "no folder of a study's data"},
		{"report --verify nowhere", exitInput, "cannot be read"},
		{"report --verify kept --out a.html", exitUsage, "stands by itself"},
		{"report --verify kept a.html b.html", exitUsage, "stands by itself"},
		{"report --verify kept page.html", exitInput, "kept without a page"},
		{"report " + strings.Repeat("eight-day ", 13) + "--out a.html", exitUsage, "want at most 12"},
	}
	for _, c := range cases {
		wantExit(t, c.args, c.code, c.says)
	}
	if text, _ := os.ReadFile("mine.html"); string(text) != "mine" {
		t.Error("a file was overwritten without being asked")
	}
	if _, err := os.Stat("others/letter.txt"); err != nil {
		t.Error("a file that is not ours is gone")
	}
	if left, _ := filepath.Glob(".evenpull*"); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

// The figures in the page, the JSON and the CSV are the same to the last digit
// that the page shows.
func TestFiguresAgree(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, name := range scenarios.Names() {
		if code, _, errs := call(t, "", "report", name, "--out", "page.html", "--data", "kept", "--force"); code != exitDone {
			t.Fatal(errs)
		}
		page, _ := os.ReadFile("page.html")
		text, _ := os.ReadFile("kept/result-1.json")
		rows, _ := os.ReadFile("kept/rows-1.csv")
		var doc struct {
			Trains []struct {
				Name   string
				Torque struct{ Mean, Min, Max, Unevenness float64 } `json:"fusee_torque_nm"`
				Turns  []struct {
					Turn    float64 `json:"fusee_turn"`
					Torque  float64 `json:"fusee_torque_nm"`
					Winding float64 `json:"winding_torque_nm"`
				}
			}
		}
		if err := json.Unmarshal(text, &doc); err != nil {
			t.Fatal(err)
		}
		lines, err := rowsOf(string(rows))
		if err != nil {
			t.Fatal(err)
		}
		at := 1
		for _, train := range doc.Trains {
			for _, v := range []float64{train.Torque.Mean, train.Torque.Min, train.Torque.Max, 100 * train.Torque.Unevenness} {
				if !strings.Contains(string(page), words.Figure(v)) {
					t.Errorf("%s: %s is not in the page", name, words.Figure(v))
				}
			}
			for _, turn := range train.Turns {
				if got := number(t, lines[at][6]); got != turn.Torque || lines[at][0] != train.Name {
					t.Errorf("%s: turn %v: %v in the CSV, %v in the JSON", name, turn.Turn, got, turn.Torque)
				}
				at++
				cell := ">" + words.Figure(turn.Torque) + "<"
				if turn.Turn == float64(int(turn.Turn)) && !strings.Contains(string(page), cell) {
					t.Errorf("%s: turn %v: %s is not in the page", name, turn.Turn, cell)
				}
			}
		}
	}
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	var v float64
	if err := json.Unmarshal([]byte(text), &v); err != nil {
		t.Fatal(err)
	}
	return v
}

// The command that makes a document again comes through a POSIX shell as it was given.
func TestCommandThroughShell(t *testing.T) {
	sh, err := exec.LookPath("sh")
	if err != nil {
		t.Skip("there is no shell")
	}
	t.Chdir(t.TempDir()) // where no name matches a pattern
	args := []string{"plain.toml", "a b", "it's", `"`, "$HOME", "`id`", "$(id)", "a;b", "a&b", "a|b", "<a>", "*", "?", "[a]", "{a,b}", "~", "~root", "#x", "!x", "a\\b", "a\tb", "a=b", "%s", "ä", "", "-x", "(a)", "^", "A=1"}
	c := newReport(streams{})
	given := []string{"--set", "title=\"'x'\"", "--draws", "0", "--bench", "`b`", "--spring", "a=1", "--set", "b,c", "--date", "$d", "--out", "a;b.md", "--data", "#d", "--"}
	if err := c.ParseFlags(append(slices.Clone(given), args...)); err != nil {
		t.Fatal(err)
	}
	want := []string{"report", "--set", "title=\"'x'\"", "--set", "b,c", "--draws", "0", "--bench", "`b`", "--spring", "a=1", "--date", "$d", "--out", "a;b.md", "--data", "#d", "--"}
	want = append(want, args...)
	said, err := exec.Command(sh, "-c", "evenpull() { for w; do printf '%s\\n' \"$w\"; done; }\n"+commandOf(c)).CombinedOutput()
	if got := strings.TrimSuffix(string(said), "\n"); err != nil || got != strings.Join(want, "\n") {
		t.Errorf("%v: %q\nwant %q", err, got, want)
	}
}
