// Package scenarios holds the sample scenarios, bench files and stock lists,
// embedded. All of them are invented for teaching.
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

//go:embed *.toml bench/*.toml stock/*.toml
var files embed.FS

// Names are the names of the sample scenarios, in alphabetical order.
func Names() []string { return namesIn(".") }

// BenchNames are the names of the sample bench files, likewise.
func BenchNames() []string { return namesIn("bench") }

// StockNames are the names of the sample stock lists, likewise.
func StockNames() []string { return namesIn("stock") }

func namesIn(dir string) []string {
	entries, err := files.ReadDir(dir)
	if err != nil {
		panic(err) // an embedded folder always reads
	}
	var names []string
	for _, e := range entries {
		if name, ok := strings.CutSuffix(e.Name(), ".toml"); ok {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names
}

// Text is the sample of the given name as TOML, and whether there is one.
func Text(name string) (string, bool) { return textIn("", name) }

// BenchText is the sample bench file of the given name, and whether there is one.
func BenchText(name string) (string, bool) { return textIn("bench/", name) }

// StockText is the sample stock list of the given name, and whether there is one.
func StockText(name string) (string, bool) { return textIn("stock/", name) }

func textIn(dir, name string) (string, bool) {
	if strings.Contains(name, "/") { // another folder's
		return "", false
	}
	text, err := files.ReadFile(dir + name + ".toml")
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
