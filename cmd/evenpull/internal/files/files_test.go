package files

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"
)

func mineAlways(fs.FS) error { return nil }

// TestRaces: of twelve that write one new file, or one new folder, at once exactly one is
// told that it did, and it is whole; also where there are no hard links.
func TestRaces(t *testing.T) {
	for kind, race := range map[string]struct {
		rounds int
		d      Disk
		write  func(d Disk, name string, data []byte) error
	}{
		"file": {200, Disk{}, func(d Disk, name string, data []byte) error {
			return d.File(t.Context(), name, data, New)
		}},
		"file without links": {50, Disk{fail: func(step string) error {
			if step == "link" {
				return errors.ErrUnsupported
			}
			return nil
		}}, func(d Disk, name string, data []byte) error { return d.File(t.Context(), name, data, New) }},
		"folder": {50, Disk{}, func(d Disk, name string, data []byte) error {
			return d.Folder(t.Context(), name, []Part{{"data", data}}, New, mineAlways)
		}},
	} {
		dir := t.TempDir()
		for round := range race.rounds {
			name := filepath.Join(dir, fmt.Sprint(round))
			var done atomic.Int32
			var winner atomic.Value
			var all sync.WaitGroup
			start := make(chan struct{})
			for i := range 12 {
				data := strings.Repeat(string(rune('a'+i)), 10_000)
				all.Go(func() {
					<-start
					if err := race.write(race.d, name, []byte(data)); err == nil {
						done.Add(1)
						winner.Store(data)
					} else if !errors.Is(err, ErrExists) {
						t.Errorf("%s: %v", kind, err)
					}
				})
			}
			close(start)
			all.Wait()
			if kind == "folder" {
				name = filepath.Join(name, "data")
			}
			if text, err := os.ReadFile(name); done.Load() != 1 || err != nil || string(text) != winner.Load() {
				t.Errorf("%s: %d of 12 wrote it, %v", kind, done.Load(), err)
			}
		}
		if left, _ := filepath.Glob(filepath.Join(dir, ".*")); len(left) > 0 {
			t.Errorf("%s: left behind: %v", kind, left)
		}
	}
}

// TestStages: a stage whose run lives is left alone, and so is what is none; one without a
// run goes, and of those without locks only old ones.
func TestStages(t *testing.T) {
	dir := t.TempDir()
	s, err := Disk{}.stage(dir)
	if err != nil {
		t.Fatal(err)
	}
	put(t, filepath.Join(dir, ".evenpull.notes"), "mine")
	put(t, filepath.Join(dir, ".evenpull.12"), "mine") // no folder
	put(t, filepath.Join(dir, ".evenpull.x1", "a"), "mine")
	others := ".evenpull.12=mine .evenpull.notes=mine .evenpull.x1= .evenpull.x1/a=mine"
	Disk{}.clear(dir)
	if _, err := os.Stat(s.dir); err != nil {
		t.Errorf("the stage of a run that lives: %v", err)
	}
	if s.held != nil {
		if _, err := lock(s.dir); !errors.Is(err, errTaken) {
			t.Errorf("it can be claimed: %v", err)
		}
	}
	s.release()
	long := time.Now().Add(-2 * abandoned)
	if err := os.Chtimes(s.dir, long, long); err != nil {
		t.Fatal(err)
	}
	Disk{}.clear(dir)
	if got := content(t, dir); got != others {
		t.Errorf("%s, want %s", got, others)
	}
	if _, err := lock(s.dir); err == nil {
		t.Error("a stage that is gone can be claimed")
	}
}

