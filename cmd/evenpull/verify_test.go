package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"evenpull/scenarios"
)

// keeps makes a study in the current folder: kept, with its page beside it.
func keeps(t *testing.T, args ...string) {
	t.Helper()
	if code, _, errs := call(t, "", append([]string{"report", "--draws", "20", "--date", "today", "--data", "kept"}, args...)...); code != exitDone {
		t.Fatal(errs)
	}
}

// verifies wants --verify to end so and to say so: "" when all is as it was. It says
// nothing else of any file, and is not long about it.
func verifies(t *testing.T, what, says string, args ...string) {
	t.Helper()
	begun := time.Now()
	code, out, errs := call(t, "", append([]string{"report", "--verify", "kept"}, args...)...)
	if took := time.Since(begun); took > 20*time.Second {
		t.Errorf("%s: took %v", what, took)
	}
	if says == "" && (code != exitDone || !strings.Contains(out, "come out the same")) || says != "" && (code != exitInput || out != "" || !strings.Contains(errs, says)) {
		t.Errorf("%s: exit %d: %s%s", what, code, out, errs)
	}
	if strings.Contains(errs, secret) || len(errs) > 3000 || strings.ContainsAny(errs, "\x1b\x00\r") {
		t.Errorf("%s: says %.3000s", what, errs)
	}
}

// secret stands in files that are not of the study.
const secret = "geheim"

// sealed makes the checksums of the kept files again, as somebody would who changed them.
func sealed(t *testing.T, change func(m *manifest)) {
	t.Helper()
	sealedIn(t, "kept", change)
}

func sealedIn(t *testing.T, folder string, change func(m *manifest)) {
	t.Helper()
	m, err := readManifest(os.DirFS(folder))
	if err != nil {
		t.Fatal(err)
	}
	for name := range m.SHA256 {
		content, _ := os.ReadFile(filepath.Join(folder, name))
		m.SHA256[name] = checksum(content)
	}
	if text, err := os.ReadFile(m.Page.Name); err == nil {
		m.Page.SHA256 = checksum(text)
	}
	if change != nil {
		change(m)
	}
	writeText(t, filepath.Join(folder, manifestName), string(m.text()))
}

// swapped puts another argument in the place of one.
func swapped(m *manifest, arg, with string) { m.Args[slices.Index(m.Args, arg)] = with }

// edit replaces a text in a file once.
func edit(t *testing.T, name, old, with string) {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil || !strings.Contains(string(text), old) {
		t.Fatalf("%s: %v, no %q in it", name, err, old)
	}
	writeText(t, name, strings.Replace(string(text), old, with, 1))
}

// restored puts the study back as it was when the function is called.
func restored(t *testing.T) func() {
	t.Helper()
	before := filepath.Join(t.TempDir(), "before")
	if err := os.CopyFS(before, os.DirFS(".")); err != nil {
		t.Fatal(err)
	}
	return func() {
		entries, _ := os.ReadDir(".")
		for _, e := range entries {
			if err := os.RemoveAll(e.Name()); err != nil {
				t.Fatal(err)
			}
		}
		if err := os.CopyFS(".", os.DirFS(before)); err != nil {
			t.Fatal(err)
		}
	}
}

// withReadings makes a bench file whose readings stand in files of their own.
func withReadings(t *testing.T) {
	t.Helper()
	text, _ := scenarios.BenchText(scenarios.DefaultBench)
	writeText(t, "bench.toml", text+"\n[[torque]]\ntrain = \"going\"\nspring = \"Z\"\nfile = \"spring-z.csv\"\nwinding_file = \"more/Z up.csv\"\nfirst_turn = 0\n")
	if err := os.Mkdir("more", 0o755); err != nil {
		t.Fatal(err)
	}
	writeText(t, "spring-z.csv", "turn,repeat,torque_nm\n0,1,0.52\n1,1,0.51\n2,1,0.5\n")
	writeText(t, "more/Z up.csv", "turn,repeat,torque_nm\n0,1,0.62\n1,1,0.61\n2,1,0.6\n")
}

