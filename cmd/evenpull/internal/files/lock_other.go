//go:build !(darwin || dragonfly || freebsd || illumos || linux || netbsd || openbsd)

package files

import (
	"errors"
	"os"
)

// lock has none here.
func lock(string) (*os.File, error) { return nil, errors.ErrUnsupported }
