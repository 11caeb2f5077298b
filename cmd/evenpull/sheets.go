package main

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"

	"evenpull/cmd/evenpull/internal/files"
	"evenpull/sim/show/chart"
)

// draw writes a picture of the given kind, if a file is named: a file for each sheet, once all
// of them may be written.
func (f *flags) draw(ctx context.Context, s streams, file, kind string, draw func(chart.Look) (chart.Files, error)) error {
	if file == "" {
		return nil
	}
	look, err := f.look(file)
	if err != nil {
		return err
	}
	sheets, err := draw(look)
	if err != nil {
		return err
	}
	names := make([]string, len(sheets))
	for i := range sheets {
		names[i] = sheetFile(file, i+1)
		if other := f.beside(kind); i > 0 && other != "" && files.Same(names[i], other) {
			return usagef("--%s %s takes %d sheets, and %s is one of them, which is to be another picture; want two files", kind, file, len(sheets), other)
		}
		if err := files.CheckFile(names[i], how(f.force)); err != nil {
			return err
		}
	}
	for i, write := range sheets {
		if err := writeFile(ctx, names[i], f.force, write); err != nil {
			return err
		}
	}
	s.say("%s written to %s", kind, strings.Join(names, ", "))
	return nil
}

// beside is the file of the other kind of picture that is asked for.
func (f *flags) beside(kind string) string {
	if kind == "plot" {
		return f.drawing
	}
	return f.plot
}

// sheetFile is the file of a sheet of a picture, counted from 1: the first has the name
// asked for, the others that with their number.
func sheetFile(name string, number int) string {
	if number == 1 {
		return name
	}
	ending := filepath.Ext(name)
	return fmt.Sprintf("%s-%d%s", strings.TrimSuffix(name, ending), number, ending)
}
