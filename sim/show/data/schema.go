package data

import "io"

// schema is what JSON Schema (draft 2020-12) says of a value: its keywords, in order.
type schema []keyword

type keyword struct {
	name  string
	value any
}

func (s schema) node() node {
	return node{"{}", len(s), func(i int) (string, any) { return s[i].name, s[i].value }}
}

// typed is the schema of a type. The unit is an annotation of ours, which validators
// pass over.
func typed(kind any, words, unit string, more ...keyword) schema {
	s := schema{{"type", kind}}
	for _, k := range []struct{ name, text string }{{"description", words}, {"unit", unit}} {
		if k.text != "" {
			s = append(s, keyword{k.name, k.text})
		}
	}
	return append(s, more...)
}

// orNull is the schema of a type or null.
func orNull(kind, words, unit string, more ...keyword) schema {
	return typed([]string{kind, "null"}, words, unit, more...)
}

func listOf(words string, item schema) schema {
	return orNull("array", words, "", keyword{"items", item.node()})
}

// members are the keywords of an object that tell of its members. Others may be added
// to them, and are allowed.
func (o Object[T]) members() []keyword {
	if len(o) == 0 {
		return nil
	}
	var properties schema
	var required []string
	for i := range o {
		properties = append(properties, keyword{o[i].name, o[i].schema.node()})
		required = append(required, o[i].name)
	}
	return []keyword{{"properties", properties.node()}, {"required", required}}
}

func (o Object[T]) schema() schema { return typed("object", "", "", o.members()...) }

// describe writes the JSON Schema of an object.
func (o Object[T]) describe(w io.Writer, title string) error {
	head := schema{{"$schema", "https://json-schema.org/draft/2020-12/schema"}, {"title", title}}
	return write(w, append(head, o.schema()...).node())
}
