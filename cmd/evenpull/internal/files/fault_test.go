package files

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// The test binary writes as the job says, and ends without a word before a step, when
// these are set.
const (
	jobOf  = "EVENPULL_TEST_JOB"
	stepOf = "EVENPULL_TEST_STEP"
)

func TestMain(m *testing.M) {
	if name := os.Getenv(jobOf); name != "" {
		last, _ := strconv.Atoi(os.Getenv(stepOf))
		d := Disk{fail: func(string) error {
			if last--; last < 0 {
				os.Exit(killed)
			}
			return nil
		}}
		if err := jobs[name].write(d, "."); err != nil {
			fmt.Println(err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

const killed = 137

// job is something that is written, and what it is beside others.
type job struct {
	name  string // what is written
	how   How
	old   string // what stands there before; "" for nothing
	isDir bool
}

var jobs = map[string]job{
	"new file":       {name: "plot.svg"},
	"file again":     {name: "plot.svg", how: Replace, old: "old"},
	"forced, no old": {name: "plot.svg", how: Replace},
	"new folder":     {name: "kept", isDir: true},
	"folder again":   {name: "kept", how: Replace, old: "old", isDir: true},
}

func (j job) write(d Disk, dir string) error {
	at := filepath.Join(dir, j.name)
	if !j.isDir {
		return d.File(context.Background(), at, []byte("new"), j.how)
	}
	parts := []Part{{"manifest.json", []byte("new")}, {"pictures/a.svg", []byte("new")}}
	return d.Folder(context.Background(), at, parts, j.how, func(fs.FS) error { return nil })
}

// before makes what stands there before, in a folder with a file of somebody else.
func (j job) before(t *testing.T) (dir string) {
	t.Helper()
	dir = t.TempDir()
	put(t, filepath.Join(dir, "letter.txt"), "mine")
	switch {
	case j.old != "" && j.isDir:
		put(t, filepath.Join(dir, j.name, "manifest.json"), j.old)
		put(t, filepath.Join(dir, j.name, "pictures", "old.svg"), j.old)
	case j.old != "":
		put(t, filepath.Join(dir, j.name), j.old)
	}
	return dir
}

func put(t *testing.T, name, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, []byte(text), 0o640); err != nil {
		t.Fatal(err)
	}
}

// content is all that a folder holds, hidden files too.
func content(t *testing.T, dir string) string {
	t.Helper()
	var all []string
	err := filepath.WalkDir(dir, func(at string, e fs.DirEntry, err error) error {
		if err != nil || at == dir {
			return err
		}
		rel, _ := filepath.Rel(dir, at)
		text, _ := os.ReadFile(at)
		all = append(all, filepath.ToSlash(rel)+"="+string(text))
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return strings.Join(all, " ")
}

// visible leaves stages out of what a folder holds.
func visible(content string) string {
	var seen []string
	for file := range strings.FieldsSeq(content) {
		if !strings.HasPrefix(file, ".evenpull.") {
			seen = append(seen, file)
		}
	}
	return strings.Join(seen, " ")
}

// afterAnother is what a folder holds once another run has written there.
func afterAnother(t *testing.T, dir string) string {
	t.Helper()
	other := filepath.Join(dir, "other")
	if err := errors.Join((Disk{}).File(t.Context(), other, nil, New), os.Remove(other)); err != nil {
		t.Fatal(err)
	}
	return content(t, dir)
}

// wanted is what the folder of a job holds when nothing was written, and when all was.
func (j job) wanted() (without, with string) {
	without, with = "letter.txt=mine", "letter.txt=mine plot.svg=new"
	switch {
	case j.isDir && j.old != "":
		without = "kept= kept/manifest.json=old kept/pictures= kept/pictures/old.svg=old " + without
	case j.old != "":
		without += " plot.svg=old"
	}
	if j.isDir {
		with = "kept= kept/manifest.json=new kept/pictures= kept/pictures/a.svg=new letter.txt=mine"
	}
	return without, with
}

var errFull = errors.New("the disk is full")

// TestFaults lets every step of writing fail in turn, alone and with all that follow: what
// stood there stays, or all is written; the error names file and reason; what is left
// behind a later run clears.
func TestFaults(t *testing.T) {
	for kind, j := range jobs {
		without, with := j.wanted()
		steps := map[string]bool{}
		for _, lasting := range []bool{false, true} {
			for at := 0; ; at++ {
				dir, n, failed := j.before(t), 0, ""
				err := j.write(Disk{fail: func(step string) error {
					n++
					if n-1 == at || lasting && n > at {
						if failed == "" {
							failed = step
						}
						return &fs.PathError{Op: step, Path: "/stage", Err: errFull}
					}
					return nil
				}}, dir)
				if failed == "" {
					break // all steps were taken
				}
				steps[failed] = true
				want := with
				if err != nil {
					want = without
				}
				got := content(t, dir)
				kept := err != nil && strings.Contains(err.Error(), "; what was there is kept in "+dir)
				if !kept && visible(got) != want {
					t.Errorf("%s, %s fails (lasting %v): %v;\n%s, want\n%s", kind, failed, lasting, err, got, want)
				}
				if visible(got) != got && !lasting && failed != "clear" && failed != "rename" {
					t.Errorf("%s, %s fails: %s is left behind", kind, failed, got)
				}
				if err != nil && (!strings.HasPrefix(err.Error(), filepath.Join(dir, j.name)+" cannot be written: the disk is full") || strings.Contains(err.Error(), "/stage")) {
					t.Errorf("%s, %s fails: %v", kind, failed, err)
				}
				if got := afterAnother(t, dir); got != want {
					t.Errorf("%s, %s fails (lasting %v): after a later run %s, want %s", kind, failed, lasting, got, want)
				}
			}
		}
		for _, step := range []string{"stage", "lock", "open", "write", "sync", "close", "rename", "clear"} {
			if !steps[step] {
				t.Errorf("%s: %s did not fail", kind, step)
			}
		}
		if (kind == "new file") != steps["link"] {
			t.Errorf("%s: link %v", kind, steps["link"])
		}
	}
}

// TestKilled ends the process before every step of writing in turn: what stood there stays
// or, of a folder, is put back by a later run, which takes away all that is left behind.
func TestKilled(t *testing.T) {
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	for kind, j := range jobs {
		without, with := j.wanted()
		for at := 0; ; at++ {
			dir := j.before(t)
			cmd := exec.Command(self)
			cmd.Dir, cmd.Env = dir, append(os.Environ(), jobOf+"="+kind, stepOf+"="+strconv.Itoa(at))
			out, _ := cmd.CombinedOutput()
			if cmd.ProcessState.ExitCode() != killed {
				if cmd.ProcessState.ExitCode() != 0 || at < 6 || content(t, dir) != with {
					t.Errorf("%s, killed before step %d: %s", kind, at, out)
				}
				break
			}
			if got := afterAnother(t, dir); got != without && got != with {
				t.Errorf("%s, killed before step %d: %s", kind, at, got)
			}
		}
	}
}
