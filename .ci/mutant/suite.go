package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"time"

	"golang.org/x/sync/errgroup"
	"golang.org/x/tools/cover"
)

// fate is what became of a mutant.
type fate int

const (
	uncovered fate = iota // no test comes there
	lived
	killed
	timedOut
	unbuilt // a test counts on what the fault changed, and does not compile
)

// tally is what became of the mutants of a package.
type tally struct {
	found int
	tried []*mutant
}

func (t *tally) count(f fate) (n int) {
	for _, m := range t.tried {
		if m.fate == f {
			n++
		}
	}
	return n
}

func (t *tally) share() float64 {
	if len(t.tried) == 0 {
		return 1
	}
	return float64(t.count(killed)+t.count(timedOut)) / float64(len(t.tried))
}

func (t *tally) list(w io.Writer) {
	for _, m := range t.tried {
		switch m.fate {
		case lived:
			fmt.Fprintln(w, "  lived", m)
		case uncovered:
			fmt.Fprintln(w, "  not covered", m)
		}
	}
}

// try puts faults into a package and lets its tests look for them, then the tests
// of another package when one is named.
func try(ctx context.Context, folder string, src *source, also string, o options) (*tally, error) {
	all := src.mutants()
	t := &tally{found: len(all), tried: src.draw(all, o.sample, o.seed)}
	suites := []*suite{{path: src.PkgPath}}
	if also != "" {
		also = src.Module.Path + "/" + also
		suites = append(suites, &suite{path: also, args: []string{"-run=" + quick}}, &suite{path: also, args: []string{"-skip=" + quick + "|" + slow}})
	}
	for _, s := range suites {
		if err := s.measure(ctx, folder, src); err != nil {
			return nil, err
		}
	}
	g, ctx := errgroup.WithContext(ctx)
	g.SetLimit(runtime.NumCPU())
	for i, m := range t.tried {
		g.Go(func() error { return src.hunt(ctx, filepath.Join(folder, strconv.Itoa(i)), m, suites) })
	}
	err := g.Wait()
	t.tried = slices.DeleteFunc(t.tried, func(m *mutant) bool { return m.fate == unbuilt })
	return t, err
}

// hunt runs the suites that come where the fault is until one fails.
func (s *source) hunt(ctx context.Context, stem string, m *mutant, suites []*suite) error {
	replaced, err := json.Marshal(map[string]any{"Replace": map[string]string{m.file: stem + ".go"}})
	if err != nil {
		return err
	}
	if err := errors.Join(os.WriteFile(stem+".go", s.faulty(m), 0o600), os.WriteFile(stem+".json", replaced, 0o600)); err != nil {
		return err
	}
	for _, suite := range suites {
		if !suite.covers(m) {
			continue
		}
		out, err := suite.run(ctx, "-overlay="+stem+".json", "-failfast", "-timeout="+suite.limit.String())
		switch {
		case ctx.Err() != nil:
			return ctx.Err()
		case err == nil:
			m.fate = lived
			continue
		case strings.Contains(out, "[build failed]") || strings.Contains(out, "[setup failed]"):
			m.fate = unbuilt
		case !strings.Contains(out, "FAIL\t"+suite.path):
			return fmt.Errorf("%v: go test itself failed: %w\n%s", m, err, out)
		case strings.Contains(out, "panic: test timed out"):
			m.fate = timedOut
		default:
			m.fate = killed
		}
		break
	}
	return nil
}

// suite is tests of a package, with the lines of another that they run through.
type suite struct {
	path    string
	args    []string
	limit   time.Duration // after which a run is taken for one without end
	profile map[string][]cover.ProfileBlock
}

const (
	quick = "^TestGolden"      // of the other package run first: they notice most
	slow  = "^TestInChromium$" // and a browser needs more memory than is allowed here
)

var took = regexp.MustCompile(`(?m)^ok\s+\S+\s+([0-9.]+)s`)

// measure runs the tests once without a fault.
func (s *suite) measure(ctx context.Context, folder string, src *source) error {
	file := filepath.Join(folder, "cover")
	defer os.Remove(file)
	out, err := s.run(ctx, "-coverpkg="+src.PkgPath, "-coverprofile="+file)
	if err != nil {
		return fmt.Errorf("the tests of %s fail without a fault: %w\n%s", s.path, err, out)
	}
	s.limit = 10 * time.Second
	if match := took.FindStringSubmatch(out); match != nil {
		seconds, _ := strconv.ParseFloat(match[1], 64)
		s.limit += time.Duration(5 * seconds * float64(time.Second))
	}
	s.profile = map[string][]cover.ProfileBlock{}
	profiles, err := cover.ParseProfiles(file)
	if err != nil && !errors.Is(err, fs.ErrNotExist) { // there is none without tests
		return err
	}
	for _, p := range profiles {
		s.profile[filepath.Base(p.FileName)] = p.Blocks
	}
	return nil
}

// covers tells whether a test comes where the fault is. What stands outside of
// every block, as tables do, is covered when the package has tests.
func (s *suite) covers(m *mutant) bool {
	inside := false
	for _, b := range s.profile[filepath.Base(m.file)] {
		after := m.line > b.StartLine || m.line == b.StartLine && m.column >= b.StartCol
		before := m.line < b.EndLine || m.line == b.EndLine && m.column <= b.EndCol
		if after && before {
			if b.Count > 0 {
				return true
			}
			inside = true
		}
	}
	return !inside && len(s.profile) > 0
}

// run lets the tests run on one core.
func (s *suite) run(ctx context.Context, args ...string) (string, error) {
	args = slices.Concat([]string{"test", "-count=1", "-vet=off", "-ldflags=-s -w", "-skip=" + slow}, s.args, args, []string{s.path})
	cmd := exec.CommandContext(ctx, "go", args...)
	cmd.Env = append(os.Environ(), "GOMAXPROCS=1")
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true} // go test, what it builds and what it runs end together
	cmd.Cancel = func() error { return syscall.Kill(-cmd.Process.Pid, syscall.SIGKILL) }
	out, err := cmd.CombinedOutput()
	return string(out), err
}
