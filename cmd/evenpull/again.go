package main

import (
	"context"
	"fmt"
	"io"
	"strings"
	"syscall"
)

// again is a command that is run once more, from what was kept of it.
type again struct {
	m    *manifest
	held map[string][]byte // the files of the folder
	came *supplement       // what it came to; nil until then
}

// text is that of what the command called so; what it could not read it cannot read now.
func (a *again) text(given string) (string, error) {
	for _, in := range a.m.Inputs {
		if in.Given == given {
			return string(a.held[in.Kept]), nil
		}
	}
	return "", fmt.Errorf("%s cannot be read: %w", given, syscall.ENOENT)
}

// build is the evenpull that is at work, or whose work is made again.
func (s streams) build() build {
	b := thisBuild()
	if s.again != nil {
		b.version, b.commit = s.again.m.Version, s.again.m.Commit
	}
	return b
}

// runAgain runs the command of a manifest from the files that were kept, and gives what it
// comes to. It reads and writes nothing else.
func runAgain(ctx context.Context, m *manifest, held map[string][]byte) (*supplement, error) {
	a := &again{m: m, held: held}
	root := newRoot(streams{in: strings.NewReader(""), out: io.Discard, err: io.Discard, again: a})
	if c, _, err := root.Find(m.Args); err != nil || c.Flags().Lookup("data") == nil {
		return nil, fmt.Errorf("%s: found %s; want the arguments of a command that keeps its data", manifestName, told(strings.Join(m.Args, " ")))
	}
	root.SetArgs(m.Args)
	root.SetOut(io.Discard)
	root.SetErr(io.Discard)
	if err := root.ExecuteContext(ctx); err != nil {
		return nil, err
	}
	if a.came == nil {
		return nil, fmt.Errorf("%s: %s comes to nothing that is kept", manifestName, told(strings.Join(m.Args, " ")))
	}
	return a.came, nil
}
