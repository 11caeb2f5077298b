package sim_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// DEVELOPERS.md lists every room, and none imports one of a row further down. Tests may.
func TestNoRoomImportsOneFurtherDown(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	rows, rooms := rowsOf(string(text)), imports(t)
	if len(rows) < 20 || len(rooms) < 40 {
		t.Fatalf("only %d rows and %d rooms found", len(rows), len(rooms))
	}
	for _, fault := range furtherDown(rows, rooms) {
		t.Error(fault)
	}
	for i, row := range rows {
		for _, name := range row {
			if !slices.ContainsFunc(slices.Collect(maps.Keys(rooms)), func(room string) bool { return isOf(room, name) }) {
				t.Errorf("row %d: there is no room %s", i+1, name)
			}
		}
	}
	if t.Failed() {
		return
	}
	// What the house must not have is seen.
	for room, down := range map[string]string{"train": "sim", "sim/bench/measure": "sim/study/sure", "sim": "sim/internal/entry/new"} {
		worse := maps.Clone(rooms)
		worse[room] = append(slices.Clone(rooms[room]), down)
		if got := furtherDown(rows, worse); len(got) != 1 || !strings.HasPrefix(got[0], room+" imports "+down) {
			t.Errorf("%s imports %s, and found is %q", room, down, got)
		}
	}
	if got := furtherDown(rows, map[string][]string{"sim/new": nil}); len(got) != 1 {
		t.Errorf("sim/new has no row, and found is %q", got)
	}
}

// furtherDown tells which rooms import one of a row further down, or have no row.
func furtherDown(rows [][]string, rooms map[string][]string) (faults []string) {
	row := func(room string) int {
		return slices.IndexFunc(rows, func(names []string) bool {
			return slices.ContainsFunc(names, func(name string) bool { return isOf(room, name) })
		})
	}
	for _, room := range slices.Sorted(maps.Keys(rooms)) {
		own := row(room)
		if own < 0 {
			faults = append(faults, room+" has no row in DEVELOPERS.md")
		}
		for _, to := range rooms[room] {
			if at := row(to); own >= 0 && (at > own || at < 0) {
				faults = append(faults, room+" imports "+to+", which DEVELOPERS.md has further down, or nowhere")
			}
		}
	}
	return faults
}

// isOf tells whether a room has a name of a row, or is below one that ends in /….
func isOf(room, name string) bool {
	all, open := strings.CutSuffix(name, "/…")
	return room == all || open && strings.HasPrefix(room, all+"/")
}

// rowsOf are the names in each row of the table of rooms; testdata is none.
func rowsOf(text string) (rows [][]string) {
	_, text, _ = strings.Cut(text, "| room |")
	text, _, _ = strings.Cut(text, "\n\n")
	for line := range strings.Lines(text) {
		first, _, _ := strings.Cut(strings.TrimPrefix(line, "| "), " | ")
		var names []string
		for _, quoted := range regexp.MustCompile("`[^`]+`").FindAllString(first, -1) {
			names = append(names, strings.Trim(quoted, "`"))
		}
		if len(names) > 0 && names[0] != "testdata" {
			rows = append(rows, names)
		}
	}
	return rows
}

// imports are the rooms of the module, by their folder, and those that each imports.
func imports(t *testing.T) map[string][]string {
	t.Helper()
	mod, err := os.ReadFile(filepath.Join("..", "go.mod"))
	if err != nil {
		t.Fatal(err)
	}
	own := regexp.MustCompile(`(?m)^module (\S+)`).FindStringSubmatch(string(mod))[1] + "/"
	rooms := map[string][]string{}
	err = filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		switch name := d.Name(); {
		case err != nil:
			return err
		case d.IsDir() && (name == "testdata" || len(name) > 2 && name[0] == '.'):
			return filepath.SkipDir
		case filepath.Ext(name) != ".go" || strings.HasSuffix(name, "_test.go"):
			return nil
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		room := filepath.ToSlash(filepath.Dir(path[len("../"):]))
		if rooms[room] == nil {
			rooms[room] = []string{}
		}
		for _, i := range f.Imports {
			if to, ok := strings.CutPrefix(strings.Trim(i.Path.Value, `"`), own); ok && !slices.Contains(rooms[room], to) {
				rooms[room] = append(rooms[room], to)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return rooms
}
