// Package data writes results for programs: JSON (RFC 8259), CSV (RFC 4180) and the JSON
// Schema (draft 2020-12) of both, all made from one description of each document. A member is
// told once, with its name, its meaning and where its value is; figures of a run come from the
// table of package outcome. Names end in their unit. What does not apply is null, or an empty
// cell. Members are only ever added.
package data

import "evenpull/sim/scenario"

// Member is one member of an object that is made from a T.
type Member[T any] struct {
	column[T]
	schema  schema
	columns []column[T] // in CSV; none for lists
}

// column is a value with its name.
type column[T any] struct {
	name string
	of   func(*T) any // a number, a flag, a text, texts or a node; nil where nothing applies, or for no T
	told schema       // what it is
}

// Object is what an object holds, in order.
type Object[T any] []Member[T]

func (o Object[T]) node(t *T) node {
	return node{"{}", len(o), func(i int) (string, any) { return o[i].name, o[i].of(t) }}
}

// listed is a member that is not in CSV.
func listed[T any](name string, s schema, of func(*T) any) Member[T] {
	return Member[T]{column[T]{name, func(t *T) any {
		if t == nil {
			return nil
		}
		return of(t)
	}, s}, s, nil}
}

// plain is a member that fills one column.
func plain[T, V any](name string, s schema, of func(*T) V) Member[T] {
	m := listed(name, s, func(t *T) any { return of(t) })
	m.columns = []column[T]{m.column}
	return m
}

// Number is a member that is a number; what is not finite is null. The unit is ""
// for a pure number.
func Number[T any](name, words, unit string, of func(*T) float64) Member[T] {
	return plain(name, orNull("number", words, unit), of)
}

// Whole is a member that is a whole number.
func Whole[T any](name, words string, of func(*T) int) Member[T] {
	return plain(name, orNull("integer", words, ""), of)
}

// Count is a member that is a whole number; null where it is 0.
func Count[T any](name, words string, of func(*T) int) Member[T] {
	return plain(name, orNull("integer", words, ""), func(t *T) any {
		if v := of(t); v != 0 {
			return v
		}
		return nil
	})
}

// Flag is a member that is true or false.
func Flag[T any](name, words string, of func(*T) bool) Member[T] {
	return plain(name, orNull("boolean", words, ""), of)
}

// Text is a member that is a text; null where it is "".
func Text[T any](name, words string, of func(*T) string) Member[T] {
	return plain(name, orNull("string", words, ""), func(t *T) any {
		if v := of(t); v != "" {
			return v
		}
		return nil
	})
}

// Texts is a member that is a list of texts; in CSV they stand in one cell, with
// "; " between them.
func Texts[T any](name, words string, of func(*T) []string) Member[T] {
	return plain(name, listOf(words, typed("string", "", "")), of)
}

// Numbers is a member that is a list of numbers; not in CSV.
func Numbers[T any](name, words, unit string, of func(*T) []float64) Member[T] {
	return listed(name, listOf(words, orNull("number", "", unit)), func(t *T) any { return numbers(of(t)) })
}

func numbers(of []float64) node { return list(of, func(v *float64) any { return *v }) }

// Matrix is a member that is a list of rows of numbers; not in CSV.
func Matrix[T any](name, words, unit string, of func(*T) [][]float64) Member[T] {
	row := typed("array", "", "", keyword{"items", orNull("number", "", unit).node()})
	return listed(name, listOf(words, row), func(t *T) any { return list(of(t), func(row *[]float64) any { return numbers(*row) }) })
}

// Sub is a member that is an object; null where of gives nil. In CSV its columns
// are named after a dot.
func Sub[T, U any](name, words string, o Object[U], of func(*T) *U) Member[T] {
	m := listed(name, orNull("object", words, "", o.members()...), func(t *T) any {
		if u := of(t); u != nil {
			return o.node(u)
		}
		return nil
	})
	for _, c := range Within(o, of).columns() {
		m.columns = append(m.columns, column[T]{name + "." + c.name, c.of, c.told.of(words)})
	}
	return m
}

// List is a member that is a list of objects; not in CSV.
func List[T, U any](name, words string, o Object[U], of func(*T) []U) Member[T] {
	return listed(name, listOf(words, o.schema()), func(t *T) any { return list(of(t), func(u *U) any { return o.node(u) }) })
}

// Keyed is a member that is an object with a member for each item of a list, named
// by key; not in CSV.
func Keyed[T, U any](name, words string, o Object[U], of func(*T) []U, key func(*U) string) Member[T] {
	return listed(name, orNull("object", words, "", keyword{"additionalProperties", o.schema().node()}), func(t *T) any {
		list := of(t)
		return node{"{}", len(list), func(i int) (string, any) { return key(&list[i]), o.node(&list[i]) }}
	})
}

// Within puts the members of an object that is made from a part of T among those
// of T: all null where of gives nil.
func Within[T, U any](o Object[U], of func(*T) *U) Object[T] {
	within := func(c column[U]) column[T] {
		return listed(c.name, c.told, func(t *T) any { return c.of(of(t)) }).column
	}
	all := make(Object[T], len(o))
	for i, m := range o {
		all[i] = Member[T]{within(m.column), m.schema, nil}
		for _, c := range m.columns {
			all[i].columns = append(all[i].columns, within(c))
		}
	}
	return all
}

// size is a size of a spring, in the words of the table of inputs.
func size[T any](key string, of func(*T) float64) Member[T] {
	in, _ := scenario.Input("mainspring." + key)
	return Number(key, in.Words, in.Unit, of)
}

// only is a part of a result where it is there, else nil.
func only[T any](there bool, t *T) *T {
	if !there {
		return nil
	}
	return t
}

// first is that of a list; nil where it is empty.
func first[T any](list []T) *T {
	if len(list) == 0 {
		return nil
	}
	return &list[0]
}

// self is for an object that is made from the same as the one it stands in.
func self[T any](t *T) *T { return t }

// part is an item of a list with the whole that it belongs to.
type part[W, I any] struct {
	of *W
	it *I
	at int
}

// parts are the items of a list, each with the whole.
func parts[W, I any](of *W, list []I) []part[W, I] {
	all := make([]part[W, I], len(list))
	for i := range list {
		all[i] = part[W, I]{of, &list[i], i}
	}
	return all
}

// partsOf are the parts of every whole of a list.
func partsOf[W, I any](list []W, of func(*W) []I) (all []part[W, I]) {
	for i := range list {
		all = append(all, parts(&list[i], of(&list[i]))...)
	}
	return all
}
