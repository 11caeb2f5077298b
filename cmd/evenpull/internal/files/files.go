// Package files writes files and folders whole or not at all. What is written is made in
// a stage, a hidden folder beside its place, and moved to its place when it is whole: a
// full disk, an interrupt or a kill leaves what there was, or nothing.
package files

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// How is what may be done to a file that exists.
type How int

const (
	New           How = iota // it is left alone
	Replace                  // it is replaced; of a link, the file behind it
	ReplaceNoLink            // it is replaced, and a link is left alone
)

// Disk is where files are written: the file system.
type Disk struct {
	fail func(step string) error // of tests: what goes wrong in place of a step; nil, nothing
}

// step takes one step of the file system.
func (d Disk) step(name string, take func() error) error {
	if d.fail != nil {
		if err := d.fail(name); err != nil {
			return err
		}
	}
	return take()
}

// File writes a file, unless ctx has ended by the time that it is whole. Of several runs
// that write a New one at once, one succeeds.
func (d Disk) File(ctx context.Context, name string, data []byte, how How) error {
	at, err := place(name, how)
	if err != nil {
		return err
	}
	return told(name, d.staged(at.dir(), func(s *stage) error {
		if err := s.put(fresh, data, at); err != nil {
			return err
		}
		switch {
		case ctx.Err() != nil:
			return ctx.Err()
		case how == New:
			return s.create(at.path)
		}
		return d.rename(s.in(fresh), at.path)
	}))
}

// Part is a file of a folder.
type Part struct {
	Name string // within the folder, with slashes
	Data []byte
}

// Folder writes a folder of at least one file, unless ctx has ended by the time that it is
// whole. One that exists is replaced only with Replace, and only when mine finds nothing
// against it.
func (d Disk) Folder(ctx context.Context, name string, parts []Part, how How, mine func(fs.FS) error) error {
	at, err := folderPlace(name, how, mine)
	if err != nil {
		return err
	}
	return told(name, d.staged(at.dir(), func(s *stage) error {
		for _, p := range parts {
			if err := s.put(filepath.Join(fresh, filepath.FromSlash(p.Name)), p.Data, spot{}); err != nil {
				return err
			}
		}
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if at.exists {
			if err := s.putAside(at.path); err != nil {
				return err
			}
		}
		return d.rename(s.in(fresh), at.path)
	}))
}

// ErrExists is the fault of a place that is taken.
var ErrExists = errors.New("exists already; give another name, or --force to overwrite it")

// Interrupted is the fault of a file that was not written because its run was to end.
type Interrupted struct{ Name string }

func (e Interrupted) Error() string { return e.Name + " is not written: interrupted" }
func (e Interrupted) Unwrap() error { return context.Canceled }

// told says in words which file could not be written, and why.
func told(name string, err error) error {
	switch {
	case err == nil:
		return nil
	case errors.Is(err, context.Canceled):
		return Interrupted{name}
	case errors.Is(err, fs.ErrExist): // made by somebody else meanwhile
		return fmt.Errorf("%s %w", name, ErrExists)
	}
	return fmt.Errorf("%s cannot be written: %w", name, Bare(err))
}

// Bare takes the names of system calls, and of files such as those of a stage, off an
// error.
func Bare(err error) error {
	var path *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &path):
		return path.Err
	case errors.As(err, &link):
		return link.Err
	}
	return err
}
