package book

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"evenpull/sim/internal/entry"
	"evenpull/sim/internal/keyline"
	"evenpull/sim/scenario"
)

// The columns of a file of readings.
const (
	turnColumn = iota
	repeatColumn
	torqueColumn
)

var columns = [3]string{"turn", "repeat", "torque_nm"}

const commas = "want commas between columns and a decimal point"

// sheet is a file of readings on its way to lists.
type sheet struct {
	source string
	at     [3]int // where each column stands
	width  int    // columns of the header
	seen   [MaxRepeats][MaxTurns]int
	lists  [][]float64
	faults scenario.Faults
}

// ReadCSV reads the readings of a torque meter: comma-separated values (RFC
// 4180) of at most scenario.MaxBytes, with the columns turn (fusee turns paid
// out: 0, 1, 2 …), repeat (from 1) and torque_nm (N·m) in any order. It gives
// one list a repeat; a row left out, or a "-" for the torque, is a missing
// reading. Source names the file in messages. What is wrong comes back as
// scenario.Faults, all at once; any other error is the reader's own.
func ReadCSV(r io.Reader, source string) ([][]float64, error) {
	data, err := io.ReadAll(io.LimitReader(r, scenario.MaxBytes+1))
	if err != nil {
		return nil, fmt.Errorf("readings: reading %s: %w", source, err)
	}
	s := &sheet{source: source}
	if len(data) > scenario.MaxBytes {
		s.report(0, "", fmt.Sprintf("found more than %d bytes", scenario.MaxBytes), fmt.Sprintf("want readings of at most %d bytes", scenario.MaxBytes))
		return nil, s.faults
	}
	c := csv.NewReader(strings.NewReader(strings.TrimPrefix(string(data), "\ufeff")))
	c.FieldsPerRecord, c.ReuseRecord = -1, true
	if row, ok := s.next(c); !ok {
		s.report(1, "", "found no line", "want the header "+strings.Join(columns[:], ","))
	} else if s.header(lineOf(c), row) {
		for row, ok := s.next(c); ok; row, ok = s.next(c) {
			s.row(lineOf(c), row)
		}
		s.gaps()
	}
	if len(s.faults) > 0 {
		return nil, s.faults
	}
	return s.lists, nil
}

func lineOf(c *csv.Reader) int {
	line, _ := c.FieldPos(0)
	return line
}

func (s *sheet) report(line int, key, found, want string) {
	s.faults = append(s.faults, scenario.Fault{Source: s.source, Line: line, Key: key, Found: found, Want: want})
}

// next is the next row, until the end or what is no CSV.
func (s *sheet) next(c *csv.Reader) ([]string, bool) {
	row, err := c.Read()
	var bad *csv.ParseError
	if errors.As(err, &bad) {
		s.report(bad.Line, "", "not valid CSV: "+bad.Err.Error(), "want quotes only around a whole cell")
	}
	return row, err == nil
}

// header finds the columns.
func (s *sheet) header(line int, row []string) bool {
	s.width, s.at = len(row), [3]int{-1, -1, -1}
	if len(row) == 1 && strings.ContainsAny(row[0], ";\t") {
		s.report(line, "", "found "+strconv.Quote(keyline.Clip(row[0])), commas)
		return false
	}
	for i, cell := range row {
		name := strings.TrimSpace(cell)
		k := slices.Index(columns[:], name)
		switch {
		case k < 0:
			s.report(line, keyline.Plain(name), "unknown column", entry.Meant(name, columns[:], "the columns are "))
		case s.at[k] >= 0:
			s.report(line, name, "found the column a second time", "want each column once")
		default:
			s.at[k] = i
		}
	}
	for k, name := range columns {
		if s.at[k] < 0 && len(s.faults) == 0 {
			s.report(line, name, "missing", "want the columns "+strings.Join(columns[:], ", "))
		}
	}
	return len(s.faults) == 0
}

// row takes one reading.
func (s *sheet) row(line int, row []string) {
	if len(row) != s.width {
		want := "want " + strconv.Itoa(s.width) + ", as in the header"
		if len(row) == s.width+1 {
			want += ": " + strings.TrimPrefix(commas, "want ")
		}
		s.report(line, "", fmt.Sprintf("found %d columns", len(row)), want)
		return
	}
	turn, okTurn := s.whole(line, turnColumn, row, 0, MaxTurns-1)
	repeat, okRepeat := s.whole(line, repeatColumn, row, 1, MaxRepeats)
	torque, okTorque := s.torque(line, row)
	if !okTurn || !okRepeat || !okTorque {
		return
	}
	if first := s.seen[repeat-1][turn]; first > 0 {
		s.report(line, columns[turnColumn], fmt.Sprintf("found turn %d of repeat %d a second time, after line %d", turn, repeat, first), "want each reading once")
		return
	}
	s.seen[repeat-1][turn] = line
	for len(s.lists) < repeat {
		s.lists = append(s.lists, nil)
	}
	list := &s.lists[repeat-1]
	for len(*list) <= turn {
		*list = append(*list, math.NaN())
	}
	(*list)[turn] = torque
}

// whole reads a whole number of a column.
func (s *sheet) whole(line, k int, row []string, lo, hi int) (int, bool) {
	cell := strings.TrimSpace(row[s.at[k]])
	n, err := strconv.Atoi(cell)
	if err != nil || n < lo || n > hi {
		s.report(line, columns[k], "found "+strconv.Quote(keyline.Clip(cell)), fmt.Sprintf("want a whole number from %d to %d", lo, hi))
		return 0, false
	}
	return n, true
}

// torque reads the torque of a row, NaN for a missing one.
func (s *sheet) torque(line int, row []string) (float64, bool) {
	cell := strings.TrimSpace(row[s.at[torqueColumn]])
	if cell == missingReading {
		return math.NaN(), true
	}
	v, err := strconv.ParseFloat(cell, 64)
	if err == nil && torqueRange.Holds(v) {
		return v, true
	}
	want := "want " + torqueRange.String() + ", or - for a missing reading"
	if strings.ContainsAny(cell, ",;") {
		want = commas
	}
	s.report(line, columns[torqueColumn], "found "+strconv.Quote(keyline.Clip(cell)), want)
	return 0, false
}

// gaps reports repeats without a reading.
func (s *sheet) gaps() {
	if len(s.faults) > 0 {
		return
	}
	if len(s.lists) == 0 {
		s.report(0, "", "found no reading", oneReading)
	}
	for i, list := range s.lists {
		if !slices.ContainsFunc(list, func(v float64) bool { return v == v }) {
			s.report(0, columns[repeatColumn], fmt.Sprintf("found no reading of repeat %d", i+1), "want repeats numbered from 1 without a gap, and "+strings.TrimPrefix(oneReading, "want "))
		}
	}
}
