// Package scenarios holds the sample scenarios, embedded. All of them are
// invented for teaching.
package scenarios

import (
	"embed"
	"slices"
	"strings"
)

// Default is the sample that runs when nothing else is named.
const Default = "eight-day"

//go:embed *.toml
var files embed.FS

// Names are the names of the samples, in alphabetical order.
func Names() []string {
	entries, err := files.ReadDir(".")
	if err != nil {
		panic(err) // the embedded root always reads
	}
	var names []string
	for _, e := range entries {
		names = append(names, strings.TrimSuffix(e.Name(), ".toml"))
	}
	slices.Sort(names)
	return names
}

// Text is the sample of the given name as TOML, and whether there is one.
func Text(name string) (string, bool) {
	text, err := files.ReadFile(name + ".toml")
	return string(text), err == nil
}
