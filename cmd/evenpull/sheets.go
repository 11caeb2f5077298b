package main

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"evenpull/cmd/evenpull/internal/files"
	"evenpull/sim/show/canvas"
)

// draw writes a picture of the given kind, if a file is named: a file for each sheet, once all
// of them may be written.
func (f *flags) draw(ctx context.Context, s streams, file, kind string, draw func(format string) ([]func(io.Writer) error, error)) error {
	if file == "" {
		return nil
	}
	format, err := canvas.FormatOf(file)
	if err != nil {
		return err
	}
	sheets, err := draw(format)
	if err != nil {
		return err
	}
	names := make([]string, len(sheets))
	for i := range sheets {
		names[i] = sheetFile(file, i+1)
		if i > 0 && f.plot != "" && files.Same(names[i], f.plot) {
			return usagef("--drawing %s takes %d sheets, and --plot has the file of one of them, %s; want two files", file, len(sheets), f.plot)
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

// sheetFile is the file of a sheet of a drawing, counted from 1: the first has the name
// asked for, the others that with their number.
func sheetFile(name string, number int) string {
	if number == 1 {
		return name
	}
	ending := filepath.Ext(name)
	return fmt.Sprintf("%s-%d%s", strings.TrimSuffix(name, ending), number, ending)
}
