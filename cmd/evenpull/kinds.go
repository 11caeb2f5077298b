package main

import (
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"evenpull/scenarios"
	"evenpull/sim/bench/book"
	"evenpull/sim/scenario"
	"evenpull/sim/stock"
)

// kind is a kind of file that is read.
type kind struct {
	name    string   // that messages use
	tables  []string // arrays of tables that tell it from the kinds below it in the table
	readers string   // the commands that read it
	names   func() []string
	sample  func(name string) (text string, ok bool)
	title   func(name, text string) (string, error)
}

// The kinds, in the order of kinds().
const (
	ofScenario = iota
	ofBench
	ofStock
)

// kinds is the table of them.
func kinds() []kind {
	return []kind{
		{"scenario", []string{"train"}, "run reads", scenarios.Names, scenarios.Text, func(name, text string) (string, error) {
			sc, err := parse(name, text)
			if err != nil {
				return "", err
			}
			if name == scenarios.Default {
				sc.Title += " (the default)"
			}
			return sc.Title, nil
		}},
		{"bench file", []string{"weights", "torque"}, "record and assign read", scenarios.BenchNames, scenarios.BenchText, func(name, text string) (string, error) {
			b, err := parseBench(name, text)
			if err != nil {
				return "", err
			}
			return "bench file: " + b.Title, nil
		}},
		{"stock list", []string{"spring"}, "choose --stock reads", scenarios.StockNames, scenarios.StockText, func(name, text string) (string, error) {
			list, err := stock.Read(strings.NewReader(text), name)
			if err != nil {
				return "", err
			}
			return "stock list: " + list.Title, nil
		}},
		{"page to print", nil, "samples prints", scenarios.PageNames, scenarios.PageText, func(_, text string) (string, error) {
			title, _, _ := strings.Cut(strings.TrimPrefix(text, "# "), "\n")
			return "page to print: " + strings.ToLower(title[:1]) + title[1:], nil
		}},
	}
}

// open reads a scenario.
func open(s streams, name string) (*scenario.Scenario, error) {
	text, err := textOf(s, ofScenario, name)
	if err != nil {
		return nil, err
	}
	return parse(name, text)
}

func parse(name, text string) (*scenario.Scenario, error) {
	sc, err := scenario.Read(strings.NewReader(text), source(name))
	return sc, otherKind(text, ofScenario, err)
}

// parseBench reads a bench file and the files of readings that it names, which stand
// beside it.
func parseBench(name, text string) (*book.Book, error) {
	return readBench(name, text, func(file string) (io.ReadCloser, error) { return openBeside(streams{}, name, file) })
}

// readBench reads a bench file; open opens the files of readings that it names.
func readBench(name, text string, open func(file string) (io.ReadCloser, error)) (*book.Book, error) {
	b, err := book.Read(strings.NewReader(text), source(name), open)
	return b, otherKind(text, ofBench, err)
}

// openStock reads a stock list, as TOML or CSV by the ending of its name.
func openStock(s streams, name string) (*stock.Stock, error) {
	text, err := textOf(s, ofStock, name)
	if err != nil {
		return nil, err
	}
	_, sample := scenarios.StockText(source(name))
	switch ending := strings.ToLower(filepath.Ext(name)); {
	case ending == ".csv":
		return stock.ReadCSV(strings.NewReader(text), source(name))
	case ending == ".toml" || name == "-" || sample:
		list, err := stock.Read(strings.NewReader(text), source(name))
		return list, otherKind(text, ofStock, err)
	}
	return nil, fmt.Errorf("%s: the name ends neither in .toml nor in .csv, by which stock lists are told apart; give it one of these endings, or the TOML on standard input with --stock -", name)
}

// otherKind adds to a fault found in a text that it looks like another kind of
// file than the one wanted.
func otherKind(text string, want int, err error) error {
	return otherThan(text, kinds()[want].name, err)
}

// otherThan is the same of what has no samples, such as a table.
func otherThan(text, want string, err error) error {
	if err == nil {
		return nil
	}
	has := func(table string) bool { return strings.Contains("\n"+text, "\n[["+table+"]]") }
	all := kinds()
	if i := slices.IndexFunc(all, func(k kind) bool { return slices.ContainsFunc(k.tables, has) }); i >= 0 && all[i].name != want {
		return fmt.Errorf("this looks like a %s, which %s; want a %s\n%w", all[i].name, all[i].readers, want, err)
	}
	return err
}

// noSample adds to a fault of a name that is neither file nor sample which samples
// there are of the kind, and of which other kind it is one.
func (k *kind) noSample(name string, err error) error {
	if strings.ContainsAny(name, `./\`) {
		return err
	}
	samples := k.names()
	if other := kindOf(name); other != "" {
		return fmt.Errorf("%s is a sample %s; want a %s: a file, or one of the samples %s", name, other, k.name, strings.Join(samples, ", "))
	}
	hint := "the samples are: " + strings.Join(samples, ", ")
	if near := scenario.Nearest(name, samples); near != "" {
		hint = "did you mean " + near + "?"
	}
	return fmt.Errorf("%w\n(there is no sample %s of that name either; %s)", err, k.name, hint)
}

// kindOf is the kind of the sample of a name, "" when there is none.
func kindOf(name string) string {
	for _, k := range kinds() {
		if _, ok := k.sample(name); ok {
			return k.name
		}
	}
	return ""
}
