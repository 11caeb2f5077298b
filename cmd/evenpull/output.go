package main

import (
	"bytes"
	"context"
	"io"
	"os"

	"evenpull/cmd/evenpull/internal/files"
)

// writeFile writes a file whole or not at all. One that exists is replaced only when
// forced, and an interrupt leaves what there was.
func writeFile(ctx context.Context, name string, force bool, write func(io.Writer) error) error {
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return err
	}
	return files.Disk{}.File(ctx, name, b.Bytes(), how(force))
}

// how is what --force says may be done to what exists.
func how(force bool) files.How {
	if force {
		return files.Replace
	}
	return files.New
}

// bare takes the names of system calls and temporary files off an error.
func bare(err error) error { return files.Bare(err) }

// wantsColour tells whether w is a terminal and the user has not asked for no
// colour (the NO_COLOR convention).
func wantsColour(w io.Writer) bool { return os.Getenv("NO_COLOR") == "" && isTerminal(w) }

// isTerminal tells whether w is a terminal that can do more than write lines.
func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok || os.Getenv("TERM") == "dumb" {
		return false
	}
	st, err := f.Stat()
	return err == nil && st.Mode()&os.ModeCharDevice != 0
}
