package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// runVerify computes kept data again.
func runVerify(ctx context.Context, s streams, dir string) error {
	if st, err := os.Stat(dir); err != nil {
		return fmt.Errorf("%s cannot be read: %w", dir, bare(err))
	} else if !st.IsDir() {
		return fmt.Errorf("%s is no folder", dir)
	}
	kept := os.DirFS(dir)
	m, err := readManifest(kept)
	if err != nil {
		return fmt.Errorf("%s: %w", dir, err)
	}
	faults := m.changed(kept)
	if len(faults) == 0 {
		f := reportFlags{set: m.Set, drawFlags: drawFlags{m.Draws}}
		var names []string
		for _, name := range m.Scenarios {
			names = append(names, filepath.Join(dir, filepath.FromSlash(name)))
		}
		again, err := f.build(ctx, s, names)
		if err != nil {
			return err
		}
		if faults, err = again.differs(kept); err != nil {
			return err
		}
	}
	if len(faults) > 0 {
		return fmt.Errorf("%s, made by evenpull %s on %s, is not the same:\n  %s", dir, m.Version, m.Date, strings.Join(faults, "\n  "))
	}
	fmt.Fprintf(s.out, "%s: %d files are as they were made, and their figures come out the same (made by evenpull %s on %s)\n", dir, len(m.SHA256), m.Version, m.Date)
	return nil
}
