package main

import (
	_ "embed"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// Sessions at the terminal, slips and all: what is said and written is as it was, and run and
// record read both files.
func TestAsk(t *testing.T) {
	for _, name := range []string{"one-train", "two-trains"} {
		answers := fileOf(t, filepath.Join("testdata", "ask", name+".answers"))
		for i, from := range []string{"file", "pipe"} {
			dir := t.TempDir()
			clock, bench := filepath.Join(dir, "clock.toml"), filepath.Join(dir, "clock-bench.toml")
			args, in := []string{"init", clock, "--ask"}, answers
			if from == "file" {
				args, in = append(args, "--answers", filepath.Join("testdata", "ask", name+".answers")), ""
			}
			code, out, said := call(t, in, args...)
			if code != exitDone || out != "" {
				t.Fatalf("%s: exit %d, %s\n%s", name, code, out, said)
			}
			if i > 0 {
				continue
			}
			golden(t, "ask/"+name+".txt", strings.ReplaceAll(said, dir+string(filepath.Separator), ""))
			golden(t, "ask/"+name+".toml", fileOf(t, clock))
			golden(t, "ask/"+name+"-bench.toml", fileOf(t, bench))
			for _, args := range [][]string{{"run", clock, "--draws", "0"}, {"record", bench, "--scenario", clock}, {"run", clock, "--bench", bench, "--spring", "going=A", "--draws", "0"}} {
				if code, out, errs := call(t, "", args...); code != exitDone || !strings.Contains(out, "train") {
					t.Errorf("%s: exit %d, %s", args, code, errs)
				}
			}
		}
	}
}

// asked is what somebody answers to a call of an example, from the terminal or in notes.txt.
func asked(t *testing.T, words []string) string {
	t.Helper()
	if !slices.Contains(words, "--ask") {
		return ""
	}
	writeText(t, "notes.txt", answered)
	return answered
}

//go:embed testdata/ask/one-train.answers
var answered string

func fileOf(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// What asking refuses, it refuses before it asks; answers that end early leave nothing.
func TestAskRefuses(t *testing.T) {
	t.Chdir(t.TempDir())
	writeText(t, "there.toml", "")
	writeText(t, "old-bench.toml", "")
	writeText(t, "few.txt", "a\n# b\ngoing\n")
	for args, want := range map[string]string{
		"init there.toml --ask":                             "1 there.toml exists already",
		"init old.toml --ask":                               "1 old-bench.toml exists already",
		"init new.toml --ask --book new.toml":               "2 init new.toml and --book new.toml: want two files",
		"init new.toml --ask --book eight-day":              "2 this is the name of a sample",
		"init new.toml --ask --answers new-bench.toml":      "1 new-bench.toml cannot be read",
		"init few.txt --ask --answers few.txt":              "2 ",
		"init new.toml --ask --from too-weak":               "2 --ask goes neither with --from nor with --force",
		"init new.toml --ask --force":                       "2 --ask goes neither",
		"init new.toml --book b.toml":                       "2 --book and --answers go with --ask",
		"init new.toml --ask --answers few.txt":             "1 the answers ended at a question of the fusee of the going train: the turns; nothing was written",
		"init new.toml --ask --answers few.txt --book b":    "1 nothing was written",
		"init new.toml --ask --answers -":                   "1 the answers ended at a question of the clock",
		"init no/new.toml --ask --answers few.txt --book b": "1 no/new.toml cannot be written: no such file",
	} {
		code, out, errs := call(t, "", strings.Fields(args)...)
		wantCode, says, _ := strings.Cut(want, " ")
		if out != "" || code != int(wantCode[0]-'0') || !strings.Contains(errs, says) {
			t.Errorf("%s: exit %d, %s", args, code, errs)
		}
	}
	if left, err := filepath.Glob("*"); err != nil || strings.Join(left, " ") != "few.txt old-bench.toml there.toml" {
		t.Errorf("left: %s, %v", left, err)
	}
}

// When the second of the two files cannot be written, or either does not read, neither is left.
func TestAskBothOrNeither(t *testing.T) {
	clock, bench := fileOf(t, filepath.Join("testdata", "ask", "one-train.toml")), fileOf(t, filepath.Join("testdata", "ask", "one-train-bench.toml"))
	t.Chdir(t.TempDir())
	writeText(t, "there.toml", "x")
	for _, c := range []struct{ name, clock, book, bench, left string }{
		{"there.toml", clock, "book.toml", bench, "there.toml"},
		{"clock.toml", "title = 1", "book.toml", bench, "there.toml"},
		{"clock.toml", clock, "book.toml", "title = 1", "there.toml"},
		{"clock.toml", clock, "there.toml", bench, "there.toml"},
		{"only.toml", clock, "", "", "only.toml there.toml"},
		{"clock.toml", clock, "book.toml", bench, "book.toml clock.toml only.toml there.toml"},
	} {
		err := writeBoth(t.Context(), c.name, c.clock, c.book, c.bench)
		if left, bad := filepath.Glob("*"); bad != nil || strings.Join(left, " ") != c.left || fileOf(t, "there.toml") != "x" {
			t.Errorf("%s, %s: %v; left: %s", c.name, c.book, err, left)
		}
	}
}