// All that stands on a page is kept and computed again, from the folder alone: also the
// bench file and the files of readings that it names.
func TestVerify(t *testing.T) {
	t.Chdir(t.TempDir())
	withReadings(t)
	keeps(t, "three-trains", "--set", "going.mainspring.thickness_mm=0.39", "--bench", "bench.toml", "--out", "page.html")
	for _, gone := range []string{"bench.toml", "spring-z.csv", "more"} {
		if err := os.RemoveAll(gone); err != nil {
			t.Fatal(err)
		}
	}
	verifies(t, "whole", "")
	for _, file := range []string{"clock-1-train-3-thickness.csv", "clock-1-train-2-rank.json", "clock-1-train-1-setup.csv", "clock-1-train-1-made.json", "bench-record.json", "bench-assign.csv", "inputs/input-4.csv", "inputs/spring-z.csv", "datapackage.json", "pictures/bench-readings-1.svg"} {
		if _, err := os.Stat("kept/" + file); err != nil {
			t.Error(err)
		}
	}
	again := restored(t)
	for what, c := range map[string]struct {
		says string
		do   func()
	}{
		"a figure":             {"rows-1.csv was changed", func() { edit(t, "kept/rows-1.csv", "0", "1") }},
		"a picture":            {"pictures/bench-readings-1.svg was changed", func() { edit(t, "kept/pictures/bench-readings-1.svg", "0", "1") }},
		"a reading":            {"inputs/spring-z.csv was changed", func() { edit(t, "kept/inputs/spring-z.csv", "0.5", "0.6") }},
		"the page":             {"page.html was changed", func() { edit(t, "page.html", "today", "tomorrow") }},
		"a file that is gone":  {"result-1.json is missing", func() { os.Remove("kept/result-1.json") }},
		"no manifest":          {"this is no folder of a study's data: manifest.json cannot be read", func() { os.Remove("kept/manifest.json") }},
		"a file more":          {"notes.txt is not in the list", func() { writeText(t, "kept/notes.txt", secret) }},
		"a picture more":       {"pictures/.x is not in the list", func() { writeText(t, "kept/pictures/.x", secret) }},
		"a folder more":        {"more is a folder that no study has", func() { os.Mkdir("kept/more", 0o755) }},
		"a name with a colour": {`"\x1b[31m" is not in the list`, func() { writeText(t, "kept/\x1b[31m", secret) }},
		// With checksums made again:
		"another reading": {".csv: line ", func() { edit(t, "kept/inputs/spring-z.csv", "0.52", "0.53"); sealed(t, nil) }},
		"another sweep":   {"clock-1-train-1-thickness.csv: line 15: 0.2", func() { edit(t, "kept/clock-1-train-1-thickness.csv", "\n0.2", "\n0.21"); sealed(t, nil) }},
		"another elasticity": {"clock-1-train-2-rank.json: line ", func() {
			edit(t, "kept/clock-1-train-2-rank.json", `"elasticity": 1`, `"elasticity": 2`)
			sealed(t, nil)
		}},
		"another need": {"bench-record.json: line ", func() {
			edit(t, "kept/bench-record.json", `"least_torque_nm": 0.`, `"least_torque_nm": 0.1`)
			sealed(t, nil)
		}},
		"another pair": {"bench-assign.json: line ", func() { edit(t, "kept/bench-assign.json", `"mean": 1.`, `"mean": 2.`); sealed(t, nil) }},
		"another picture": {"pictures/train-1-torque.svg: line ", func() {
			edit(t, "kept/pictures/train-1-torque.svg", "font-size:10px", "font-size:12px")
			sealed(t, nil)
		}},
		"other words":          {"page.html: line 7 has other words now", func() { edit(t, "page.html", "<title>", "<title>"+secret); sealed(t, nil) }},
		"another figure there": {"page.html: line ", func() { edit(t, "page.html", "<td class=\"right\">0.4", "<td class=\"right\">0.5"); sealed(t, nil) }},
		"a sample's name": {"inputs/three-trains.toml is missing", func() { // a file of a changed scenario, called as a sample is
			os.Rename("kept/inputs/three-trains.toml", "kept/inputs/eight-day")
			sealed(t, func(m *manifest) {
				content, _ := os.ReadFile("kept/inputs/eight-day")
				m.SHA256["inputs/eight-day"], m.Inputs[0].Kept = checksum(content), "inputs/eight-day"
				delete(m.SHA256, "inputs/three-trains.toml")
			})
		}},
		"a sample in its place": {"eight-day is named as what the study was made from", func() { sealed(t, func(m *manifest) { m.Inputs[0].Kept = "eight-day" }) }},
		"an input less":         {"kept: bench.toml cannot be read: no such file", func() { sealed(t, func(m *manifest) { m.Inputs = slices.Delete(m.Inputs, 1, 2) }) }},
		"other draws":           {".json: line ", func() { sealed(t, func(m *manifest) { swapped(m, "--draws=20", "--draws=21") }) }},
		"a change less": {"rows-1.csv: it had ", func() {
			sealed(t, func(m *manifest) { swapped(m, "--set=going.mainspring.thickness_mm=0.39", "--draws=20") })
		}},
		"another change": {"0.39 was kept, and it is 0.38 now", func() {
			sealed(t, func(m *manifest) {
				swapped(m, "--set=going.mainspring.thickness_mm=0.39", "--set=going.mainspring.thickness_mm=0.38")
			})
		}},
		"another command":    {"sweep.json is missing", func() { sealed(t, func(m *manifest) { m.Args = []string{"sweep", "--", "three-trains"} }) }},
		"one that writes":    {"found --out; want no more than what a command reads", func() { sealed(t, func(m *manifest) { swapped(m, "--draws=20", "--out=../"+secret) }) }},
		"one that serves":    {"manifest.json: found try; want the arguments of a command that keeps its data", func() { sealed(t, func(m *manifest) { m.Args = []string{"try"} }) }},
		"one without data":   {"found letter; want", func() { sealed(t, func(m *manifest) { m.Args = []string{"letter"} }) }},
		"itself":             {"--verify is nothing that can be kept", func() { sealed(t, func(m *manifest) { m.Args = []string{"report", "--verify=kept"} }) }},
		"help":               {"comes to nothing that is kept", func() { sealed(t, func(m *manifest) { m.Args = []string{"run", "--help"} }) }},
		"a file of theirs":   {"/etc/passwd cannot be read: no such file", func() { sealed(t, func(m *manifest) { m.Args = []string{"run", "--", "/etc/passwd"} }) }},
		"another build":      {"result-1.json: line 4", func() { sealed(t, func(m *manifest) { m.Version = "v0" }) }},
		"another bench book": {"other.toml cannot be read", func() { sealed(t, func(m *manifest) { swapped(m, "--bench=bench.toml", "--bench=other.toml") }) }},
		"a setting of none":  {"kept: --set going.x: unknown key", func() { sealed(t, func(m *manifest) { swapped(m, "--draws=20", "--set=going.x=1") }) }},
	} {
		c.do()
		verifies(t, what, c.says)
		again()
	}
	verifies(t, "as it was", "")
}

