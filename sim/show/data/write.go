package data

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
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
	CSV func(io.Writer, *T) error // writes the rows below a header, comma-separated (RFC 4180); what does not apply is empty
}

// JSON writes a document, indented, with a newline at its end. Nothing of it is
// held, so that long lists take no memory.
func (o Object[T]) JSON(w io.Writer, t *T) error { return write(w, o.node(t)) }

// rows are the items of a list, a line each.
func rows[T, U any](o Object[U], of func(*T) []U) func(io.Writer, *T) error {
	columns := o.columns()
	return func(w io.Writer, t *T) error {
		line := make([]string, len(columns))
		for i := range columns {
			line[i] = columns[i].name
		}
		out := csv.NewWriter(w)
		err := out.Write(line)
		list := of(t)
		for k := 0; k < len(list) && err == nil; k++ {
			for i := range columns {
				line[i] = cell(columns[i].of(&list[k]))
			}
			err = out.Write(line)
		}
		out.Flush()
		return errors.Join(err, out.Error())
	}
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
