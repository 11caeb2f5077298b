package entry

import (
	"encoding/csv"
	"errors"
	"io"
	"slices"
	"strconv"
	"strings"

	"evenpull/sim/internal/document"
	"evenpull/sim/internal/keyline"
	"evenpull/sim/internal/unit"
	"evenpull/sim/scenario"
)

// Columns is what a file of comma-separated values (RFC 4180) may hold.
type Columns struct {
	Noun  string   // what it is to be, after "want": "a stock list"
	Names []string // of the columns, in the order in which messages list them
	Least int      // how many of the first have to be there
}

// Row is a row of such a file.
type Row struct {
	Line  int
	cells []string
	rows  *rows
}

// rows is a file on its way in.
type rows struct {
	Columns
	source string
	at     []int     // where each column stands; −1: there is none
	as     []string  // how the header has each
	by     []float64 // what the numbers of each are to be multiplied by, to be in its unit
	width  int       // columns of the header
	faults scenario.Faults

	pointed bool            // a number has a decimal point
	doubt   *scenario.Fault // of the first number that may be one with the next; nil for none
}

const commas = "want commas between columns and a decimal point"

// Read reads a file of at most scenario.MaxBytes: lines that begin with #, which are
// remarks, if any, then a header with the columns in any order, in the units of their names or others of the same kind, then a row after the other, which take is called with until it says false.
// End is called after the last row when nothing was wrong. Source names the file in
// messages. What is wrong comes back as scenario.Faults, all at once; any other error
// is the reader's own.
func (c Columns) Read(r io.Reader, source string, take func(*Row) bool, end func(*Row)) error {
	text, err := document.Text(r, source, c.Noun, "comma-separated values (CSV)", scenario.MaxBytes)
	if err != nil {
		return scenario.OfText(source, err)
	}
	s := &rows{Columns: c, source: source}
	s.read(text, take)
	if len(s.faults) == 0 && s.doubt != nil && !s.pointed {
		s.faults = append(s.faults, *s.doubt)
	}
	if len(s.faults) == 0 {
		end(&Row{rows: s})
	}
	if len(s.faults) > 0 {
		return s.faults
	}
	return nil
}

func (s *rows) read(text string, take func(*Row) bool) {
	c := csv.NewReader(strings.NewReader(text))
	c.FieldsPerRecord, c.ReuseRecord = -1, true
	c.Comment = '#'
	header := s.next(c)
	c.Comment = 0 // below the header a label may begin with one
	switch {
	case header == nil && len(s.faults) == 0:
		(&Row{Line: 1, rows: s}).Report(-1, "found no line", "want the header "+strings.Join(s.Names, ","))
		return
	case header == nil || !header.header():
		return
	}
	for row := s.next(c); row != nil; row = s.next(c) {
		if row.whole() && !take(row) {
			return
		}
	}
}

// next is the next row, nil at the end or at what is no CSV.
func (s *rows) next(c *csv.Reader) *Row {
	cells, err := c.Read()
	var bad *csv.ParseError
	if errors.As(err, &bad) {
		(&Row{Line: bad.Line, rows: s}).Report(-1, "not valid CSV: "+bad.Err.Error(), "want quotes only around a whole cell")
	}
	if err != nil {
		return nil
	}
	line, _ := c.FieldPos(0)
	return &Row{Line: line, cells: cells, rows: s}
}

// header finds the columns.
func (r *Row) header() bool {
	s := r.rows
	s.width, s.at, s.as, s.by = len(r.cells), slices.Repeat([]int{-1}, len(s.Names)), slices.Clone(s.Names), slices.Repeat([]float64{1}, len(s.Names))
	if len(r.cells) == 1 && strings.ContainsAny(r.cells[0], ";\t") {
		r.Report(-1, "found "+strconv.Quote(keyline.Clip(r.cells[0])), commas)
		return false
	}
	for i, cell := range r.cells {
		name := strings.TrimSpace(cell)
		as, by := name, 1.0
		if same, factor := unit.Wanted(name, s.Names); same != "" {
			as, by = same, factor
		}
		switch k := slices.Index(s.Names, as); {
		case k < 0:
			r.report(keyline.Plain(name), "unknown column", Meant(name, s.Names, "the columns are "))
		case s.at[k] >= 0:
			r.report(name, "found the column a second time", "want each column once")
		default:
			s.at[k], s.as[k], s.by[k] = i, name, by
		}
	}
	for k := range s.Least {
		if s.at[k] < 0 && len(s.faults) == 0 {
			r.Report(k, "missing", "want the columns "+strings.Join(s.Names[:s.Least], ", "))
		}
	}
	return len(s.faults) == 0
}

