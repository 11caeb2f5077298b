package files

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"time"
)

// What a stage holds.
const (
	fresh = "new"  // what is written
	aside = "old"  // the folder that it takes the place of, under its own name
	gone  = "gone" // the same, when it is to be put back no more
)

// stageName is the name of a stage; abandoned is when one is left behind where locks do
// not tell: no run writes for so long.
var stageName = regexp.MustCompile(`^\.evenpull\.[0-9]+$`)

const abandoned = 24 * time.Hour

// stage is a hidden folder beside what is written, held by a lock while its run lives.
type stage struct {
	disk Disk
	dir  string
	held *os.File // nil where there are no locks
}

// staged makes a stage in a folder, works in it and takes it away, and before that what
// killed runs left in the folder.
func (d Disk) staged(dir string, work func(*stage) error) error {
	d.clear(dir)
	s, err := d.stage(dir)
	if err != nil {
		return err
	}
	if err = work(s); err == nil {
		s.remove()
		return nil
	}
	if kept := s.restore(); kept != nil {
		return fmt.Errorf("%w; %w", Bare(err), kept)
	}
	return err
}

func (d Disk) stage(dir string) (*stage, error) {
	for {
		s := &stage{disk: d}
		err := d.step("stage", func() (err error) { s.dir, err = os.MkdirTemp(dir, ".evenpull.*"); return })
		if err != nil {
			return nil, err
		}
		err = s.claim()
		switch {
		case err == nil, errors.Is(err, errors.ErrUnsupported):
			return s, nil
		case !errors.Is(err, errTaken): // by a run that clears, which takes it away
			s.remove()
			return nil, err
		}
	}
}

// claim locks a stage for this run until it is released, which the end of the run does in
// any case. It fails with errTaken when another run has it or has taken it away, and with
// ErrUnsupported where there are no locks.
func (s *stage) claim() error {
	return s.disk.step("lock", func() (err error) { s.held, err = lock(s.dir); return })
}

// errTaken is the fault of a stage that another run has.
var errTaken = errors.New("it is another run's")

// clear takes away what killed runs left in a folder. Nothing is said of what does not go.
func (d Disk) clear(dir string) {
	entries, _ := os.ReadDir(dir)
	for _, e := range entries {
		if !e.IsDir() || !stageName.MatchString(e.Name()) {
			continue
		}
		s := &stage{disk: d, dir: filepath.Join(dir, e.Name())}
		err := s.claim()
		if errors.Is(err, errors.ErrUnsupported) {
			if st, bad := e.Info(); bad == nil && time.Since(st.ModTime()) > abandoned {
				err = nil
			}
		}
		if err == nil {
			_ = s.restore()
		}
	}
}

// restore puts a folder that was put aside back, unless something has taken its place, and
// takes the stage away. It fails when the folder stays in the stage.
func (s *stage) restore() error {
	old, _ := os.ReadDir(s.in(aside))
	for _, e := range old {
		at := filepath.Join(filepath.Dir(s.dir), e.Name())
		if _, err := os.Lstat(at); !errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err := s.disk.rename(s.in(aside, e.Name()), at); err != nil {
			s.release()
			return fmt.Errorf("what was there is kept in %s", s.in(aside, e.Name()))
		}
	}
	s.remove()
	return nil
}

// remove takes a stage away: what was put aside in one step, lest half of it be put back
// by a later run.
func (s *stage) remove() {
	defer s.release()
	err := s.disk.rename(s.in(aside), s.in(gone))
	if err == nil || errors.Is(err, fs.ErrNotExist) {
		_ = s.disk.step("clear", func() error { return os.RemoveAll(s.dir) })
	}
}

func (s *stage) release() {
	if s.held != nil {
		s.held.Close()
	}
}

// in is the path of something in a stage.
func (s *stage) in(name ...string) string {
	return filepath.Join(append([]string{s.dir}, name...)...)
}

// put writes a file in a stage, down to the disk, with the mode of the one that it takes
// the place of, if any.
func (s *stage) put(name string, data []byte, place spot) (err error) {
	at := s.in(name)
	if err := s.disk.step("folder", func() error { return os.MkdirAll(filepath.Dir(at), 0o755) }); err != nil {
		return err
	}
	var f *os.File
	err = s.disk.step("open", func() (err error) { f, err = os.OpenFile(at, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644); return })
	if err != nil {
		return err
	}
	err = s.disk.step("write", func() error { _, err := f.Write(data); return err })
	if err == nil && place.exists {
		err = s.disk.step("mode", func() error { return f.Chmod(place.mode) })
	}
	if err == nil {
		err = s.disk.step("sync", f.Sync)
	}
	return errors.Join(err, s.disk.step("close", f.Close))
}

// create moves the fresh file to a place where nothing is. Where there are no hard links, an
// empty file holds the place until it is moved.
func (s *stage) create(at string) error {
	err := s.disk.step("link", func() error { return os.Link(s.in(fresh), at) })
	if err == nil || errors.Is(err, fs.ErrExist) {
		return err
	}
	err = s.disk.step("reserve", func() error {
		f, err := os.OpenFile(at, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
		if err != nil {
			return err
		}
		return f.Close()
	})
	if err != nil {
		return err
	}
	if err = s.disk.rename(s.in(fresh), at); err != nil {
		return errors.Join(err, os.Remove(at))
	}
	return nil
}

// putAside moves a folder into the stage.
func (s *stage) putAside(path string) error {
	if err := s.disk.step("folder", func() error { return os.Mkdir(s.in(aside), 0o755) }); err != nil {
		return err
	}
	return s.disk.rename(path, s.in(aside, filepath.Base(path)))
}

func (d Disk) rename(from, to string) error {
	return d.step("rename", func() error { return os.Rename(from, to) })
}
