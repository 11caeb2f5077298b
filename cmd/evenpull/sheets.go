package main

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"evenpull/cmd/evenpull/internal/files"
)

// sheetFile is the file of a sheet of a drawing, counted from 1: the first has the name
// asked for, the others that with their number.
func sheetFile(name string, number int) string {
	if number == 1 {
		return name
	}
	ending := filepath.Ext(name)
	return fmt.Sprintf("%s-%d%s", strings.TrimSuffix(name, ending), number, ending)
}

// drawSheets writes a drawing of so many files, once all of them may be written.
func (f *flags) drawSheets(ctx context.Context, s streams, sheets []func(io.Writer) error) error {
	names := make([]string, len(sheets))
	for i := range sheets {
		names[i] = sheetFile(f.drawing, i+1)
		if f.plot != "" && files.Same(names[i], f.plot) {
			return usagef("--drawing %s takes %d sheets, and --plot has the file of one of them, %s; want two files", f.drawing, len(sheets), f.plot)
		}
		if err := files.CheckFile(names[i], how(f.force)); err != nil {
			return err
		}
	}
	for i, draw := range sheets {
		if err := writeFile(ctx, names[i], f.force, draw); err != nil {
			return err
		}
	}
	s.say("drawing written to %s", strings.Join(names, ", "))
	return nil
}
