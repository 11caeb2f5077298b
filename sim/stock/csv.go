package stock

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"evenpull/sim/internal/entry"
	"evenpull/sim/internal/keyline"
	"evenpull/sim/scenario"
)

const commas = "want commas between columns and a decimal point"

// sheet is a CSV on its way to a list.
type sheet struct {
	source string
	at     [keys]int // where each column stands; −1: there is none
	width  int       // columns of the header
	first  map[string]int
	list   []Spring
	faults scenario.Faults
}

// ReadCSV reads a stock list from comma-separated values (RFC 4180) of at most
// scenario.MaxBytes: a header, then a spring a row. The columns label, width_mm,
// thickness_mm and length_mm have to be there, yield_mpa, modulus_gpa and
// may_be_cut may be, in any order; a cell of these left empty is not given. The end
// shake is EndShakeMM. What is wrong comes back as scenario.Faults, all at once;
// any other error is the reader's own.
func ReadCSV(r io.Reader, source string) (*Stock, error) {
	data, err := io.ReadAll(io.LimitReader(r, scenario.MaxBytes+1))
	if err != nil {
		return nil, fmt.Errorf("stock list: reading %s: %w", source, err)
	}
	s := &sheet{source: source, first: map[string]int{}}
	if len(data) > scenario.MaxBytes {
		s.report(0, "", fmt.Sprintf("found more than %d bytes", scenario.MaxBytes), fmt.Sprintf("want a stock list of at most %d bytes", scenario.MaxBytes))
		return nil, s.faults
	}
	s.read(csv.NewReader(strings.NewReader(strings.TrimPrefix(string(data), "\ufeff"))))
	if len(s.faults) > 0 {
		return nil, s.faults
	}
	return &Stock{Source: source, EndShakeMM: EndShakeMM, Springs: s.list}, nil
}

func (s *sheet) report(line int, key, found, want string) {
	s.faults = append(s.faults, scenario.Fault{Source: s.source, Line: line, Key: key, Found: found, Want: want})
}

func (s *sheet) read(c *csv.Reader) {
	c.FieldsPerRecord, c.ReuseRecord = -1, true
	row, ok := s.next(c)
	if !ok {
		if len(s.faults) == 0 {
			s.report(1, "", "found no line", "want the header "+strings.Join(names[:], ","))
		}
		return
	}
	line, _ := c.FieldPos(0)
	if !s.header(line, row) {
		return
	}
	for row, ok := s.next(c); ok; row, ok = s.next(c) {
		line, _ := c.FieldPos(0)
		if len(s.list) == MaxSprings {
			s.report(line, "", fmt.Sprintf("found more than %d springs", MaxSprings), fmt.Sprintf("want at most %d", MaxSprings))
			return
		}
		s.row(line, row)
	}
	if len(s.list) == 0 && len(s.faults) == 0 {
		s.report(0, "", "found no spring", wanted+", a row each below the header")
	}
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
	s.width = len(row)
	for key := range s.at {
		s.at[key] = -1
	}
	if len(row) == 1 && strings.ContainsAny(row[0], ";\t") {
		s.report(line, "", "found "+strconv.Quote(keyline.Clip(row[0])), commas)
		return false
	}
	for i, cell := range row {
		name := strings.TrimSpace(cell)
		switch key := slices.Index(names[:], name); {
		case key < 0:
			s.report(line, keyline.Plain(name), "unknown column", entry.Meant(name, names[:], "the columns are "))
		case s.at[key] >= 0:
			s.report(line, name, "found the column a second time", "want each column once")
		default:
			s.at[key] = i
		}
	}
	for key, name := range names[:yieldKey] {
		if s.at[key] < 0 && len(s.faults) == 0 {
			s.report(line, name, "missing", "want the columns "+strings.Join(names[:yieldKey], ", "))
		}
	}
	return len(s.faults) == 0
}

// row takes one spring.
func (s *sheet) row(line int, row []string) {
	if len(row) != s.width {
		want := "want " + strconv.Itoa(s.width) + ", as in the header"
		if len(row) > s.width {
			want += ": " + strings.TrimPrefix(commas, "want ")
		}
		s.report(line, "", "found "+columns(len(row)), want)
		return
	}
	sp := blank()
	sp.Label = s.label(line, s.cell(row, labelKey))
	for key := widthKey; key < cutKey; key++ {
		if cell := s.cell(row, key); cell != "" || !optional(key) {
			*sp.at(key) = s.number(line, key, cell)
		}
	}
	switch cell := s.cell(row, cutKey); cell {
	case "", "true":
	case "false":
		sp.MayBeCut = false
	default:
		s.report(line, names[cutKey], "found "+strconv.Quote(keyline.Clip(cell)), "want true or false")
	}
	s.list = append(s.list, sp)
}

func columns(n int) string {
	if n == 1 {
		return "1 column"
	}
	return strconv.Itoa(n) + " columns"
}

// cell is that of a key, "" where there is no such column.
func (s *sheet) cell(row []string, key int) string {
	if s.at[key] < 0 {
		return ""
	}
	return strings.TrimSpace(row[s.at[key]])
}

func (s *sheet) label(line int, cell string) string {
	found, want := wrongLabel(cell), wantLabel
	if cell == "" {
		found = `found ""`
	}
	if before, twice := s.first[cell]; found == "" && twice {
		found, want = again(cell, before)
	}
	if found != "" {
		s.report(line, names[labelKey], found, want)
		return ""
	}
	s.first[cell] = line
	return cell
}

// number reads a number; 0 when it is at fault.
func (s *sheet) number(line, key int, cell string) float64 {
	v, err := strconv.ParseFloat(cell, 64)
	if err == nil && ranges[key].Holds(v) {
		return v
	}
	want := "want " + ranges[key].String()
	if strings.ContainsAny(cell, ",;") {
		want = commas
	}
	s.report(line, names[key], "found "+strconv.Quote(keyline.Clip(cell)), want)
	return 0
}
