package main

import (
	"bytes"
	"context"
	_ "embed"
	"errors"
	"fmt"
	"html/template"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"evenpull/cmd/evenpull/internal/files"
	"evenpull/sim/show/drawing"
)

const (
	galleryPage = "index.html"
	mostSheets  = drawing.MostSheets
)

// formats are those that pictures are written in.
func formats() []string { return []string{"svg", "png", "pdf"} }

// writeGallery makes every picture of the list and the page that shows them in a folder, all
// of them or none.
func writeGallery(ctx context.Context, s streams, dir, format string, force bool) error {
	parts, shown, err := drawGallery(ctx, s, format)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := galleryOf.Execute(&b, shown); err != nil {
		return err
	}
	parts = append(parts, files.Part{Name: galleryPage, Data: b.Bytes()})
	if err := (files.Disk{}).Folder(ctx, dir, parts, galleryHow(dir, force), ofGallery); err != nil {
		return err
	}
	s.say("%d pictures written to %s; %s shows them", len(shown), dir, filepath.Join(dir, galleryPage))
	return nil
}

// drawGallery draws every picture of the list.
func drawGallery(ctx context.Context, s streams, format string) (parts []files.Part, shown []exhibit, err error) {
	all := pictures()
	moved, finished := progress(s.err, len(all), "pictures")
	defer finished()
	for i := range all {
		sheets, err := all[i].draw(ctx, format)
		if err != nil {
			return nil, nil, err
		}
		parts, shown = append(parts, sheets...), append(shown, all[i].shown(sheets, format))
		if moved != nil {
			moved(i + 1)
		}
	}
	return parts, shown, nil
}

// draw runs the command of the picture and gives the files that it wrote, in the order of
// its sheets.
func (p *picture) draw(ctx context.Context, format string) (sheets []files.Part, err error) {
	dir, err := os.MkdirTemp("", "evenpull-*")
	if err != nil {
		return nil, fmt.Errorf("there is no place to draw in: %w", bare(err))
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	names := p.files(mostSheets, format)
	root := newRoot(streams{in: strings.NewReader(""), out: io.Discard, err: io.Discard})
	root.SetArgs(p.args(filepath.Join(dir, names[0])))
	if err := root.ExecuteContext(ctx); err != nil {
		return nil, fmt.Errorf("the picture %s: %w", p.name, err)
	}
	for _, name := range names {
		data, err := os.ReadFile(filepath.Join(dir, name))
		if errors.Is(err, fs.ErrNotExist) {
			break
		} else if err != nil {
			return nil, fmt.Errorf("the picture %s: %w", p.name, bare(err))
		}
		sheets = append(sheets, files.Part{Name: name, Data: data})
	}
	return sheets, ctx.Err()
}

// exhibit is a picture as the page shows it.
type exhibit struct {
	Name, Sees, Command string
	Files               []string
	Inline              bool // a page can show it; a PDF it can only lead to
}

func (p *picture) shown(sheets []files.Part, format string) exhibit {
	e := exhibit{p.name, p.sees, fmt.Sprintf("evenpull %s %s %s.%s", p.command, p.flag, p.name, format), nil, format != "pdf"}
	for _, f := range sheets {
		e.Files = append(e.Files, f.Name)
	}
	return e
}

//go:embed gallery.html
var galleryText string

var galleryOf = template.Must(template.New(galleryPage).Parse(galleryText))

// ofGallery finds what is against replacing a folder: a file in it that is none of a gallery.
func ofGallery(dir fs.FS) error {
	all := pictures()
	return fs.WalkDir(dir, ".", func(at string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && at != galleryPage && !slices.ContainsFunc(all, func(p picture) bool { return p.has(at) }) {
			return fmt.Errorf("holds %s, which is no picture of a gallery", at)
		}
		return err
	})
}

// galleryHow is what may be done to the folder of a gallery: one that is empty is filled
// without being forced to.
func galleryHow(dir string, force bool) files.How {
	list, err := os.ReadDir(dir)
	return how(force || err == nil && len(list) == 0)
}