// TestWithoutLocks: where there are none, what a run left behind goes when it is old.
func TestWithoutLocks(t *testing.T) {
	d := Disk{fail: func(step string) error {
		if step == "lock" {
			return errors.ErrUnsupported
		}
		return nil
	}}
	dir := t.TempDir()
	put(t, filepath.Join(dir, ".evenpull.1", "new"), "half")
	put(t, filepath.Join(dir, ".evenpull.2", "new"), "half")
	long := time.Now().Add(-2 * abandoned)
	if err := os.Chtimes(filepath.Join(dir, ".evenpull.1"), long, long); err != nil {
		t.Fatal(err)
	}
	if err := d.File(t.Context(), filepath.Join(dir, "a"), []byte("b"), New); err != nil {
		t.Fatal(err)
	}
	if got := content(t, dir); got != ".evenpull.2= .evenpull.2/new=half a=b" {
		t.Error(got)
	}
}

// TestReplacedStaysAway: a folder that was replaced is not put back by a later run, also
// when it could not be taken away and its successor is gone meanwhile.
func TestReplacedStaysAway(t *testing.T) {
	j := jobs["folder again"]
	dir := j.before(t)
	d := Disk{fail: func(step string) error {
		if step == "clear" {
			return errFull
		}
		return nil
	}}
	if err := j.write(d, dir); err != nil || !strings.Contains(content(t, dir), "/gone/kept") {
		t.Fatalf("%v; %s", err, content(t, dir))
	}
	if err := os.RemoveAll(filepath.Join(dir, j.name)); err != nil {
		t.Fatal(err)
	}
	if got := afterAnother(t, dir); got != "letter.txt=mine" {
		t.Error(got)
	}
}

// TestInterrupt: what ends before it is whole is not written.
func TestInterrupt(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	stop()
	dir := t.TempDir()
	at := filepath.Join(dir, "a")
	for _, err := range []error{
		Disk{}.File(ctx, at, nil, New), Disk{}.File(ctx, at, nil, Replace), Disk{}.Folder(ctx, at, []Part{{"b", nil}}, New, mineAlways),
	} {
		var told Interrupted
		if !errors.As(err, &told) || told.Name != at || !errors.Is(err, context.Canceled) || content(t, dir) != "" {
			t.Errorf("%v; %s", err, content(t, dir))
		}
	}
}

// TestPlace: what is refused, with its reason.
func TestPlace(t *testing.T) {
	t.Chdir(t.TempDir())
	put(t, "file", "old")
	put(t, "folder/a", "old")
	for link, to := range map[string]string{"link": "file", "nowhere": "nothing", "way": "folder"} {
		if err := os.Symlink(to, link); err != nil {
			t.Skip("no links here")
		}
	}
	const exists = " exists already; give another name, or --force to overwrite it"
	for _, c := range []struct {
		name   string
		how    How
		file   string // what is said of it as a file,
		folder string // and as a folder
	}{
		{"file", New, "file" + exists, "file is no folder and is left alone"},
		{"file", ReplaceNoLink, "", "file is no folder and is left alone"},
		{"file", Replace, "", "file is no folder and is left alone"},
		{"link", New, "link" + exists, "link is no folder and is left alone"},
		{"link", Replace, "", "link is no folder and is left alone"},
		{"link", ReplaceNoLink, "link is a link and is left alone", "link is no folder and is left alone"},
		{"nowhere", New, "nowhere is a link to nothing and is left alone", "nowhere is no folder and is left alone"},
		{"nowhere", Replace, "nowhere is a link to nothing and is left alone", "nowhere is no folder and is left alone"},
		{"nowhere", ReplaceNoLink, "nowhere is a link and is left alone", "nowhere is no folder and is left alone"},
		{"folder", Replace, "folder is no plain file and is left alone", "folder is not mine; it is left alone"},
		{"folder", New, "folder is no plain file and is left alone", "folder" + exists},
		{"folder/", New, `"folder/" is no name of a file`, "folder/" + exists},
		{"new/", New, `"new/" is no name of a file`, ""},
		{"way", Replace, "way is no plain file and is left alone", "way is no folder and is left alone"},
		{"way/b", New, "", ""},
		{".", Replace, ". is no plain file and is left alone", ". holds the folder that you are in and is left alone"},
		{"..", Replace, ".. is no plain file and is left alone", ".. holds the folder that you are in and is left alone"},
		{"new/b", New, "new/b cannot be written: no such file or directory", "new/b cannot be written: no such file or directory"},
		{"file/b", New, "file/b cannot be written: not a directory", "file/b cannot be written: not a directory"},
		{"", New, `"" is no name of a file`, `"" is no name of a folder`},
		{"new", New, "", ""},
	} {
		if err := CheckFile(c.name, c.how); c.file == "" && err != nil || c.file != "" && (err == nil || err.Error() != c.file) {
			t.Errorf("%q as a file: %v, want %s", c.name, err, c.file)
		}
		err := CheckFolder(c.name, c.how, func(fs.FS) error { return errors.New("is not mine") })
		if c.folder == "" && err != nil || c.folder != "" && (err == nil || !strings.HasPrefix(err.Error(), c.folder)) {
			t.Errorf("%q as a folder: %v, want %s", c.name, err, c.folder)
		}
	}
	parent, err := filepath.Abs("..")
	if got, bad := resolved(".."); err != nil || bad != nil || got != parent {
		t.Errorf(".. is %s, %v, %v", got, err, bad)
	}
	// The file behind a link is written, wherever the way to it leads, and keeps its mode.
	if err := (Disk{}).File(t.Context(), "way/../link", []byte("new"), Replace); err != nil {
		t.Fatal(err)
	}
	st, _ := os.Lstat("link")
	behind, _ := os.Stat("file")
	if text, _ := os.ReadFile("file"); string(text) != "new" || st.Mode()&fs.ModeSymlink == 0 || behind.Mode().Perm() != 0o640 {
		t.Errorf("%s, %v, %v", text, st.Mode(), behind.Mode())
	}
}

