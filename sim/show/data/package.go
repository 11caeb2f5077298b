package data

import (
	"crypto/sha256"
	"encoding/hex"
	"io"
	"path"
	"regexp"
	"slices"
	"strings"
)

// Field is what a column of a table holds.
type Field struct {
	Name  string // in the header
	Type  string // number, integer, boolean, string, or any
	Unit  string // "" for a pure number, or what is none
	Words string // what it means
}

// Fields are the columns of the rows of a document, in their order.
func (d Document[T]) Fields(t *T) []Field {
	fields := slices.Clone(d.table.columns)
	if d.table.of == nil {
		return fields
	}
	for _, own := range d.table.of(t) {
		fields[slices.IndexFunc(fields, func(f Field) bool { return f.Name == own.Name })] = own
	}
	return fields
}

// with are rows some of whose columns are others in every document.
func (r table[T]) with(of func(*T) []Field) table[T] {
	r.of = of
	return r
}

// field is what a schema says of a column.
func (s schema) field(name string) Field {
	f := Field{Name: name, Type: "string"} // as texts are, of which several stand in one cell
	for _, k := range s {
		switch v := k.value.(type) {
		case string:
			switch k.name {
			case "description":
				f.Words = v
			case "unit":
				f.Unit = v
			}
		case []string: // the type, or null
			if v[0] != "array" {
				f.Type = v[0]
			}
		}
	}
	return f
}

// of is a schema within that of a whole, which its words begin with.
func (s schema) of(whole string) schema {
	inner := slices.Clone(s)
	for i := range inner {
		if text, ok := inner[i].value.(string); ok && inner[i].name == "description" && whole != "" {
			inner[i].value = whole + ": " + text
		}
	}
	return inner
}

// Resource is a file of a package.
type Resource struct {
	Path   string // within the folder, with slashes
	Data   []byte
	Fields []Field // of a table as CSV; nil for what is none
}

// Package writes what a folder of files holds: a Data Package (Frictionless Data,
// specification 1), which tells the columns of every table with their units and meanings, and
// size and check sum of every file. Programs that read such packages need no word of ours.
func Package(w io.Writer, name, title, words string, files []Resource) error {
	o := Object[[]Resource]{
		Text("profile", "", func(*[]Resource) string { return "data-package" }),
		Text("name", "", func(*[]Resource) string { return name }),
		Text("title", "", func(*[]Resource) string { return title }),
		Text("description", "", func(*[]Resource) string { return words }),
		List("resources", "", resource(), func(files *[]Resource) []Resource { return *files }),
	}
	return write(w, o.stated(&files))
}

func resource() Object[Resource] {
	table := func(f *Resource) *Resource { return only(f.Fields != nil, f) }
	return Object[Resource]{
		Text("name", "", (*Resource).name),
		Text("path", "", func(f *Resource) string { return f.Path }),
		Text("profile", "", func(f *Resource) string {
			if f.Fields == nil {
				return "data-resource"
			}
			return "tabular-data-resource"
		}),
		Text("format", "", func(f *Resource) string { return strings.TrimPrefix(path.Ext(f.Path), ".") }),
		Text("mediatype", "", func(f *Resource) string { return mediaTypes()[path.Ext(f.Path)] }),
		Text("encoding", "", func(*Resource) string { return "utf-8" }),
		Whole("bytes", "", func(f *Resource) int { return len(f.Data) }),
		Text("hash", "", func(f *Resource) string {
			sum := sha256.Sum256(f.Data)
			return "sha256:" + hex.EncodeToString(sum[:])
		}),
		Sub("dialect", "", Object[Resource]{
			Text("commentChar", "", func(*Resource) string { return "#" }),
			Text("lineTerminator", "", func(*Resource) string { return "\n" }),
			Flag("header", "", func(*Resource) bool { return true }),
		}, table),
		Sub("schema", "", Object[Resource]{
			List("fields", "", Object[Field]{
				Text("name", "", func(f *Field) string { return f.Name }),
				Text("type", "", func(f *Field) string { return f.Type }),
				Text("description", "", func(f *Field) string { return f.Words }),
				Text("unit", "", func(f *Field) string { return f.Unit }),
			}, func(f *Resource) []Field { return f.Fields }),
			Texts("missingValues", "", func(*Resource) []string { return []string{""} }),
		}, table),
	}
}

// stated is an object without the members that do not apply, which a Data Package leaves out.
func (o Object[T]) stated(t *T) node { return stated(o.node(t)).(node) }

func stated(v any) any {
	n, ok := v.(node)
	if !ok {
		return v
	}
	type item struct {
		name  string
		value any
	}
	var kept []item
	for i := range n.n {
		if name, value := n.at(i); value != nil {
			kept = append(kept, item{name, stated(value)})
		}
	}
	return node{n.brackets, len(kept), func(i int) (string, any) { return kept[i].name, kept[i].value }}
}

// name is one as the specification wants it, of small letters, digits, and . _ -; that of a
// table has no ending, since it is what readers ask for.
func (f *Resource) name() string {
	file := f.Path
	if f.Fields != nil {
		file = strings.TrimSuffix(file, path.Ext(file))
	}
	return strings.Trim(unlikeName.ReplaceAllString(strings.ToLower(file), "-"), "-")
}

var unlikeName = regexp.MustCompile(`[^a-z0-9._-]+`)

func mediaTypes() map[string]string {
	return map[string]string{".csv": "text/csv", ".json": "application/json", ".jsonl": "application/jsonl", ".svg": "image/svg+xml", ".toml": "application/toml", ".txt": "text/plain", ".html": "text/html", ".md": "text/markdown"}
}
