package main

import (
	"bytes"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"evenpull/scenarios"
)

func TestGoldenCut(t *testing.T) {
	for name, args := range map[string]string{
		"cut.txt": "cut", "cut-strong.txt": "cut too-strong --anyway", "cut-blank.txt": "cut --from-blank --large-mm 34 --step 2", "cut-even.txt": "cut three-trains --train quarters --step 4",
		"cut-wanted.txt": "cut testdata/lost-fusee.toml --step 5", "cut-wanted.json": "cut testdata/lost-fusee.toml --step 5 --format json",
		"cut-none.txt": "cut testdata/lost-none.toml", "cut-none.json": "cut testdata/lost-none.toml --format json",
		"cut.json": "cut strike-quick --step 4 --format json", "cut.csv": "cut strike-quick --step 0.5 --format csv",
	} {
		code, out, errs := call(t, "", strings.Fields(args)...)
		if code != exitDone || (errs != "") != strings.HasSuffix(args, "csv") {
			t.Errorf("%s: exit %d, %s", args, code, errs)
		}
		golden(t, name, out)
	}
}

func TestCutExitStatus(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, c := range []struct {
		args string
		code int
		says string
	}{
		{"cut --step 0.01", exitUsage, "--step 0.01: want fusee turns from 0.05 to 64"},
		{"cut --step NaN", exitUsage, "--step"},
		{"cut --large-mm 30", exitUsage, "--large-mm goes with --from-blank"},
		{"cut --from-blank --large-mm NaN", exitUsage, "--large-mm NaN: want a diameter"},
		{"cut --from-blank --large-mm 0", exitUsage, "want a diameter from 0.5 to 2000 mm"},
		{"cut --from-blank --small-mm -Inf", exitUsage, "--small-mm -Inf: want a diameter"},
		{"cut --from-blank --small-mm 12 --large-mm 30", exitUsage, "want one of them"},
		{"cut --from-blank --keep-set-up", exitUsage, "--keep-set-up goes without --from-blank"},
		{"cut --from-blank --large-mm 60", exitUsage, "want a large end from 11.0 to 39.1 mm"},
		{"cut --from-blank --small-mm 20", exitUsage, "--small-mm 20: no even profile"},
		{"cut --drawing cone.dxf", exitUsage, "cone.dxf: a picture is written as .svg, .png or .pdf"},
		{"cut --train chimes", exitUsage, "the scenario has: going"},
		{"cut nonsense", exitInput, "there is no sample"},
		{"cut --keep-set-up --set going.barrel.set_up_turns=0", exitInput, "without set-up"},
		{"cut --set going.barrel.set_up_turns=0", exitDone, ""},
		{"cut --set going.mainspring.length_mm=700", exitDone, ""},
		{"cut --set going.mainspring.length_mm=200", exitDone, ""},
		{"cut --from-blank --large-mm 400", exitUsage, "their arbors stand 58.0 mm apart; want a large end from 11.0 to 39.1 mm"},
		{"cut --from-blank --small-mm 1", exitUsage, "want a small end from 6.0 to 15.0 mm"},
		{"cut --drawing cone.svg --sheet A5", exitUsage, `--sheet "A5": want A4, A3, letter`},
		{"cut --sheet A3", exitUsage, "--sheet goes with --drawing"},
		{"cut --drawing cone.svg --plot cone.svg", exitUsage, "--drawing cone.svg and --plot cone.svg: want two files"},
		{"cut --drawing cone.svg --plot ./x/../cone.svg --force", exitUsage, "want two files"},
	} {
		wantExit(t, c.args, c.code, c.says)
	}
}

// Every train of every sample, both ways, in every format, plotted and drawn.
func TestCutEverySample(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, name := range scenarios.Names() {
		_, doc, _ := call(t, "", "run", name, "--format", "json")
		var run struct{ Trains []struct{ Name string } }
		if err := json.Unmarshal([]byte(doc), &run); err != nil {
			t.Fatal(err)
		}
		for _, train := range run.Trains {
			for _, more := range []string{"--format json", "--format csv", "--keep-set-up", "--from-blank --large-mm 24 --format json", "--plot p.svg --drawing d.svg --force"} {
				args := append([]string{"cut", name, "--train", train.Name}, strings.Fields(more)...)
				code, out, errs := call(t, "", few(args)...)
				if code != exitDone || strings.Contains(out, "NaN") || strings.Contains(more, "json") && !json.Valid([]byte(out)) {
					t.Errorf("%s: exit %d, %s\n%s", args, code, errs, out)
				}
			}
			for _, file := range []string{"p.svg", "d.svg"} {
				if picture, _ := os.ReadFile(file); bytes.Contains(picture, []byte("NaN")) || !bytes.Contains(picture, []byte("</svg>")) {
					t.Errorf("%s of %s, %s is broken", file, name, train.Name)
				}
			}
		}
	}
}

