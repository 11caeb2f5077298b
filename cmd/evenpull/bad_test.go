package main

import (
	"bytes"
	"cmp"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"golang.org/x/sync/errgroup"
	"golang.org/x/tools/txtar"
)

// How many bad inputs are tried: go test ./cmd/evenpull -run TestBadInputs -bad 50000
// Some alone: -bad-from 738 -bad 1.
var (
	bad     = flag.Int("bad", 2000, "bad inputs that TestBadInputs tries")
	badFrom = flag.Int("bad-from", -1, "the first of them, all in this process")
)

// What no input may take.
const (
	mostTime   = 20 * time.Second
	mostMemory = 512 << 20
)

// atOnce is how many inputs a process tries: cobra keeps the flags of every command line.
const atOnce = 500

// TestBadInputs takes bad and extreme inputs through every command: files of every kind
// and flags, damaged by numbered draws. Each is refused clearly or computed; what is
// neither is broken, and kept where its message says, to go into testdata/broken.
func TestBadInputs(t *testing.T) {
	if *badFrom >= 0 {
		tryBad(t, *badFrom, *bad)
		return
	}
	var all [3]int
	var sum sync.Mutex
	var workers errgroup.Group
	workers.SetLimit(runtime.GOMAXPROCS(0))
	for from := 0; from < *bad; from += atOnce {
		workers.Go(func() error {
			c := exec.CommandContext(t.Context(), os.Args[0], "-test.run=^TestBadInputs$", "-test.v", "-bad-from", strconv.Itoa(from), "-bad", strconv.Itoa(min(atOnce, *bad-from)))
			out, err := c.CombinedOutput()
			var counts [3]int
			_, told, _ := strings.Cut(string(out), "counts: ")
			if _, none := fmt.Sscan(told, &counts[refused], &counts[computed], &counts[broken]); err != nil || none != nil {
				t.Errorf("inputs from %d: %v\n%s", from, err, out)
			}
			sum.Lock()
			defer sum.Unlock()
			for i, n := range counts {
				all[i] += n
			}
			return nil
		})
	}
	_ = workers.Wait() // which has no error
	t.Logf("%d inputs: %d refused clearly, %d computed, %d broken", *bad, all[refused], all[computed], all[broken])
	if least := *bad / 10; all[refused] < least || all[computed] < least {
		t.Error("less than a tenth is refused or computed: that tries too little")
	}
}

// tryBad tries the inputs from a number on, one after the other.
func tryBad(t *testing.T, from, many int) {
	t.Helper()
	t.Chdir(t.TempDir()) // where nothing is to be written
	m := newMaker(t)
	var counts [3]int
	var memory runtime.MemStats
	dir := filepath.Join(t.TempDir(), "x")
	asked := map[string]bool{} // what is at the head of a name that some argument may be
	for n := from; n < from+many; n++ {
		in := m.input(n)
		for _, a := range in.args {
			_, value, _ := strings.Cut(a, "=")
			head, _, _ := strings.Cut(filepath.Clean(cmp.Or(value, a)), string(filepath.Separator))
			asked[head] = true
		}
		what, why := in.try(dir, n)
		// The heap as the system gave it never shrinks.
		if runtime.ReadMemStats(&memory); memory.HeapSys > mostMemory {
			t.Fatalf("input %d took %d MiB\n%s", n, memory.HeapSys>>20, in.keep(n))
		}
		if counts[what]++; what == broken {
			t.Errorf("input %d: %s\n%s", n, why, in.keep(n))
		}
	}
	fmt.Println("counts:", counts[refused], counts[computed], counts[broken])
	t.Logf("%d MiB at most", memory.HeapSys>>20)
	left, err := os.ReadDir(".")
	left = slices.DeleteFunc(left, func(d fs.DirEntry) bool { return asked[d.Name()] })
	if err != nil || len(left) > 0 {
		t.Errorf("written where nothing was asked for: %v %v", left, err)
	}
}

// TestBroken tries again what was once broken.
func TestBroken(t *testing.T) {
	files, err := filepath.Glob("testdata/broken/*.txtar")
	if err != nil || len(files) == 0 {
		t.Fatal("none are kept", err)
	}
	for _, file := range files {
		in, err := parseBad(file)
		if err != nil {
			t.Fatal(err)
		}
		if what, why := in.try(filepath.Join(t.TempDir(), "x"), -1); what == broken {
			t.Errorf("%s: %s", file, why)
		}
	}
}

// badInput is a command line with what it reads. In arguments {dir} stands for the folder
// of the files. A file whose text begins with linked is a link.
type badInput struct {
	args  []string
	stdin string
	files map[string]string
}

// try runs the input in a folder of its own, which it takes away again.
func (in *badInput) try(dir string, n int) (what int, why string) {
	defer os.RemoveAll(dir)
	if err := in.write(dir); err != nil {
		return broken, err.Error()
	}
	watch := time.AfterFunc(mostTime, func() {
		panic(fmt.Sprintf("input %d takes more than %v\n%s", n, mostTime, in.keep(n)))
	})
	defer watch.Stop()
	var out, errs bytes.Buffer
	code, crash := in.run(dir, &out, &errs)
	if crash != "" {
		return broken, crash
	}
	return judged(in, dir, code, out.String(), errs.String())
}

const linked = "-> "

func (in *badInput) write(dir string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for name, text := range in.files {
		file := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			return err
		}
		if to, link := strings.CutPrefix(strings.TrimSpace(text), linked); link && len(to) < 200 { // no damaged file that begins so
			if err := os.Symlink(strings.ReplaceAll(to, "{dir}", dir), file); err != nil {
				return err
			}
			continue
		}
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			return err
		}
	}
	return nil
}

func (in *badInput) run(dir string, out, errs *bytes.Buffer) (code int, crash string) {
	defer func() {
		if r := recover(); r != nil {
			crash = fmt.Sprintf("panic: %v\n%s", r, debug.Stack())
		}
	}()
	args := make([]string, len(in.args))
	for i, a := range in.args {
		args[i] = strings.ReplaceAll(a, "{dir}", dir)
	}
	return Main(args, strings.NewReader(in.stdin), out, errs), ""
}

// keep writes the input into a file as testdata/broken has them: an argument a line, then
// the files, standard input as "-".
func (in *badInput) keep(n int) string {
	var a txtar.Archive
	for _, arg := range in.args {
		a.Comment = append(strconv.AppendQuote(a.Comment, arg), '\n')
	}
	if in.stdin != "" {
		a.Files = append(a.Files, txtar.File{Name: "-", Data: []byte(in.stdin)})
	}
	for name, text := range in.files {
		a.Files = append(a.Files, txtar.File{Name: name, Data: []byte(text)})
	}
	name := filepath.Join(os.TempDir(), fmt.Sprintf("evenpull-broken-%d.txtar", n))
	if err := os.WriteFile(name, txtar.Format(&a), 0o600); err != nil {
		return err.Error()
	}
	return name
}

func parseBad(file string) (*badInput, error) {
	a, err := txtar.ParseFile(file)
	if err != nil {
		return nil, err
	}
	in := &badInput{files: map[string]string{}}
	for line := range strings.Lines(string(a.Comment)) {
		arg, err := strconv.Unquote(strings.TrimSpace(line))
		if err != nil {
			return nil, fmt.Errorf("%s: %q: %w", file, line, err)
		}
		in.args = append(in.args, arg)
	}
	for _, f := range a.Files {
		if f.Name == "-" {
			in.stdin = string(f.Data)
		} else {
			in.files[f.Name] = string(f.Data)
		}
	}
	return in, nil
}
