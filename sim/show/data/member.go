// Package data writes results for programs: JSON, CSV and the JSON Schema of
// both, all made from one description of each document. A member is told once,
// with its name, its meaning and where its value is; figures of a run come from
// the table of package outcome.
package data

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"io"
	"math"
	"strconv"
	"strings"
)

// Member is one member of an object that is made from a T.
type Member[T any] struct {
	name   string
	schema schema
	write  func(b []byte, t *T) []byte                               // its JSON value; t is nil where nothing applies
	cells  []column[T]                                               // its columns in CSV; none for lists
	list   func(t *T) (items int, item func(b []byte, i int) []byte) // of a list of objects; else nil
}

// column is a column of CSV.
type column[T any] struct {
	name string
	cell func(t *T) string
}

// Object is what an object holds, in order.
type Object[T any] []Member[T]

// Number is a member that is a number; what is not finite is null. The unit is ""
// for a pure number.
func Number[T any](name, words, unit string, of func(*T) float64) Member[T] {
	get := func(t *T) float64 {
		if t == nil {
			return math.NaN()
		}
		return of(t)
	}
	return Member[T]{
		name: name, schema: numeric(words, unit),
		write: func(b []byte, t *T) []byte { return appendNumber(b, get(t)) },
		cells: []column[T]{{name, func(t *T) string { return string(appendCell(nil, get(t))) }}},
	}
}

// Whole is a member that is a whole number.
func Whole[T any](name, words string, of func(*T) int) Member[T] {
	return plain(name, schema{Type: types{"integer"}, Description: words}, func(t *T) (any, string) { v := of(t); return v, strconv.Itoa(v) })
}

// Flag is a member that is true or false.
func Flag[T any](name, words string, of func(*T) bool) Member[T] {
	return plain(name, schema{Type: types{"boolean"}, Description: words}, func(t *T) (any, string) { v := of(t); return v, strconv.FormatBool(v) })
}

// Text is a member that is a text; null where it is "".
func Text[T any](name, words string, of func(*T) string) Member[T] {
	return plain(name, schema{Type: types{"string", "null"}, Description: words}, func(t *T) (any, string) {
		if v := of(t); v != "" {
			return v, v
		}
		return nil, ""
	})
}

// Texts is a member that is a list of texts; in CSV they stand in one cell, with
// "; " between them.
func Texts[T any](name, words string, of func(*T) []string) Member[T] {
	return plain(name, schema{Type: types{"array", "null"}, Description: words, Items: &schema{Type: types{"string"}}}, func(t *T) (any, string) {
		list := of(t)
		if list == nil {
			list = []string{}
		}
		return list, strings.Join(list, "; ")
	})
}

// plain is a member whose value and cell are made at once; null and empty where
// nothing applies.
func plain[T any](name string, s schema, of func(*T) (value any, cell string)) Member[T] {
	return Member[T]{
		name: name, schema: s.orNull(),
		write: func(b []byte, t *T) []byte {
			if t == nil {
				return append(b, "null"...)
			}
			v, _ := of(t)
			return appendValue(b, v)
		},
		cells: []column[T]{{name, func(t *T) string {
			if t == nil {
				return ""
			}
			_, cell := of(t)
			return cell
		}}},
	}
}

// Numbers is a member that is a list of numbers; not in CSV.
func Numbers[T any](name, words, unit string, of func(*T) []float64) Member[T] {
	item := numeric("", unit)
	return Member[T]{name: name, schema: schema{Type: types{"array", "null"}, Description: words, Items: &item}, write: func(b []byte, t *T) []byte {
		if t == nil {
			return append(b, "null"...)
		}
		return appendList(b, of(t), func(b []byte, v *float64) []byte { return appendNumber(b, *v) })
	}}
}

// Sub is a member that is an object; null where of gives nil. In CSV its columns
// are named after a dot.
func Sub[T, U any](name, words string, o Object[U], of func(*T) *U) Member[T] {
	get := func(t *T) *U {
		if t == nil {
			return nil
		}
		return of(t)
	}
	m := Member[T]{name: name, schema: o.schema(words).orNull(), write: func(b []byte, t *T) []byte {
		if u := get(t); u != nil {
			return o.append(b, u)
		}
		return append(b, "null"...)
	}}
	for _, c := range o.columns() {
		m.cells = append(m.cells, column[T]{name + "." + c.name, func(t *T) string { return c.cell(get(t)) }})
	}
	return m
}

