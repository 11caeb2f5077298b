package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"

	"evenpull/cmd/evenpull/internal/ask"
	"evenpull/cmd/evenpull/internal/files"
	"evenpull/sim/show/words"
)

// bookOf is the name of the bench book beside a scenario, when none is given.
func bookOf(scenario, book string) string {
	if book != "" {
		return book
	}
	return strings.TrimSuffix(scenario, filepath.Ext(scenario)) + "-bench.toml"
}

// askFor asks for a clock and writes its scenario and its bench book: both, or neither.
func askFor(ctx context.Context, s streams, name, book, from string) error {
	in, echo := s.in, !typed(s.in)
	if from != "" && from != "-" {
		text, err := fileText(from)
		if err != nil {
			return err
		}
		in, echo = strings.NewReader(text), true
	}
	t, err := ask.Ask(in, s.err, ask.Options{Caution: words.Caution(math.NaN()), Echo: echo})
	if errors.Is(err, ask.ErrEnd) {
		return fmt.Errorf("%w; nothing was written", err)
	}
	if err != nil {
		return err
	}
	if t.Book == "" {
		book = ""
	}
	if err := writeBoth(ctx, name, t.Scenario, book, t.Book); err != nil {
		return err
	}
	if book == "" {
		s.say("written: %s; no bench book, since nothing was measured\nThen: evenpull run %s", name, name)
		return nil
	}
	s.say("written: %s and %s\nThen: evenpull record %[2]s --scenario %[1]s, and evenpull run %[1]s --bench %[2]s", name, book)
	return nil
}

// writeBoth writes a scenario and, where it has a name, a bench book, and reads them again. On
// a fault neither is there.
func writeBoth(ctx context.Context, name, scenario, book, bench string) (err error) {
	for _, part := range []files.Part{{Name: book, Data: []byte(bench)}, {Name: name, Data: []byte(scenario)}} {
		if part.Name == "" {
			continue
		}
		if err := (files.Disk{}).File(ctx, part.Name, part.Data, files.New); err != nil {
			return err
		}
		defer func() {
			if err != nil {
				err = errors.Join(err, os.Remove(part.Name))
			}
		}()
		if err := readAgain(part.Name, part.Name == book); err != nil {
			return err
		}
	}
	return nil
}

// readAgain reads a file that was written.
func readAgain(name string, bench bool) error {
	text, err := fileText(name)
	switch {
	case err != nil:
	case bench:
		_, err = parseBench(name, text)
	default:
		_, err = parse(name, text)
	}
	return err
}

// typed tells whether what is read is typed at a terminal.
func typed(in io.Reader) bool {
	if r, ok := in.(reading); ok {
		in = r.in
	}
	f, ok := in.(*os.File)
	if !ok {
		return false
	}
	st, err := f.Stat()
	return err == nil && st.Mode()&os.ModeCharDevice != 0
}
