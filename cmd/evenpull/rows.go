package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"evenpull/sim/show/data"
	"evenpull/sim/show/words"
	"evenpull/sim/study/batch"

	"github.com/spf13/cobra"
)

// write runs the rows of a part, writes each as it comes and tells what all came to.
func (f *batchFlags) write(ctx context.Context, s streams, b *batch.Batch, t *table, origin data.Origin, from, to int) ([]string, error) {
	w := io.Writer(s.out)
	there := 0
	if f.out != "" {
		file, n, err := f.open(func(w io.Writer) error {
			head := data.NewBatch(w, b)
			if err := f.head(head, origin, from); err != nil {
				return err
			}
			return head.Flush()
		})
		if err != nil {
			return nil, err
		}
		defer file.Close()
		w, there = file, n
	}
	out := data.NewBatch(w, b)
	if f.out == "" {
		if err := f.head(out, origin, from); err != nil {
			return nil, err
		}
	}
	first, row := from+there, 0
	next := func() ([]string, error) {
		for {
			cells, err := t.next()
			if row++; err != nil || row > to {
				return nil, cmp.Or(err, io.EOF)
			}
			if row >= first {
				return cells, nil
			}
		}
	}
	emit := out.CSV
	if f.format == "json" {
		emit = out.Line
	}
	tally := b.Tally()
	written := time.Now()
	err := b.Run(ctx, next, func(r *batch.Row) error {
		b.Count(&tally, r)
		if err := emit(r); err != nil || time.Since(written) < time.Second {
			return err
		}
		written = time.Now() // so that little is lost where it ends here
		return out.Flush()
	})
	if flushed := out.Flush(); err == nil {
		err = flushed
	}
	if f.out != "" && errors.Is(err, context.Canceled) {
		return nil, leftOff{f.out, there + tally.Rows}
	}
	if err != nil {
		return nil, err
	}
	if f.out != "" {
		s.say("%d rows are in %s", there+tally.Rows, f.out)
	}
	return words.Batch(b, &tally), nil
}

// leftOff is the fault of a file of rows that is interrupted.
type leftOff struct {
	file string
	rows int
}

func (e leftOff) Error() string {
	return fmt.Sprintf("%d rows are in %s; --resume goes on after them", e.rows, e.file)
}
func (e leftOff) Unwrap() error { return context.Canceled }

// head is what stands above the rows: nothing above a part that is not the first.
func (f *batchFlags) head(out *data.Batch, origin data.Origin, from int) error {
	if from > 1 && !f.whole {
		return nil
	}
	return out.Header(origin, f.format == "json")
}

// open opens --out for rows to come, after those that are there with --resume, with the head
// above them; n is how many are there.
func (f *batchFlags) open(head func(io.Writer) error) (file *os.File, n int, err error) {
	how := os.O_RDWR | os.O_CREATE
	switch {
	case f.force:
		how |= os.O_TRUNC
	case !f.resume:
		how |= os.O_EXCL
	}
	if file, err = os.OpenFile(f.out, how, 0o644); errors.Is(err, os.ErrExist) {
		return nil, 0, fmt.Errorf("%s exists; give another name, --resume to go on in it, or --force to overwrite it", f.out)
	} else if err != nil {
		return nil, 0, bare(err)
	}
	if f.resume {
		n, err = resumed(file, f.format == "json", head)
	}
	if err == nil && n == 0 {
		err = head(file)
	}
	if err != nil {
		file.Close()
		return nil, 0, err
	}
	return file, max(n, 0), nil
}

// atMost is a writer that takes so many bytes.
type atMost struct {
	to   io.Writer
	left int
}

func (w *atMost) Write(p []byte) (int, error) {
	if w.left -= len(p); w.left < 0 {
		return 0, usagef("--data: the rows come to more than %d MB; want fewer, by --rows, or a file, by --out", mostBytes>>20)
	}
	return w.to.Write(p)
}

// keepRows is write into the folder of --data.
func (f *batchFlags) keepRows(c *cobra.Command, s streams, b *batch.Batch, t *table, origin data.Origin, from, to int) error {
	var k keeper
	var says []string
	f.whole = true
	k.add("batch.csv", data.NewBatch(nil, b).Fields(), func(w io.Writer) (err error) {
		s.out = &atMost{w, mostBytes}
		says, err = f.write(c.Context(), s, b, t, origin, from, to)
		return err
	})
	if k.err != nil {
		return k.err
	}
	k.add("batch.txt", nil, func(w io.Writer) error {
		_, err := io.WriteString(w, strings.Join(says, "\n  - ")+"\n")
		return err
	})
	for _, line := range says {
		s.say("%s", line)
	}
	return s.keep(c, f.data, &supplement{title: f.title, parts: k.parts})
}
