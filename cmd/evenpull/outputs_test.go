package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"evenpull/scenarios"
)

// tree is all that the current folder holds, with what stands in it.
func tree(t *testing.T) string {
	t.Helper()
	var all strings.Builder
	err := fs.WalkDir(os.DirFS("."), ".", func(at string, d fs.DirEntry, err error) error {
		text, _ := os.ReadFile(at)
		all.WriteString(at + "=" + string(text) + "\n")
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all.String()
}

// TestOutputs: two outputs in one place, an output in the place of what is read, and what
// may not be written at all are refused before anything is computed or written.
func TestOutputs(t *testing.T) {
	t.Chdir(t.TempDir())
	clock, _ := scenarios.Text(scenarios.Default)
	list, _ := scenarios.StockText(scenarios.DefaultStock)
	writeText(t, "clock.svg", clock)
	writeText(t, "stock.svg.toml", list)
	writeText(t, "readings.svg", "turn,repeat,torque_nm\n0,1,0.42\n1,1,0.41\n")
	writeText(t, "book.toml", "[[torque]]\ntrain = \"going\"\nspring = \"A\"\nfile = \"readings.svg\"\n")
	rows := "turn,repeat,torque_nm\n"
	for turn := range 17 {
		rows += fmt.Sprintf("%d,1,0.42\n", turn)
	}
	writeText(t, "page.html", rows)
	writeText(t, "paged.toml", "[[torque]]\ntrain = \"going\"\nspring = \"A\"\nfile = \"page.html\"\n")
	for _, dir := range []string{"sub", "others", "kept", "study-pictures"} {
		if err := os.Mkdir(dir, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	writeText(t, "others/letter.txt", "mine")
	writeText(t, "kept/clock.toml", clock)
	for link, to := range map[string]string{"link.svg": "clock.svg", "same": "sub"} {
		if err := os.Symlink(to, link); err != nil {
			t.Skip("no links here")
		}
	}
	if err := os.Link("clock.svg", "hard.svg"); err != nil {
		t.Skip("no hard links here")
	}
	before := tree(t)
	const two, places, read = "want two files", "want two places, neither in the other", ", which is read; want another name"
	for _, c := range []struct {
		args string
		code int
		says string
	}{
		{"run --plot a.svg --drawing a.svg", exitUsage, "--drawing a.svg and --plot a.svg: " + two},
		{"run --plot a.svg --drawing ./sub/../a.svg --force", exitUsage, two},
		{"run --plot sub/a.svg --drawing same/a.svg --force", exitUsage, two},
		{"run --plot link.svg --drawing hard.svg --force", exitUsage, two},
		{"run --plot a.svg --drawing A.svg --force", exitUsage, two}, // one file on many disks
		{"record --scenario three-trains --spring C --fit going.mainspring.thickness_mm --plot a.svg --save a.svg", exitUsage, two},
		{"report --out kept/a.html --data kept --force", exitUsage, "--out kept/a.html and --data kept: " + places},
		{"report --out new/a.html --data new", exitUsage, places},
		{"report --out a.html --data a.html", exitUsage, places},
		{"report --out study.md --data study-pictures --force", exitUsage, "--data study-pictures and the pictures of --out in study-pictures: " + places},
		{"report --out study.md --data study-pictures/data --force", exitUsage, places},
		{"run clock.svg --plot clock.svg --force", exitUsage, "--plot clock.svg would take the place of the input clock.svg" + read},
		{"run clock.svg --plot link.svg --force", exitUsage, read},
		{"run ./clock.svg --drawing hard.svg --force", exitUsage, read},
		{"run link.svg --plot clock.svg --force", exitUsage, read},
		{"choose --stock stock.svg.toml clock.svg --plot clock.svg --force", exitUsage, read},
		{"choose --stock clock.svg --plot link.svg --force", exitUsage, "the place of --stock clock.svg" + read},
		{"record book.toml --scenario clock.svg --plot clock.svg --force", exitUsage, "the place of --scenario clock.svg" + read},
		{"record book.toml --plot readings.svg --force", exitUsage, "--plot readings.svg would take the place of the readings readings.svg" + read},
		{"assign sub/../book.toml --plot readings.svg --force", exitUsage, read},
		{"record book.toml --scenario clock.svg --fit going.mainspring.thickness_mm --save book.toml --force", exitUsage, "--save book.toml would take the place of the input book.toml" + read},
		{"report --bench paged.toml --out page.html --force", exitUsage, "the place of the readings page.html" + read},
		{"report clock.svg --bench book.toml --data readings.svg --force", exitInput, "is no folder"},
		{"report kept/clock.toml --data kept --force", exitUsage, read},
		{"report kept/clock.toml --out kept.md --data kept --force", exitUsage, read},
		{"report --data others --force", exitInput, "others holds letter.txt, which is not of the study; it is left alone"},
		{"report --out study.md --data . --force", exitUsage, places}, // everything lies in .
		{"report --data . --force", exitInput, ". holds the folder that you are in and is left alone"},
		{"report --data kept", exitInput, "kept exists already"},
		{"report --data study-pictures", exitInput, "study-pictures exists already"},
		{"report --out study.md", exitInput, "study-pictures exists already"},
		{"init clock.svg", exitInput, "clock.svg exists already"},
		{"init eight-day", exitUsage, "init eight-day: this is the name of a sample, and would be mistaken for it; want another name, or ./eight-day"},
		{"init mixed-barrels", exitUsage, "this is the name of a sample"},
		{"report --data shop-drawer", exitUsage, "this is the name of a sample"},
		{"init -", exitUsage, "init -: want the name of a file; one that begins with a - is written ./-"},
		{"init sub/", exitInput, `"sub/" is no name of a file`},
		{"run --plot -a.svg", exitUsage, "is written ./-a.svg"},
		{"run --plot --force", exitUsage, "want the name of a file"},
		{"report --out none/a.html", exitInput, "none/a.html cannot be written: no such file or directory"},
		{"spread --runs 1000000000 --plot clock.svg", exitInput, "clock.svg exists already"}, // before it is computed
	} {
		wantExit(t, c.args, c.code, c.says)
	}
	if after := tree(t); after != before {
		t.Errorf("something was written:\n%s\nbefore:\n%s", after, before)
	}
	for _, args := range []string{"init ./eight-day", "init ./-", "run ./eight-day", "run --plot ./-a.svg --drawing b.svg", "report --out kept.md --data sub/data"} {
		wantExit(t, args, exitDone, "")
	}
}

// TestManual: pages are overwritten only when forced, and no link is followed.
func TestManual(t *testing.T) {
	t.Chdir(t.TempDir())
	wantExit(t, "man .", exitDone, "manual pages written to .")
	pages, _ := filepath.Glob("evenpull*.1")
	if text, err := os.ReadFile("evenpull-run.1"); err != nil || !strings.Contains(string(text), ".SH SYNOPSIS") || len(pages) < 16 {
		t.Errorf("%v, %d pages: %s", err, len(pages), text)
	}
	whole := tree(t)
	if err := os.Remove("evenpull-assign.1"); err != nil {
		t.Fatal(err)
	}
	writeText(t, "evenpull-run.1", "mine")
	before := tree(t)
	wantExit(t, "man .", exitInput, "exists already; give another name, or --force")
	if tree(t) != before {
		t.Error("some pages were written before the refusal")
	}
	wantExit(t, "man . --force", exitDone, "")
	if tree(t) != whole {
		t.Error("the pages were not written anew")
	}
	writeText(t, "letter.txt", "mine")
	if err := os.Remove("evenpull-run.1"); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("letter.txt", "evenpull-run.1"); err != nil {
		t.Skip("no links here")
	}
	for _, force := range []string{"", " --force"} {
		if code, _, errs := call(t, "", strings.Fields("man ."+force)...); code != exitInput {
			t.Errorf("exit %d: %s", code, errs)
		}
	}
	if text, _ := os.ReadFile("letter.txt"); string(text) != "mine" {
		t.Error("a link was followed")
	}
}