// TestSame: names of one file, be it there or not.
func TestSame(t *testing.T) {
	t.Chdir(t.TempDir())
	put(t, "a", "")
	put(t, "b", "")
	put(t, "sub/deep/c", "")
	for link, to := range map[string]string{"link": "a", "way": "sub/deep", "nowhere": "nothing"} {
		if err := os.Symlink(to, link); err != nil {
			t.Skip("no links here")
		}
	}
	if err := os.Link("a", "hard"); err != nil {
		t.Skip("no hard links here")
	}
	here, _ := os.Getwd()
	for _, c := range []struct {
		one, other string
		same       bool
	}{
		{"a", "a", true}, {"a", "./a", true}, {"a", "sub/../a", true}, {"a", filepath.Join(here, "a"), true}, {"a", "b", false},
		{"a", "link", true}, {"a", "hard", true}, {"way/c", "sub/deep/c", true}, {"way/new", "sub/deep/new", true},
		{"way/../new", "sub/new", true}, {"way/../new", "new", false}, // a link leads elsewhere
		{"new", "new", true}, {"new", "./new", true}, {"new", "NEW", true}, {"new", "newer", false}, {"a", "new", false},
		{"none/new", "none/./new", true}, {"none/new", "other/new", false}, {"NONE/new", "none/new", true},
	} {
		if Same(c.one, c.other) != c.same || Same(c.other, c.one) != c.same {
			t.Errorf("%s and %s: %v", c.one, c.other, !c.same)
		}
	}
	for _, c := range []struct {
		name, folder string
		within       bool
	}{
		{"sub/deep/c", "sub", true}, {"sub", "sub", true}, {"way/c", "sub", true}, {"way/new", "sub/deep", true}, {"sub/deep/../../a", "sub", false},
		{"a", "sub", false}, {"sub", "sub/deep", false}, {"none/x", "none", true}, {"none/x/y", "none", true}, {"none", "none/x", false}, {".", "..", true},
	} {
		if Within(c.name, c.folder) != c.within {
			t.Errorf("%s in %s: %v", c.name, c.folder, !c.within)
		}
	}
}