// List is a member that is a list of objects; not in CSV.
func List[T, U any](name, words string, o Object[U], of func(*T) []U) Member[T] {
	item := o.schema("")
	m := Member[T]{name: name, schema: schema{Type: types{"array", "null"}, Description: words, Items: &item}, write: func(b []byte, t *T) []byte {
		if t == nil {
			return append(b, "null"...)
		}
		return appendList(b, of(t), o.append)
	}}
	m.list = func(t *T) (int, func([]byte, int) []byte) {
		list := of(t)
		return len(list), func(b []byte, i int) []byte { return o.append(b, &list[i]) }
	}
	return m
}

// Keyed is a member that is an object with a member for each item of a list, named
// by key; not in CSV.
func Keyed[T, U any](name, words string, o Object[U], of func(*T) []U, key func(*U) string) Member[T] {
	item := o.schema("")
	return Member[T]{name: name, schema: schema{Type: types{"object", "null"}, Description: words, Additional: &item}, write: func(b []byte, t *T) []byte {
		if t == nil {
			return append(b, "null"...)
		}
		var named Object[T]
		list := of(t)
		for i := range list {
			named = append(named, Member[T]{name: key(&list[i]), write: func(b []byte, _ *T) []byte { return o.append(b, &list[i]) }})
		}
		return named.append(b, t)
	}}
}

// Within puts the members of an object that is made from a part of T among those
// of T: all null where of gives nil.
func Within[T, U any](o Object[U], of func(*T) *U) Object[T] {
	get := func(t *T) *U {
		if t == nil {
			return nil
		}
		return of(t)
	}
	list := make(Object[T], len(o))
	for i, m := range o {
		list[i] = Member[T]{name: m.name, schema: m.schema, write: func(b []byte, t *T) []byte { return m.write(b, get(t)) }}
		for _, c := range m.cells {
			list[i].cells = append(list[i].cells, column[T]{c.name, func(t *T) string { return c.cell(get(t)) }})
		}
	}
	return list
}

func (o Object[T]) append(b []byte, t *T) []byte {
	b = append(b, '{')
	for i := range o {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(appendValue(b, o[i].name), ':')
		b = o[i].write(b, t)
	}
	return append(b, '}')
}

func (o Object[T]) columns() []column[T] {
	var all []column[T]
	for i := range o {
		all = append(all, o[i].cells...)
	}
	return all
}

func appendList[U any](b []byte, list []U, item func([]byte, *U) []byte) []byte {
	b = append(b, '[')
	for i := range list {
		if i > 0 {
			b = append(b, ',')
		}
		b = item(b, &list[i])
	}
	return append(b, ']')
}

// appendNumber writes the shortest digits that give the number back.
func appendNumber(b []byte, v float64) []byte {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return append(b, "null"...)
	}
	return strconv.AppendFloat(b, v, 'g', -1, 64)
}

func appendCell(b []byte, v float64) []byte {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return b
	}
	return strconv.AppendFloat(b, v, 'g', -1, 64)
}

// appendValue writes a text, a list of texts, a whole number, a flag or null.
func appendValue(b []byte, v any) []byte {
	var buf bytes.Buffer
	enc := json.NewEncoder(&buf)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		return append(b, "null"...) // none of these fails
	}
	return append(b, bytes.TrimRight(buf.Bytes(), "\n")...)
}

// CSV writes a line for each item below a header, comma-separated (RFC 4180). What
// does not apply is empty.
func (o Object[T]) CSV(w io.Writer, list []T) error {
	columns := o.columns()
	out := csv.NewWriter(w)
	line := make([]string, len(columns))
	for i := range columns {
		line[i] = columns[i].name
	}
	if err := out.Write(line); err != nil {
		return err
	}
	for k := range list {
		for i := range columns {
			line[i] = columns[i].cell(&list[k])
		}
		if err := out.Write(line); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}
