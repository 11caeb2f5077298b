package scenario

import (
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"regexp"
	"strings"

	parser "github.com/BurntSushi/toml"
)

// ReadFile reads the scenario in a file and checks it. See Read.
func ReadFile(path string) (*Scenario, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("scenario: %w", err)
	}
	defer f.Close()
	return Read(f, path)
}

// Read reads a scenario of at most MaxBytes of TOML and checks it. Source
// names it in messages. What is wrong with the scenario comes back as Faults,
// all at once; any other error is the reader's own.
func Read(r io.Reader, source string) (*Scenario, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	if err != nil {
		return nil, fmt.Errorf("scenario: reading %s: %w", source, err)
	}
	if len(data) > MaxBytes {
		return nil, Faults{{Source: source, Found: fmt.Sprintf("found more than %d bytes", MaxBytes),
			Want: fmt.Sprintf("want a scenario of at most %d bytes", MaxBytes)}}
	}
	text := string(data)
	lines, deep := indexLines(text)
	if deep > 0 { // the parser's time grows with the square of the depth
		return nil, Faults{{Source: source, Line: deep, Found: "found keys or values nested too deep",
			Want: fmt.Sprintf("want at most %d levels", maxNesting)}}
	}
	tree, err := parse(text, source)
	if err != nil {
		return nil, err
	}
	s := &Scenario{Source: source, lines: lines}
	root.blank(s)
	tr := &trail{s: s}
	tr.decode(root, s, 0, s, tree)
	s.complete()
	tr.check(root, s)
	if err := tr.faults.sorted(); err != nil {
		return nil, err
	}
	return s, nil
}

// decimalComma is a value with a comma where TOML has a point.
var decimalComma = regexp.MustCompile(`=\s*[-+]?[0-9]+,[0-9]`)

// line gives the line with a number, counted from 1, or nothing.
func line(text string, number int) string {
	lines := strings.Split(text, "\n")
	if number < 1 || number > len(lines) {
		return ""
	}
	return lines[number-1]
}

// parse reads TOML. A panic of the parser is its own fault, not the user's,
// yet no input may end the program.
func parse(text, source string) (tree map[string]any, err error) {
	defer func() {
		if r := recover(); r != nil {
			tree, err = nil, Faults{{Source: source, Found: fmt.Sprintf("not valid TOML: %v", r)}}
		}
	}()
	if _, err := parser.Decode(text, &tree); err != nil {
		f := Fault{Source: source, Found: "not valid TOML: " + err.Error()}
		var pe parser.ParseError
		if errors.As(err, &pe) {
			f.Line, f.Found = pe.Position.Line, "not valid TOML: "+strings.TrimSpace(pe.Message)
			if decimalComma.MatchString(line(text, f.Line)) {
				f.Want = "want a decimal point, as in 0.38, not a comma"
			}
		}
		return nil, Faults{f}
	}
	return tree, nil
}

// blank makes every value of a table's struct one that was not given, and
// those of the tables that are always in it.
func (t *table) blank(item any) {
	for i := range t.fields {
		switch v := t.fields[i].ref(item).(type) {
		case *float64:
			*v = math.NaN()
		case *int:
			*v = unset
		case *Range:
			*v = Range{math.NaN(), math.NaN()}
		}
	}
	for _, s := range t.subs {
		for i := range s.count(item) {
			s.blank(s.item(item, i))
		}
	}
}

// resize makes n blank items of a table inside parent.
func (t *table) resize(parent any, n int) {
	if t.grow != nil {
		t.grow(parent, n)
	}
	for i := range t.count(parent) {
		t.blank(t.item(parent, i))
	}
}
