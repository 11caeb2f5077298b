//go:build !(darwin || dragonfly || freebsd || illumos || linux || netbsd || openbsd)

package files

import (
	"errors"
	"os"
)

// claim has no lock here.
func claim(string) (*os.File, error) { return nil, errors.ErrUnsupported }
