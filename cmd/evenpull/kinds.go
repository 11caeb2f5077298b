package main

import (
	"cmp"
	"fmt"
	"io"
	"os"
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

// textOf is the text behind the name of a file of a kind, which is taken down as read.
func textOf(s streams, of int, name string) (string, error) {
	text, err := textNamed(s, &kinds()[of], name)
	if err == nil {
		s.read.add(name, source(name), text)
	}
	return text, err
}

// textNamed is the text behind a name: standard input for "-", a sample, or else a file. A
// name that is both a sample's and a file's is refused: computed would be a clock that
// somebody may not mean.
func textNamed(s streams, k *kind, name string) (string, error) {
	plain, marked := strings.CutPrefix(name, sampleMark)
	if s.again != nil {
		text, err := s.again.text(name)
		if err != nil {
			err = k.noSample(name, err)
		}
		return text, err
	}
	switch text, ok := k.sample(plain); {
	case ok && !marked && exists(name):
		return "", usagef("%s is a sample, and something of that name stands in this folder: say .%c%s for the file, or %s%s for the sample", name, filepath.Separator, name, sampleMark, name)
	case ok:
		return text, nil
	case marked:
		return "", usagef("there is no sample %s %q; there are %s", k.name, plain, strings.Join(k.names(), ", "))
	case name == "-":
		return readAll(s.in, source(name))
	}
	text, err := fileText(name)
	if err != nil {
		return "", k.noSample(name, err)
	}
	return text, nil
}

// sampleMark before a name says that it is a sample's, whatever files there are.
const sampleMark = "sample:"

// exists tells whether there is anything of a name, be it a link to nothing.
func exists(name string) bool {
	_, err := os.Lstat(name)
	return err == nil
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

// openBeside opens a file that another one names, beside that one, and takes it down as
// read.
func openBeside(s streams, name, file string) (io.ReadCloser, error) {
	at := beside(name, file)
	var text string
	var err error
	if s.again != nil {
		text, err = s.again.text(readingsIn(name, file))
	} else {
		text, err = textBeside(at)
	}
	if err != nil {
		return nil, bare(err)
	}
	s.read.add(readingsIn(name, file), file, text)
	return opened{strings.NewReader(text), at}, nil
}

// readingsIn is what a file of readings is asked for by: the same on every system.
func readingsIn(bench, file string) string { return bench + ": " + file }

// textBeside is the text of such a file, up to one byte more than is read of any.
func textBeside(at string) (string, error) {
	r, err := os.Open(at)
	if err != nil {
		return "", err
	}
	defer r.Close()
	text, err := io.ReadAll(io.LimitReader(r, scenario.MaxBytes+1))
	return string(text), err
}

// opened is the text of a file with its name, by which messages call it.
type opened struct {
	*strings.Reader
	name string
}

func (o opened) Name() string { return o.name }
func (o opened) Close() error { return nil }

// beside is the path of a file that another one names.
func beside(name, file string) string {
	if filepath.IsAbs(file) || name == "-" {
		return file
	}
	return filepath.Join(filepath.Dir(name), file)
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

// source is what messages call the place that a text was read from.
func source(name string) string {
	if name == "-" {
		return "standard input"
	}
	return strings.TrimPrefix(name, sampleMark)
}

// fileText reads a file, and never a sample or standard input whatever its name.
func fileText(name string) (string, error) {
	f, err := os.Open(name)
	if err != nil {
		return "", fmt.Errorf("%s cannot be read: %w", cmp.Or(name, `""`), bare(err))
	}
	defer f.Close()
	return readAll(f, name)
}

// readAll reads a text, up to one byte more than is read of any; source is what
// messages call it.
func readAll(in io.Reader, source string) (string, error) {
	text, err := io.ReadAll(io.LimitReader(in, scenario.MaxBytes+1))
	if err != nil {
		return "", fmt.Errorf("%s cannot be read: %w", source, bare(err))
	}
	return string(text), nil
}
