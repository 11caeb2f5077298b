// Package scenarios holds the sample scenarios, bench files and stock lists, and pages
// to print, embedded. All samples are invented for teaching.
package scenarios

import (
	"embed"
	"fmt"
	"slices"
	"strings"

	"evenpull/sim/scenario"
)

// Default is the sample that runs when nothing else is named.
const Default = "eight-day"

// DefaultBench is the bench file that is read when none is named.
const DefaultBench = "mixed-barrels"

// DefaultStock is the stock list that is read when none is named.
const DefaultStock = "shop-drawer"

//go:embed *.toml bench/*.toml stock/*.toml *.md
var files embed.FS

// Names are the names of the sample scenarios, in alphabetical order.
func Names() []string { return namesIn(".", ".toml") }

// BenchNames are the names of the sample bench files, in alphabetical order.
func BenchNames() []string { return namesIn("bench", ".toml") }

// StockNames are the names of the sample stock lists, in alphabetical order.
func StockNames() []string { return namesIn("stock", ".toml") }

// PageNames are the names of the pages to print, in alphabetical order.
func PageNames() []string { return namesIn(".", ".md") }

func namesIn(dir, ending string) []string {
	entries, err := files.ReadDir(dir)
	if err != nil {
		panic(err) // an embedded folder always reads
	}
	var names []string
	for _, e := range entries {
		if name, ok := strings.CutSuffix(e.Name(), ending); ok {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names
}

// Text is the sample of the given name as TOML, and whether there is one.
func Text(name string) (string, bool) { return textIn("", name, ".toml") }

// BenchText is the sample bench file of the given name, and whether there is one.
func BenchText(name string) (string, bool) { return textIn("bench/", name, ".toml") }

// StockText is the sample stock list of the given name, and whether there is one.
func StockText(name string) (string, bool) { return textIn("stock/", name, ".toml") }

// PageText is the page to print of the given name in Markdown, and whether there is one.
func PageText(name string) (string, bool) { return textIn("", name, ".md") }

func textIn(dir, name, ending string) (string, bool) {
	if strings.Contains(name, "/") { // another folder's
		return "", false
	}
	text, err := files.ReadFile(dir + name + ending)
	return string(text), err == nil
}

// Load reads the sample scenario of the given name. It fails when there is none, and
// says which there are.
func Load(name string) (*scenario.Scenario, error) {
	text, ok := Text(name)
	if !ok {
		hint := "the samples are " + strings.Join(Names(), ", ")
		if near := scenario.Nearest(name, Names()); near != "" {
			hint = "did you mean " + near + "? " + hint
		}
		return nil, fmt.Errorf("scenarios: there is no sample %q; %s", name, hint)
	}
	return scenario.Read(strings.NewReader(text), name)
}
