package files

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// spot is where something is written.
type spot struct {
	path   string // without links
	exists bool
	mode   fs.FileMode // of what exists
}

func (s spot) dir() string { return filepath.Dir(s.path) }

// CheckFile tells whether a file can be written, as far as can be known before.
func CheckFile(name string, how How) error {
	_, err := place(name, how)
	return err
}

// CheckFolder tells whether a folder can be written, as far as can be known before.
func CheckFolder(name string, how How, mine func(fs.FS) error) error {
	_, err := folderPlace(name, how, mine)
	return err
}

// place finds where a file is written.
func place(name string, how How) (spot, error) {
	if name == "" || os.IsPathSeparator(name[len(name)-1]) {
		return spot{}, fmt.Errorf("%q is no name of a file", name)
	}
	path, err := resolved(name)
	if err != nil {
		return spot{}, told(name, err)
	}
	st, err := os.Lstat(path)
	link := err == nil && st.Mode()&fs.ModeSymlink != 0
	if link && how != ReplaceNoLink {
		if path, err = filepath.EvalSymlinks(path); errors.Is(err, fs.ErrNotExist) {
			return spot{}, fmt.Errorf("%s is a link to nothing and is left alone", name)
		} else if err == nil {
			st, err = os.Lstat(path)
		}
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return spot{path: path}, nil
	case err != nil:
		return spot{}, told(name, err)
	case link && how == ReplaceNoLink:
		return spot{}, fmt.Errorf("%s is a link and is left alone", name)
	case !st.Mode().IsRegular():
		return spot{}, fmt.Errorf("%s is no plain file and is left alone", name)
	case how == New:
		return spot{}, fmt.Errorf("%s %w", name, ErrExists)
	}
	return spot{path, true, st.Mode().Perm()}, nil
}

// folderPlace finds where a folder is written.
func folderPlace(name string, how How, mine func(fs.FS) error) (spot, error) {
	if name == "" {
		return spot{}, errors.New(`"" is no name of a folder`)
	}
	path, err := resolved(name)
	if err != nil {
		return spot{}, told(name, err)
	}
	st, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return spot{path: path}, nil
	case err != nil:
		return spot{}, told(name, err)
	case !st.IsDir():
		return spot{}, fmt.Errorf("%s is no folder and is left alone", name)
	case how == New:
		return spot{}, fmt.Errorf("%s %w", name, ErrExists)
	case Within(".", path):
		return spot{}, fmt.Errorf("%s holds the folder that you are in and is left alone", name)
	}
	if err := mine(os.DirFS(path)); err != nil {
		return spot{}, fmt.Errorf("%s %w; it is left alone", name, err)
	}
	return spot{path, true, st.Mode().Perm()}, nil
}

// resolved is a name with the links in the folder that it lies in followed, which has to
// exist.
func resolved(name string) (string, error) {
	dir, base := filepath.Split(strings.TrimRightFunc(name, func(r rune) bool { return r < 0x80 && os.IsPathSeparator(uint8(r)) }))
	if base == "" || base == "." || base == ".." { // known by its way, as . is
		path, err := filepath.EvalSymlinks(name)
		if err != nil {
			return "", err
		}
		return filepath.Abs(path)
	}
	dir, err := filepath.EvalSymlinks(dir)
	return filepath.Join(dir, base), err
}

// Same tells whether two names are those of one file or folder, which need not exist. Two
// that are to be made in one folder are the same when only their capitals differ: many
// disks take them for one.
func Same(a, b string) bool {
	one, err := os.Stat(a)
	other, bad := os.Stat(b)
	if err == nil && bad == nil {
		return os.SameFile(one, other)
	}
	if err == nil || bad == nil {
		return false
	}
	a, b = absolute(a), absolute(b)
	return a == b || strings.EqualFold(filepath.Base(a), filepath.Base(b)) && filepath.Dir(a) != a && Same(filepath.Dir(a), filepath.Dir(b))
}

// Within tells whether a name lies in a folder, or is the folder itself.
func Within(name, folder string) bool {
	for at := absolute(name); ; at = filepath.Dir(at) {
		if Same(at, folder) {
			return true
		}
		if at == filepath.Dir(at) {
			return false
		}
	}
}

// absolute is a name from the root on, with the links before its last part followed as
// far as they lead somewhere.
func absolute(name string) string {
	if path, err := resolved(name); err == nil {
		name = path
	}
	if abs, err := filepath.Abs(name); err == nil {
		return abs
	}
	return filepath.Clean(name)
}
