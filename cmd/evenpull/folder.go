package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"evenpull/sim/show/page"
)

// writeFolder writes files into a folder beside its place and moves it there when
// it is whole. A folder that exists is replaced only when forced, and only when
// every file in it is one that stands in it again, so that nobody's other files go.
func writeFolder(name string, force bool, files []keptFile) (err error) {
	parent := filepath.Dir(filepath.Clean(name))
	old, err := replaceable(name, force, files)
	if err != nil {
		return err
	}
	tmp, err := os.MkdirTemp(parent, ".evenpull.*")
	if err != nil {
		return fmt.Errorf("%s cannot be written: %w", name, bare(err))
	}
	defer os.RemoveAll(tmp)
	fresh := filepath.Join(tmp, "new")
	for _, f := range files {
		at := filepath.Join(fresh, filepath.FromSlash(f.name))
		if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
			return fmt.Errorf("%s cannot be written: %w", name, bare(err))
		}
		if err := os.WriteFile(at, f.data, 0o644); err != nil {
			return fmt.Errorf("%s cannot be written: %w", name, bare(err))
		}
	}
	aside := filepath.Join(tmp, "old")
	if old {
		if err := os.Rename(name, aside); err != nil {
			return fmt.Errorf("%s cannot be replaced: %w", name, bare(err))
		}
	}
	if err := os.Rename(fresh, name); err != nil {
		if old {
			err = errors.Join(err, os.Rename(aside, name))
		}
		return fmt.Errorf("%s cannot be written: %w", name, bare(err))
	}
	return nil
}

// replaceable tells whether the folder exists, and refuses one that may not be
// replaced.
func replaceable(name string, force bool, files []keptFile) (exists bool, err error) {
	st, err := os.Lstat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return false, nil
	case err != nil:
		return false, fmt.Errorf("%s cannot be written: %w", name, bare(err))
	case !st.IsDir():
		return false, fmt.Errorf("%s is no folder and is left alone", name)
	case !force:
		return false, fmt.Errorf("%s exists already; give another name, or --force to overwrite it", name)
	}
	ours := map[string]bool{manifestName: true}
	for _, f := range files {
		ours[f.name] = true
	}
	if m, err := readManifest(os.DirFS(name)); err == nil { // those of the study that was there
		for file := range m.SHA256 {
			ours[file] = true
		}
	}
	return true, filepath.WalkDir(name, func(at string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		rel, err := filepath.Rel(name, at)
		if err == nil && !ours[filepath.ToSlash(rel)] && !page.IsPicture(filepath.Base(rel)) {
			err = fmt.Errorf("%s holds %s, which is not of the study; it is left alone", name, rel)
		}
		return err
	})
}
