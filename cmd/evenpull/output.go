package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
	"syscall"
)

// writeFile writes a file beside its place and moves it there when it is
// whole. A file that exists is replaced only when forced, a link is followed,
// and anything but a plain file is refused. An interrupt leaves what there was.
func writeFile(name string, force bool, write func(io.Writer) error) (err error) {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	target, mode, err := place(name, force)
	if err != nil {
		return err
	}
	tmp, err := os.CreateTemp(filepath.Dir(target), ".evenpull.*")
	if err != nil {
		return fmt.Errorf("%s cannot be written: %w", name, bare(err))
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
		func() error { return tmp.Chmod(mode) },
		tmp.Close,
		func() error { // interrupted: what there was stays
			if ctx.Err() != nil {
				return errors.New("interrupted")
			}
			return nil
		},
		func() error { return os.Rename(tmp.Name(), target) },
	} {
		if err = step(); err != nil {
			return fmt.Errorf("%s cannot be written: %w", name, bare(err))
		}
	}
	return nil
}

// place finds the file that a name stands for, and the mode it is to have.
func place(name string, force bool) (target string, mode fs.FileMode, err error) {
	st, err := os.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if _, err := os.Lstat(name); err == nil {
			return "", 0, fmt.Errorf("%s is a link to nothing and is left alone", name)
		}
		return name, 0o644, nil
	case err != nil:
		return "", 0, fmt.Errorf("%s cannot be written: %w", name, bare(err))
	case !st.Mode().IsRegular():
		return "", 0, fmt.Errorf("%s is no plain file and is left alone", name)
	case !force:
		return "", 0, fmt.Errorf("%s exists already; give another name, or --force to overwrite it", name)
	}
	target, err = filepath.EvalSymlinks(name)
	return target, st.Mode().Perm(), err
}

// bare takes the names of system calls and temporary files off an error.
func bare(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	return err
}

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
