package book

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"evenpull/sim/internal/entry"
)

// The columns of a file of readings.
const (
	turnColumn = iota
	repeatColumn
	torqueColumn
)

var readings = entry.Columns{Noun: "readings", Names: []string{"turn", "repeat", "torque_nm"}, Least: 3}

// sheet is a file of readings on its way to lists.
type sheet struct {
	seen  [MaxRepeats][MaxTurns]int // lines
	lists [][]float64
	digit float64 // N·m, the last that was written
}

// ReadCSV reads the readings of a torque meter: comma-separated values (RFC
// 4180) of at most scenario.MaxBytes, with the columns turn (fusee turns paid
// out: 0, 1, 2 …), repeat (from 1) and torque_nm (N·m) in any order. It gives
// one list a repeat; a row left out, or a "-" for the torque, is a missing
// reading. Source names the file in messages. What is wrong comes back as
// scenario.Faults, all at once; any other error is the reader's own.
func ReadCSV(r io.Reader, source string) ([][]float64, error) {
	s, err := readSheet(r, source)
	return s.lists, err
}

// readSheet is ReadCSV with the last digit of the readings; without lists where it fails.
func readSheet(r io.Reader, source string) (sheet, error) {
	s := sheet{digit: math.NaN()}
	if err := readings.Read(r, source, s.row, s.gaps); err != nil {
		return sheet{}, err
	}
	return s, nil
}

// row takes one reading.
func (s *sheet) row(row *entry.Row) bool {
	turn, okTurn := row.Whole(turnColumn, 0, MaxTurns-1)
	repeat, okRepeat := row.Whole(repeatColumn, 1, MaxRepeats)
	torque, okTorque := math.NaN(), true
	if row.Cell(torqueColumn) != missingReading {
		torque, okTorque = row.Number(torqueColumn, torqueRange, ", or - for a missing reading")
		s.digit = least(s.digit, entry.LastDigit(row.Cell(torqueColumn)))
	}
	if !okTurn || !okRepeat || !okTorque {
		return true
	}
	if first := s.seen[repeat-1][turn]; first > 0 {
		row.Report(turnColumn, fmt.Sprintf("found turn %d of repeat %d a second time, after line %d", turn, repeat, first), "want each reading once")
		return true
	}
	s.seen[repeat-1][turn] = row.Line
	for len(s.lists) < repeat {
		s.lists = append(s.lists, nil)
	}
	list := &s.lists[repeat-1]
	for len(*list) <= turn {
		*list = append(*list, math.NaN())
	}
	(*list)[turn] = torque
	return true
}

// gaps reports repeats without a reading.
func (s *sheet) gaps(whole *entry.Row) {
	if len(s.lists) == 0 {
		whole.Report(-1, "found no reading", oneReading)
	}
	for i, list := range s.lists {
		if !slices.ContainsFunc(list, func(v float64) bool { return v == v }) {
			whole.Report(repeatColumn, fmt.Sprintf("found no reading of repeat %d", i+1), "want repeats numbered from 1 without a gap, and "+strings.TrimPrefix(oneReading, "want "))
		}
	}
}
