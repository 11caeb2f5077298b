package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"syscall"
)

// folder is a folder out of which nothing that is read of it leads.
type folder struct{ *os.Root }

// Open opens a file without waiting: a pipe in the place of a plain file has no end.
func (f folder) Open(name string) (fs.File, error) {
	return f.OpenFile(filepath.FromSlash(name), os.O_RDONLY|syscall.O_NONBLOCK, 0)
}

// ReadLink makes that links are told from what they lead to: see fs.ReadLinkFS.
func (f folder) ReadLink(name string) (string, error) { return f.Readlink(name) }

// readPlain reads a plain file of at most so many bytes. Anything else, such as a link, a
// pipe or a device, is not opened, or not read where it took the place of a plain file.
func readPlain(dir fs.FS, name string, most int64) ([]byte, error) {
	fault := func(what error) error { return fmt.Errorf("%s cannot be read: %w", told(name), bare(what)) }
	st, err := fs.Lstat(dir, name)
	if err != nil {
		return nil, fault(err)
	}
	if !st.Mode().IsRegular() {
		return nil, fault(errNotPlain)
	}
	f, err := dir.Open(name)
	if err != nil {
		return nil, fault(err)
	}
	defer f.Close()
	if st, err = f.Stat(); err != nil {
		return nil, fault(err)
	} else if !st.Mode().IsRegular() {
		return nil, fault(errNotPlain)
	}
	content, err := io.ReadAll(io.LimitReader(f, most+1))
	switch {
	case err != nil:
		return nil, fault(err)
	case int64(len(content)) > most:
		return nil, fault(fmt.Errorf("it is longer than the %d bytes left for it", most))
	}
	return content, nil
}

var errNotPlain = errors.New("it is no plain file")

// readFolder reads all files of a folder of data, by their names with slashes.
func readFolder(dir fs.FS) (map[string][]byte, error) {
	held := map[string][]byte{}
	left := int64(mostBytes)
	within := []string{"."}
	for len(within) > 0 {
		at := within[0]
		within = within[1:]
		entries, err := entriesOf(dir, at)
		if err != nil {
			return nil, err
		}
		for _, e := range entries {
			name := path.Join(at, e.Name())
			switch {
			case e.IsDir() && folderWithin.MatchString(name):
				within = append(within, name)
				continue
			case e.IsDir():
				return nil, fmt.Errorf("%s is a folder that no study has", told(name))
			case len(held) == mostFiles:
				return nil, fmt.Errorf("there are more than %d files", mostFiles)
			}
			if held[name], err = readPlain(dir, name, left); err != nil {
				return nil, err
			}
			left -= int64(len(held[name]))
		}
	}
	return held, nil
}

// folderWithin is a folder in one of data, or in that of a study within.
var folderWithin = regexp.MustCompile(`^(` + studiesFolder + `|(` + studiesFolder + `/[A-Za-z0-9_.-]+/)?(` + picturesWithin + `|` + inputsFolder + `)|` + studiesFolder + `/[A-Za-z0-9_.-]+)$`)

// entriesOf lists a folder, up to one more than may be in it.
func entriesOf(dir fs.FS, at string) ([]fs.DirEntry, error) {
	f, err := dir.Open(at)
	if err != nil {
		return nil, fmt.Errorf("%s cannot be read: %w", told(at), bare(err))
	}
	defer f.Close()
	list, ok := f.(fs.ReadDirFile)
	if !ok {
		return nil, fmt.Errorf("%s cannot be read: it is no folder", told(at))
	}
	entries, err := list.ReadDir(mostFiles + 1)
	if err != nil && !errors.Is(err, io.EOF) {
		return nil, fmt.Errorf("%s cannot be read: %w", told(at), bare(err))
	}
	return entries, nil
}
