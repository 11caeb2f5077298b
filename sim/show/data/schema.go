package data

import (
	"encoding/json"
	"io"
	"slices"
)

// types are the JSON types of a value.
type types []string

// MarshalJSON writes one type as a text, several as a list.
func (t types) MarshalJSON() ([]byte, error) {
	if len(t) == 1 {
		return json.Marshal(t[0])
	}
	return json.Marshal([]string(t))
}

// schema is what JSON Schema (draft 2020-12) says of a value.
type schema struct {
	Dialect     string     `json:"$schema,omitempty"`
	Title       string     `json:"title,omitempty"`
	Type        types      `json:"type"`
	Description string     `json:"description,omitempty"`
	Unit        string     `json:"unit,omitempty"` // an annotation of ours, which validators pass over
	Items       *schema    `json:"items,omitempty"`
	Properties  properties `json:"properties,omitempty"`
	Required    []string   `json:"required,omitempty"`
	Additional  *schema    `json:"additionalProperties,omitempty"` // of members whose names are not known beforehand
}

// properties are schemas by their names, in order.
type properties []property

type property struct {
	name string
	schema
}

// MarshalJSON writes them as an object that keeps the order.
func (p properties) MarshalJSON() ([]byte, error) {
	b := []byte{'{'}
	for i := range p {
		if i > 0 {
			b = append(b, ',')
		}
		name, err := json.Marshal(p[i].name)
		if err != nil {
			return nil, err
		}
		value, err := json.Marshal(p[i].schema)
		if err != nil {
			return nil, err
		}
		b = append(append(append(b, name...), ':'), value...)
	}
	return append(b, '}'), nil
}

func numeric(words, unit string) schema {
	return schema{Type: types{"number", "null"}, Description: words, Unit: unit}
}

// orNull allows null as well.
func (s schema) orNull() schema {
	if !slices.Contains(s.Type, "null") {
		s.Type = append(slices.Clone(s.Type), "null")
	}
	return s
}

func (o Object[T]) schema(words string) schema {
	s := schema{Type: types{"object"}, Description: words}
	for i := range o {
		s.Properties = append(s.Properties, property{o[i].name, o[i].schema})
		s.Required = append(s.Required, o[i].name)
	}
	return s
}

// Schema writes the JSON Schema of a document. Members may be added to it, so that
// others are allowed.
func (o Object[T]) Schema(w io.Writer, title string) error {
	s := o.schema("")
	s.Dialect, s.Title = "https://json-schema.org/draft/2020-12/schema", title
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(s)
}
