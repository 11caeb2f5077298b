package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// writeFile writes a file beside its place and moves it there when it is
// whole. A file that exists is replaced only when forced.
func writeFile(ctx context.Context, name string, force bool, write func(io.Writer) error) (err error) {
	if _, err := os.Lstat(name); err == nil && !force {
		return fmt.Errorf("%s exists already; give another name, or --force to overwrite it", name)
	} else if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	tmp, err := os.CreateTemp(filepath.Dir(name), "."+filepath.Base(name)+".*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			tmp.Close()
			os.Remove(tmp.Name())
		}
	}()
	buf := bufio.NewWriter(tmp)
	for _, step := range []func() error{
		func() error { return write(buf) },
		buf.Flush,
		tmp.Sync,
		func() error { return tmp.Chmod(0o644) },
		tmp.Close,
		ctx.Err, // interrupted: what there was stays
	} {
		if err = step(); err != nil {
			return err
		}
	}
	return os.Rename(tmp.Name(), name)
}

// wantsColour tells whether w is a terminal and the user has not asked for no
// colour (the NO_COLOR convention).
func wantsColour(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok || os.Getenv("NO_COLOR") != "" || os.Getenv("TERM") == "dumb" {
		return false
	}
	st, err := f.Stat()
	return err == nil && st.Mode()&os.ModeCharDevice != 0
}