// whole tells whether a row has as many cells as the header.
func (r *Row) whole() bool {
	found, width := len(r.cells), r.rows.width
	if found == width {
		return true
	}
	want := "want " + strconv.Itoa(width) + ", as in the header"
	if found > width {
		want += ": " + strings.TrimPrefix(commas, "want ")
		if likely := r.likely(); likely != "" {
			want += ", such as " + strings.Replace(likely, ",", ".", 1) + " for " + likely
		}
	}
	noun := " columns"
	if found == 1 {
		noun = " column"
	}
	r.Report(-1, "found "+strconv.Itoa(found)+noun, want)
	return false
}

// Report notes a fault in a column of the row; −1 is the row itself.
func (r *Row) Report(column int, found, want string) {
	key := ""
	if column >= 0 {
		if key = r.rows.Names[column]; len(r.rows.as) > 0 {
			key = r.rows.as[column]
		}
	}
	r.report(key, found, want)
}

func (r *Row) report(key, found, want string) {
	r.rows.faults = append(r.rows.faults, scenario.Fault{Source: r.rows.source, Line: r.Line, Key: key, Found: found, Want: want})
}

// wrong reports a cell that is not what is wanted.
func (r *Row) wrong(column int, want string) {
	r.Report(column, "found "+strconv.Quote(keyline.Clip(r.Cell(column))), want)
}

// Cell is that of a column without the spaces around it, "" where there is no such
// column.
func (r *Row) Cell(column int) string {
	if at := r.rows.at[column]; at >= 0 {
		return strings.TrimSpace(r.cells[at])
	}
	return ""
}

// Number reads a number, in the unit of the column whatever that of the header, and tells whether it is one in range. Or is what else the
// column takes, to end a message with.
func (r *Row) Number(column int, w Within, or string) (float64, bool) {
	cell, joined := r.Cell(column), r.joined(column)
	v, err := strconv.ParseFloat(cell, 64)
	apart, bad := strconv.ParseFloat(strings.Replace(joined, ",", ".", 1), 64)
	v, apart = v*r.rows.by[column], apart*r.rows.by[column]
	doubt := bad == nil && w.Holds(apart)
	switch cure := document.Cure(cell); {
	case err == nil && w.Holds(v):
		r.rows.pointed = r.rows.pointed || strings.Contains(cell, ".")
		if doubt && r.rows.doubt == nil && r.filled() > r.rows.Least {
			r.rows.doubt = &scenario.Fault{Source: r.rows.source, Line: r.Line, Key: r.rows.Names[column], Found: "found " + joined, Want: wantPoint}
		}
		return v, true
	case cure != "":
		r.wrong(column, "want "+w.String()+or+", "+cure)
	case doubt && err == nil:
		r.Report(column, "found "+joined, wantPoint)
	default:
		r.wrong(column, "want "+w.String()+or)
	}
	return 0, false
}

// Whole reads a whole number from lo to hi and tells whether it is one.
func (r *Row) Whole(column, lo, hi int) (int, bool) {
	n, err := strconv.Atoi(r.Cell(column))
	if err != nil || n < lo || n > hi {
		r.wrong(column, wantWhole(lo, hi))
		return 0, false
	}
	return n, true
}

// Truth reads true or false; an empty cell is the preset.
func (r *Row) Truth(column int, preset bool) bool {
	switch r.Cell(column) {
	case "true":
		return true
	case "false":
		return false
	case "":
	default:
		r.wrong(column, wantTruth)
	}
	return preset
}

// Text reads a text of one line, "" when it is at fault.
func (r *Row) Text(column, most int) string {
	text := r.Cell(column)
	switch found, want := wrongText(text, most); {
	case text == "":
		r.wrong(column, wantText(most))
	case found != "":
		r.Report(column, found, want)
	default:
		return text
	}
	return ""
}
