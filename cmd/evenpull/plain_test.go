//go:build unix

package main

import (
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strings"
	"syscall"
	"testing"
)

// changing is a folder in which a file is another one as soon as it was looked at.
type changing struct{ folder }

func (c changing) Lstat(string) (fs.FileInfo, error) { return c.folder.Lstat("plain") }

// What takes the place of a plain file between the look and the reading is not waited for
// and not read.
func TestReadPlain(t *testing.T) {
	dir := t.TempDir()
	writeText(t, dir+"/plain", "abc")
	writeText(t, dir+"/.out", secret)
	if err := syscall.Mkfifo(dir+"/pipe", 0o644); err != nil {
		t.Fatal(err)
	}
	for name, to := range map[string]string{"zero": "/dev/zero", "inside": "plain"} {
		if err := os.Symlink(to, dir+"/"+name); err != nil {
			t.Fatal(err)
		}
	}
	at, err := openFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer at.Close()
	for name, want := range map[string]string{"pipe": "pipe cannot be read: it is no plain file", "zero": "zero cannot be read: path escapes from parent", ".": ". cannot be read: it is no plain file", "nothing": "nothing cannot be read: no such file or directory"} {
		if text, err := readPlain(changing{at}, name, 10); err == nil || err.Error() != want {
			t.Errorf("%s: %q, %v", name, text, err)
		}
	}
	for name, want := range map[string]string{"inside": "it is no plain file", "../x": "path escapes from parent", "/etc/passwd": "path escapes from parent", "plain/x": "not a directory"} {
		if text, err := readPlain(at, name, 10); err == nil || !strings.HasSuffix(err.Error(), ": "+want) {
			t.Errorf("%s: %q, %v", name, text, err)
		}
	}
	if text, err := readPlain(at, "plain", 3); err != nil || string(text) != "abc" {
		t.Errorf("%q, %v", text, err)
	}
	if text, err := readPlain(at, "plain", 2); text != nil || err == nil || !strings.HasSuffix(err.Error(), "longer than the 2 bytes left for it") {
		t.Errorf("%q, %v", text, err)
	}
	if _, err := entriesOf(at, "plain"); err == nil {
		t.Error("a file was listed")
	}
	if _, err := openFolder(dir + "/plain"); err == nil || !strings.HasSuffix(err.Error(), " is no folder") {
		t.Error(err)
	}
}

// What is no plain file is refused before anything waits for it or reads without end, and
// what is too much is not read.
func TestVerifyReadsPlainFiles(t *testing.T) {
	t.Chdir(t.TempDir())
	keeps(t, "eight-day", "--out", "page.html")
	writeText(t, "other", secret+" = 1\n")
	again := restored(t)
	link := func(to, name string) {
		os.Remove(name)
		if err := os.Symlink(to, name); err != nil {
			t.Fatal(err)
		}
	}
	pipe := func(name string) {
		os.Remove(name)
		if err := syscall.Mkfifo(name, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	huge := func(name string, size int64) {
		writeText(t, name, "")
		if err := os.Truncate(name, size); err != nil {
			t.Fatal(err)
		}
	}
	for what, c := range map[string]struct {
		says string
		do   func()
	}{
		"an endless device":      {"rows-1.csv cannot be read: it is no plain file", func() { link("/dev/zero", "kept/rows-1.csv") }},
		"such a manifest":        {"manifest.json cannot be read: it is no plain file", func() { link("/dev/zero", "kept/manifest.json") }},
		"such a page":            {"page.html cannot be read: it is no plain file", func() { link("/dev/zero", "page.html") }},
		"a pipe":                 {"inputs/eight-day.toml cannot be read: it is no plain file", func() { pipe("kept/inputs/eight-day.toml") }},
		"a pipe of a manifest":   {"manifest.json cannot be read: it is no plain file", func() { pipe("kept/manifest.json") }},
		"a pipe of a page":       {"page.html cannot be read: it is no plain file", func() { pipe("page.html") }},
		"somebody else's file":   {"inputs/eight-day.toml cannot be read: it is no plain file", func() { link("../other", "kept/inputs/eight-day.toml") }},
		"somebody's as manifest": {"manifest.json cannot be read: it is no plain file", func() { link("/etc/passwd", "kept/manifest.json") }},
		"a copy of it":           {"manifest.json is not as evenpull writes it", func() { os.Remove("kept/manifest.json"); os.Link("other", "kept/manifest.json") }},
		"somebody's as page":     {"page.html was changed", func() { os.Remove("page.html"); os.Link("other", "page.html") }},
		"a link to nothing":      {"rows-1.csv cannot be read: it is no plain file", func() { link("nothing", "kept/rows-1.csv") }},
		"pictures elsewhere":     {"pictures cannot be read: it is no plain file", func() { os.Rename("kept/pictures", "pictures"); link("../pictures", "kept/pictures") }},
		"a folder for a file":    {"rows-1.csv is a folder that no study has", func() { os.Remove("kept/rows-1.csv"); os.Mkdir("kept/rows-1.csv", 0o755) }},
		"a huge file":            {"rows-1.csv cannot be read: it is longer than ", func() { huge("kept/rows-1.csv", 1<<40) }},
		"a huge manifest":        {"manifest.json cannot be read: it is longer than ", func() { huge("kept/manifest.json", 1<<40) }},
		"a huge page":            {"page.html cannot be read: it is longer than ", func() { huge("page.html", 1<<40) }},
		"many files": {"there are more than 4096 files", func() {
			for i := range 4200 {
				writeText(t, fmt.Sprintf("kept/x%d", i), "")
			}
		}},
		"many scenarios": {"found 3000 scenarios", func() {
			sealed(t, func(m *manifest) {
				m.Args = append([]string{"report", "--"}, slices.Repeat([]string{"eight-day"}, 3000)...)
			})
		}},
		"many studies": {"there are more than 4096 files", func() {
			for i := range 30 {
				at := fmt.Sprintf("kept/studies/%d/inputs", i)
				if err := os.MkdirAll(at, 0o755); err != nil {
					t.Fatal(err)
				}
				for k := range 150 {
					writeText(t, fmt.Sprintf("%s/%d", at, k), "")
				}
			}
		}},
		"studies in studies": {"studies/a/studies is a folder that no study has", func() { os.MkdirAll("kept/studies/a/studies", 0o755) }},
	} {
		c.do()
		verifies(t, what, c.says)
		again()
	}
	verifies(t, "as it was", "")
}