// The page is found beside the folder, also from within it, or where it is said to be, and
// it is said when it is not there. Of a page in Markdown the pictures are compared too.
func TestVerifyPage(t *testing.T) {
	t.Chdir(t.TempDir())
	keeps(t, "eight-day", "too-strong", "--out", "my page.md")
	verifies(t, "beside", "")
	code, out, errs := call(t, "", "report", "--verify", "kept")
	if code != exitDone || !strings.Contains(out, "\nits page \"my page.md\" is as it was made\n") {
		t.Errorf("%s%s", out, errs)
	}
	again := restored(t)
	edit(t, "my page-pictures/clock-2-train-1-run.svg", "0", "1")
	verifies(t, "a picture", `"my page-pictures/clock-2-train-1-run.svg" was changed`)
	os.Remove("my page-pictures/clock-2-train-1-run.svg")
	verifies(t, "no picture", `"my page-pictures/clock-2-train-1-run.svg" cannot be read`)
	again()
	if err := os.Mkdir("away", 0o755); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"my page.md", "my page-pictures"} {
		if err := os.Rename(name, "away/"+name); err != nil {
			t.Fatal(err)
		}
	}
	verifies(t, "named", "", "away/my page.md")
	verifies(t, "named where it is not", "cannot be read", "my page.md")
	if code, out, errs := call(t, "", "report", "--verify", "kept"); code != exitDone || !strings.Contains(out, `its page "my page.md" is not beside it and was not compared; name it after kept`) {
		t.Errorf("exit %d: %s%s", code, out, errs)
	}
	again()
	t.Chdir("kept")
	if code, out, errs := call(t, "", "report", "--verify", "."); code != exitDone || !strings.Contains(out, "is as it was made") {
		t.Errorf("exit %d: %s%s", code, out, errs)
	}
}
