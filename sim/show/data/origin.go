package data

import (
	"io"
	"regexp"
	"strconv"
	"strings"
)

// Origin tells where a result came from.
type Origin struct {
	Command         string // that computed it
	Version, Commit string // of the program
	Title           string // of the first file
	Files           []File // that were read, in that order
	Set             []string
	Seed            *int64 // of the random draws; nil where none were made
}

// File is one that was read.
type File struct {
	Name   string // without its folder
	SHA256 string // of its bytes, in hexadecimal digits
}

// origin is the object that every document starts with.
func origin() Object[Origin] {
	return Object[Origin]{
		Text("command", "the command that computed this", func(o *Origin) string { return o.Command }),
		Text("version", "the version of evenpull", func(o *Origin) string { return o.Version }),
		Text("commit", "what that was built from", func(o *Origin) string { return o.Commit }),
		Text("title", "title of the first file", func(o *Origin) string { return o.Title }),
		List("files", "what was read, in that order", Object[File]{
			Text("name", "name of the file without its folder, name of a sample, or standard input", func(f *File) string { return f.Name }),
			Text("sha256", "SHA-256 of its bytes", func(f *File) string { return f.SHA256 }),
		}, func(o *Origin) []File { return o.Files }),
		Texts("set", "the values that were changed, as they were given: KEY=VALUE", func(o *Origin) []string { return o.Set }),
		plain("seed", orNull("integer", "number that the random draws began from; null where none were made", ""), func(o *Origin) any {
			if o.Seed == nil {
				return nil
			}
			return *o.Seed
		}),
	}
}

// whole is the object of a document with its origin before the rest.
func (d Document[T]) whole(from *Origin) Object[T] {
	return append(Object[T]{Sub("evenpull", "where this came from", origin(), func(*T) *Origin { return from })}, d.Object...)
}

// remarks writes the origin as lines that begin with # and a blank, named as in JSON; what
// does not apply has none.
func (o *Origin) remarks(w io.Writer) error {
	var b strings.Builder
	line := func(key, value string) {
		if value != "" {
			b.WriteString("# " + key + ": " + unlikeCells.ReplaceAllString(value, "$1'$2") + "\n")
		}
	}
	line("command", o.Command)
	line("version", o.Version)
	line("commit", o.Commit)
	line("title", o.Title)
	for _, f := range o.Files {
		line("files.name", f.Name)
		line("files.sha256", f.SHA256)
	}
	for _, set := range o.Set {
		line("set", set)
	}
	if o.Seed != nil {
		line("seed", strconv.FormatInt(*o.Seed, 10))
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// unlikeCells finds what a spreadsheet, which splits remarks too, would compute.
var unlikeCells = regexp.MustCompile(`([,;]\s*"*)([=+@-])`)
