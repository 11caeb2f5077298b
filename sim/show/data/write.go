package data

import (
	"bufio"
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// Document is what a command writes of a T for programs: an object as JSON, and
// rows as CSV.
type Document[T any] struct {
	Object[T]
	table table[T]
}

// table writes the rows of a document.
type table[T any] struct {
	columns []Field
	write   func(io.Writer, *T) error
	of      func(*T) []Field // columns that are others in every document; nil for none
}

// JSON writes a document, indented, with a newline at its end: where it came from, then the
// rest. Nothing of it is held, so that long lists take no memory.
func (d Document[T]) JSON(w io.Writer, from Origin, t *T) error {
	return write(w, d.whole(&from).node(t))
}

// CSV writes where a document came from, in lines that begin with #, then its rows below a
// header, comma-separated (RFC 4180); what does not apply is empty.
func (d Document[T]) CSV(w io.Writer, from Origin, t *T) error {
	if err := from.remarks(w); err != nil {
		return err
	}
	return d.table.write(w, t)
}

// Schema writes the JSON Schema of a document.
func (d Document[T]) Schema(w io.Writer, title string) error {
	return d.whole(new(Origin)).describe(w, title)
}

// rows are the items of a list, a line each.
func rows[T, U any](o Object[U], of func(*T) []U) table[T] {
	columns := o.columns()
	fields := make([]Field, len(columns))
	for i := range columns {
		fields[i] = columns[i].told.field(columns[i].name)
	}
	return table[T]{columns: fields, write: func(w io.Writer, t *T) error {
		out := bufio.NewWriter(w)
		err := putLine(out, len(columns), func(i int) string { return columns[i].name })
		list := of(t)
		for k := 0; k < len(list) && err == nil; k++ {
			err = putLine(out, len(columns), func(i int) string { return cell(columns[i].of(&list[k])) })
		}
		return cmp.Or(err, out.Flush())
	}}
}

// putLine writes a line of CSV. Cells with a # are quoted too: readers that pass over
// remarks would end the line there.
func putLine(out *bufio.Writer, cells int, of func(i int) string) error {
	for i := range cells {
		if i > 0 {
			out.WriteByte(',')
		}
		text := of(i)
		if strings.ContainsAny(text, "\"#,\r\n") || strings.TrimSpace(text) != text {
			text = `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
		}
		out.WriteString(text)
	}
	return out.WriteByte('\n') // or the first error of all
}

func (o Object[T]) columns() []column[T] {
	var all []column[T]
	for i := range o {
		all = append(all, o[i].columns...)
	}
	return all
}

// cell is a value in CSV. A text that a spreadsheet would compute has an apostrophe before
// it, which spreadsheets do not show.
func cell(v any) string {
	switch v := v.(type) {
	case nil:
		return ""
	case float64:
		return string(appendFloat(nil, v))
	case []string:
		return cell(strings.Join(v, "; "))
	case string:
		return strings.Repeat("'", min(1, len(v)-len(strings.TrimLeft(v, "=+-@\t\r")))) + v
	}
	return fmt.Sprint(v)
}

// appendFloat appends the shortest digits that give the number back; nothing where
// it is none.
func appendFloat(b []byte, v float64) []byte {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return b
	}
	return strconv.AppendFloat(b, v, 'g', -1, 64)
}

// node is an object or a list, whose items have no names.
type node struct {
	brackets string
	n        int
	at       func(i int) (name string, value any)
}

func list[T any](of []T, value func(*T) any) node {
	return node{"[]", len(of), func(i int) (string, any) { return "", value(&of[i]) }}
}

// write writes a value as JSON.
func write(w io.Writer, v any) error {
	out := bufio.NewWriter(w)
	put(out, v, "\n")
	out.WriteByte('\n')
	return out.Flush() // with the first error of all
}

// put writes a value, its lines beginning with newline, which holds the indentation too.
func put(out *bufio.Writer, v any, newline string) {
	switch v := v.(type) {
	case node:
		within := newline + "  "
		out.WriteByte(v.brackets[0])
		for i := range v.n {
			if i > 0 {
				out.WriteByte(',')
			}
			out.WriteString(within)
			name, item := v.at(i)
			if name != "" { // of plain letters, which Go and JSON quote alike
				out.Write(strconv.AppendQuote(out.AvailableBuffer(), name))
				out.WriteString(": ")
			}
			put(out, item, within)
		}
		if v.n > 0 {
			out.WriteString(newline)
		}
		out.WriteByte(v.brackets[1])
	case []string:
		put(out, list(v, func(s *string) any { return *s }), newline)
	case float64:
		number := appendFloat(out.AvailableBuffer(), v)
		if len(number) == 0 {
			number = append(number, "null"...)
		}
		out.Write(number)
	default: // a text, a whole number, a flag or null, none of which can fail
		var text bytes.Buffer
		texts := json.NewEncoder(&text)
		texts.SetEscapeHTML(false)
		_ = texts.Encode(v)
		out.Write(bytes.TrimSuffix(text.Bytes(), []byte{'\n'}))
	}
}