// CSV has no room for the cautions: they stand on the screen.
func TestCutCSVCautions(t *testing.T) {
	_, out, errs := call(t, "", "cut", "--format", "csv")
	if strings.Count(errs, "Caution: ") != 3 || !strings.Contains(errs, "let-down key") || strings.Contains(out, "Caution") {
		t.Errorf("%s", errs)
	}
}

// A link to the plot is the plot.
func TestDrawingIntoThePlot(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.WriteFile("plot.svg", []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("plot.svg", "cone.svg"); err != nil {
		t.Skip(err)
	}
	code, out, errs := call(t, "", "cut", "--plot", "plot.svg", "--drawing", "cone.svg", "--force")
	if kept, _ := os.ReadFile("plot.svg"); code != exitUsage || out != "" || !strings.Contains(errs, "want two files") || string(kept) != "mine" {
		t.Errorf("exit %d, %s, kept %q", code, errs, kept)
	}
}

func TestDrawingIsNotOverwritten(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.WriteFile("cone.svg", []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	code, out, errs := call(t, "", "cut", "--drawing", "cone.svg")
	if kept, _ := os.ReadFile("cone.svg"); code != exitInput || out != "" || !strings.Contains(errs, "--force") || string(kept) != "mine" {
		t.Errorf("exit %d, %q, %s, kept %q", code, errs, out, kept)
	}
	if code, _, errs = call(t, "", "cut", "--drawing", "cone.svg", "--force"); code != exitDone || !strings.Contains(errs, "drawing written to cone.svg") {
		t.Errorf("exit %d, %q", code, errs)
	}
}

// A drawing of several sheets is a file a sheet, but as PDF; where one of them may not be
// written none is.
func TestDrawingOnSheets(t *testing.T) {
	t.Chdir(t.TempDir())
	long := []string{"cut", "--set", "going.fusee.pitch_mm=30", "--drawing"}
	if err := os.WriteFile("cone-3.svg", []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	code, _, errs := call(t, "", few(append(long, "cone.svg"))...)
	if _, err := os.Stat("cone.svg"); code != exitInput || !strings.Contains(errs, "cone-3.svg exists already") || err == nil {
		t.Errorf("exit %d, %s", code, errs)
	}
	if code, _, errs = call(t, "", few(append(long, "cone.svg", "--plot", "cone-2.svg", "--force"))...); code != exitUsage || !strings.Contains(errs, "takes 4 sheets") {
		t.Errorf("exit %d, %s", code, errs)
	}
	if code, _, errs = call(t, "", few(append(long, "cone.svg", "--force"))...); code != exitDone || !strings.Contains(errs, "drawing written to cone.svg, cone-2.svg, cone-3.svg, cone-4.svg") {
		t.Errorf("exit %d, %s", code, errs)
	}
	for _, name := range []string{"cone.svg", "cone-4.svg"} {
		if data, _ := os.ReadFile(name); !bytes.Contains(data, []byte(" of 4<")) {
			t.Errorf("%s is no sheet of four", name)
		}
	}
	if code, _, errs = call(t, "", few(append(long, "cone.pdf", "--sheet", "a3"))...); code != exitDone || !strings.Contains(errs, "drawing written to cone.pdf\n") {
		t.Errorf("exit %d, %s", code, errs)
	}
	huge := strings.Fields("cut three-trains --train quarters --set quarters.fusee.turns=60 --set quarters.fusee.large_diameter_mm=6 --set quarters.fusee.pitch_mm=100 --step 0.05 --drawing huge.pdf")
	if code, _, errs = call(t, "", few(huge)...); code != exitUsage || !strings.Contains(errs, "--drawing huge.pdf: the drawing would take ") || !strings.Contains(errs, "want 24 at the most") {
		t.Errorf("exit %d, %s", code, errs)
	}
	if data, _ := os.ReadFile("cone.pdf"); !bytes.Contains(data, []byte("/MediaBox [0 0 1190.55 841.89]")) || bytes.Count(data, []byte("/Type /Page\n")) != 3 {
		t.Error("the PDF has not three sheets of A3")
	}
}
