package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
)

// errOther tells that a file holds what other inputs came to.
var errOther = errors.New("it does not begin as these rows do: it was written from another table, scenario, or by other flags")

// resumed counts the whole rows of a file that was left off, cuts off what is not whole, and
// goes to its end. −1: nothing is there, and no head is wanted.
func resumed(file *os.File, lines bool, head func(io.Writer) error) (n int, err error) {
	var want bytes.Buffer
	if err := head(&want); err != nil {
		return 0, err
	}
	info, err := file.Stat()
	if err != nil {
		return 0, err
	}
	if info.Size() == 0 {
		return 0, nil
	}
	begins := make([]byte, want.Len())
	if _, err := io.ReadFull(file, begins); err != nil && !errors.Is(err, io.ErrUnexpectedEOF) || !bytes.HasPrefix(want.Bytes(), bytes.TrimRight(begins, "\x00")) {
		return 0, fmt.Errorf("%s: %w", file.Name(), errOther)
	}
	if info.Size() < int64(want.Len()) { // it was left off in its head
		if err := file.Truncate(0); err != nil {
			return 0, err
		}
		_, err = file.Seek(0, io.SeekStart)
		return 0, err
	}
	whole, n, err := wholeRows(file, lines)
	if err != nil {
		return 0, err
	}
	end := int64(want.Len()) + whole
	if err := file.Truncate(end); err != nil {
		return 0, err
	}
	if _, err := file.Seek(end, io.SeekStart); err != nil {
		return 0, err
	}
	if n == 0 {
		n = -1 // the head is there
	}
	return n, nil
}

// wholeRows counts the rows that are whole, and their bytes: a line break within quotes ends
// none.
func wholeRows(r io.Reader, lines bool) (whole int64, n int, err error) {
	in := bufio.NewReaderSize(r, 1<<16)
	quoted := false
	for at := int64(0); ; {
		c, err := in.ReadByte()
		if errors.Is(err, io.EOF) {
			return whole, n, nil
		}
		if err != nil {
			return 0, 0, err
		}
		at++
		switch {
		case c == '"' && !lines:
			quoted = !quoted
		case c == '\n' && !quoted:
			whole, n = at, n+1
		}
	}
}
