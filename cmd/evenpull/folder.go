package main

import (
	"context"
	"fmt"
	"io/fs"
	"path"

	"evenpull/cmd/evenpull/internal/files"
	"evenpull/sim/show/page"
)

// writeFolder writes files into a folder, which is replaced whole or not at all, and only
// when it is of a study.
func writeFolder(ctx context.Context, name string, force bool, parts []files.Part) error {
	return files.Disk{}.Folder(ctx, name, parts, how(force), ofStudy)
}

// ofStudy finds what is against replacing a folder: a file in it that neither the manifest
// of a study's data lists nor is a picture of one, so that nobody's other files go.
func ofStudy(dir fs.FS) error {
	ours := map[string]bool{manifestName: true}
	if m, err := readManifest(dir); err == nil {
		for file := range m.SHA256 {
			ours[file] = true
		}
	}
	return fs.WalkDir(dir, ".", func(at string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && !ours[at] && !page.IsPicture(path.Base(at)) {
			return fmt.Errorf("holds %s, which is not of the study", at)
		}
		return err
	})
}
