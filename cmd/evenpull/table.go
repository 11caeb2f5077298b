package main

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"slices"
	"strings"

	"evenpull/sim/scenario"
	"evenpull/sim/study/batch"
)

// table is one that is read row by row.
type table struct {
	header []string
	next   func() ([]string, error)
	close  func()
}

// table opens that of the arguments, or lays one out.
func (f *batchFlags) table(s streams, sc *scenario.Scenario, args []string) (*table, error) {
	if f.design != "" {
		number := 0
		if f.train != "" {
			var err error
			if number, err = sc.Train(f.train); err != nil {
				return nil, err
			}
		}
		header, next, _, err := batch.Design(sc, number, f.design, f.runs, f.seed)
		if errors.Is(err, batch.ErrFew) {
			err = usagef("--runs: %w", err)
		}
		return &table{header: header, next: next, close: func() {}}, err
	}
	file, err := f.tableFile(s, args[0])
	if err != nil {
		return nil, err
	}
	t, err := readTable(s, file, source(args[0]))
	if err != nil {
		err = noTable(file, source(args[0]), err)
		file.Close()
	}
	return t, err
}

// wantTable is what batch reads first.
const wantTable = "table: comma-separated values below a line of KEYs, with the scenario behind it, as in \"evenpull batch TABLE.csv clock.toml\""

// noTable adds to a fault found in a table that it looks like a file of another kind.
func noTable(file io.ReadSeeker, name string, err error) error {
	if _, fails := file.Seek(0, io.SeekStart); fails != nil {
		return err
	}
	text, fails := readAll(file, name)
	if fails != nil {
		return err
	}
	return otherThan(text, wantTable, err)
}

// tableFile opens a table; what comes on standard input is laid down, since it is read
// twice. One that is to be kept is held whole.
func (f *batchFlags) tableFile(s streams, name string) (io.ReadSeekCloser, error) {
	if s.again != nil {
		text, err := s.again.text(name)
		s.read.hold(name, source(name), text)
		return opened{strings.NewReader(text), name}, err
	}
	file, err := tableOnDisk(s, name)
	if err != nil || f.data == "" {
		return file, err
	}
	defer file.Close()
	text, err := io.ReadAll(io.LimitReader(file, mostBytes+1))
	if err != nil {
		return nil, fmt.Errorf("%s cannot be read: %w", source(name), bare(err))
	}
	if len(text) > mostBytes {
		return nil, usagef("--data: found a table of more than %d MB; want less, or --rows of it", mostBytes>>20)
	}
	s.read.hold(name, source(name), string(text))
	return opened{strings.NewReader(string(text)), name}, nil
}

func tableOnDisk(s streams, name string) (*os.File, error) {
	if name != "-" {
		file, err := os.Open(name)
		if other := kindOf(strings.TrimPrefix(name, sampleMark)); err != nil && other != "" {
			return nil, fmt.Errorf("%s is a sample %s; want a %s", name, other, wantTable)
		}
		if err != nil {
			return nil, fmt.Errorf("%s cannot be read: %w", name, bare(err))
		}
		return file, nil
	}
	file, err := os.CreateTemp("", "evenpull-*.csv")
	if err != nil {
		return nil, bare(err)
	}
	os.Remove(file.Name()) // it is gone when it is closed; where that cannot be, the system clears it
	_, err = io.Copy(file, s.in)
	if err == nil {
		_, err = file.Seek(0, io.SeekStart)
	}
	if err != nil {
		file.Close()
		return nil, err
	}
	return file, nil
}

// readTable reads a table once, for its sum and the scenarios that it names, and goes back to
// its first row.
func readTable(s streams, file io.ReadSeekCloser, name string) (*table, error) {
	sum := sha256.New()
	rows, header, err := cellsIn(io.TeeReader(file, sum), name)
	if err != nil {
		return nil, err
	}
	named := map[string]bool{}
	column := -1
	for i, h := range header {
		if strings.TrimSpace(h) == batch.ScenarioColumn {
			column = i
		}
	}
	for {
		cells, err := rows()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, err
		}
		if column >= 0 && strings.TrimSpace(cells[column]) != "" {
			named[strings.TrimSpace(cells[column])] = true
		}
	}
	s.read.take(name, sum.Sum(nil))
	for _, n := range slices.Sorted(maps.Keys(named)) { // read now, so that they are told of; one that cannot be read is the fault of its rows
		_, _ = open(s, n)
	}
	if _, err := file.Seek(0, io.SeekStart); err != nil {
		return nil, err
	}
	next, header, err := cellsIn(file, name)
	return &table{header: header, next: next, close: func() { file.Close() }}, err
}

// cellsIn reads the header of a table, and gives what reads its rows. Lines that begin with #
// are passed over.
func cellsIn(r io.Reader, name string) (next func() ([]string, error), header []string, err error) {
	in := bufio.NewReaderSize(r, 1<<16)
	if mark, err := in.Peek(3); err == nil && bytes.Equal(mark, []byte("\ufeff")) {
		in.Discard(3)
	}
	c := csv.NewReader(in)
	c.Comment = '#'
	header, err = c.Read()
	if errors.Is(err, io.EOF) {
		return nil, nil, fmt.Errorf("%s: found no header; want the names of the columns in the first line", name)
	}
	if err != nil {
		return nil, nil, tableFault(name, err)
	}
	if len(header) == 1 && strings.Contains(header[0], ";") {
		return nil, nil, fmt.Errorf("%s: found semicolons between the names of the columns; want commas between cells, and points in numbers", name)
	}
	return func() ([]string, error) {
		cells, err := c.Read()
		if err != nil && !errors.Is(err, io.EOF) {
			err = tableFault(name, err)
		}
		return cells, err
	}, header, nil
}

// tableFault lays a fault at its line.
func tableFault(name string, err error) error {
	var at *csv.ParseError
	if !errors.As(err, &at) {
		return fmt.Errorf("%s cannot be read: %w", name, bare(err))
	}
	if errors.Is(err, csv.ErrFieldCount) {
		return fmt.Errorf("%s:%d: found more or fewer cells than the header has columns", name, at.Line)
	}
	return fmt.Errorf("%s:%d: not comma-separated values: %w", name, at.Line, at.Err)
}
