//go:build darwin || dragonfly || freebsd || illumos || linux || netbsd || openbsd

package files

import (
	"errors"
	"io/fs"
	"os"
	"syscall"
)

// lock locks a folder until what it gives is closed, as stage.claim says.
func lock(dir string) (*os.File, error) {
	f, err := os.Open(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, errTaken
	} else if err != nil {
		return nil, err
	}
	switch err = syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); err {
	case nil:
		held, bad := f.Stat()
		now, away := os.Lstat(dir)
		if bad == nil && away == nil && os.SameFile(held, now) {
			return f, nil
		}
		err = errTaken
	case syscall.EWOULDBLOCK:
		err = errTaken
	default:
		err = errors.ErrUnsupported
	}
	f.Close()
	return nil, err
}
