// Package entry reads TOML tables key by key and collects all that is wrong with
// them.
package entry

import (
	"cmp"
	"io"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"evenpull/sim/internal/keyline"
	"evenpull/sim/scenario"
)

// Table is one TOML table. Its spot counts from 0, as the index of lines does; its
// key is for people and counts from 1.
type Table struct {
	Tree      map[string]any
	file      *file
	spot, key string
}

// file is what the tables of a file have in common.
type file struct {
	source string
	lines  keyline.Index
	faults scenario.Faults
}

// Read reads at most scenario.MaxBytes of TOML as the table of all others. Source
// names it in messages, kind tells what it is to be.
func Read(r io.Reader, source, kind string) (*Table, error) {
	tree, lines, err := scenario.Tree(r, source, kind)
	if err != nil {
		return nil, err
	}
	return &Table{Tree: tree, file: &file{source: source, lines: lines}}, nil
}

// Sound tells that nothing was found wrong so far, in any table of the file.
func (t *Table) Sound() bool { return len(t.file.faults) == 0 }

// Faults are all that was found wrong, by their lines.
func (t *Table) Faults() scenario.Faults {
	slices.SortStableFunc(t.file.faults, func(a, b scenario.Fault) int { return cmp.Compare(a.Line, b.Line) })
	return t.file.faults
}

func dotted(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + "." + b
}

// Line is where a key of the table stands; "" is the table itself.
func (t *Table) Line(key string) int { return t.file.lines.Find(dotted(t.spot, key)) }

// Report notes a fault at a key of the table; "" is the table itself.
func (t *Table) Report(key, found, want string) { t.ReportAt(key, key, found, want) }

// ReportAt is Report where the spot below the table is not spelt as the key is.
func (t *Table) ReportAt(spot, key, found, want string) {
	t.file.faults = append(t.file.faults, scenario.Fault{Source: t.file.source, Line: t.Line(spot),
		Key: dotted(t.key, key), Found: found, Want: want})
}

// Wrong reports a value that is not what is wanted.
func (t *Table) Wrong(key string, v any, want string) {
	t.Report(key, "found "+scenario.Describe(v), want)
}

// Known reports the keys that are none of those the table may hold.
func (t *Table) Known(keys ...string) {
	for _, k := range slices.Sorted(maps.Keys(t.Tree)) {
		if !slices.Contains(keys, k) {
			t.Report(keyline.Plain(k), "unknown key", Meant(k, keys, "the keys here are "))
		}
	}
}

// Meant is what was likely meant by a word, or else all that there are.
func Meant(word string, all []string, are string) string {
	if near := scenario.Nearest(word, all); near != "" {
		return "did you mean " + near + "?"
	}
	return are + strings.Join(all, ", ")
}

// Tables gives the items of an array of tables, none when there is none. Name
// is what its items are called when there are too many.
func (t *Table) Tables(key, header, name string, most int) []Table {
	v, ok := t.Tree[key]
	if !ok {
		return nil
	}
	trees, ok := TreesOf(v)
	switch {
	case !ok:
		t.Wrong(key, v, "want "+header)
		return nil
	case len(trees) > most:
		t.Report(key, "found "+strconv.Itoa(len(trees))+" "+name, "want at most "+strconv.Itoa(most))
		return nil
	}
	items := make([]Table, len(trees))
	for i, tree := range trees {
		items[i] = Table{tree, t.file, dotted(t.spot, key+"."+strconv.Itoa(i)), dotted(t.key, key+"."+strconv.Itoa(i+1))}
	}
	return items
}

// TreesOf takes a value as an array of tables, however it was written.
func TreesOf(v any) ([]map[string]any, bool) {
	switch v := v.(type) {
	case []map[string]any:
		return v, true
	case []any:
		trees := make([]map[string]any, len(v))
		for i := range v {
			tree, ok := v[i].(map[string]any)
			if !ok {
				return nil, false
			}
			trees[i] = tree
		}
		return trees, true
	}
	return nil, false
}

// Within is the range of a number, its ends included.
type Within struct {
	Lo, Hi float64
	Unit   string
}

// Range is the range from lo to hi in a unit, "" for none.
func Range(lo, hi float64, unit string) Within { return Within{lo, hi, unit} }

// Holds tells whether a number lies in it.
func (w Within) Holds(v float64) bool { return v >= w.Lo && v <= w.Hi }

// String says what is wanted: a number from 1 to 2 mm.
func (w Within) String() string {
	return strings.TrimSuffix("a number from "+scenario.Exactly(w.Lo)+" to "+scenario.Exactly(w.Hi)+" "+w.Unit, " ")
}

// Want says what is wanted in place of a value, and points at its quotes.
func (w Within) Want(v any) string {
	if s, ok := v.(string); ok {
		if _, err := strconv.ParseFloat(s, 64); err == nil {
			return "want " + w.String() + " without quotes"
		}
		if scenario.DecimalComma(s) {
			return "want " + w.String() + " without quotes and with a decimal point"
		}
	}
	return "want " + w.String()
}

// Number reads a number. One left out is the preset; it is missing when that is
// NaN.
func (t *Table) Number(key string, w Within, preset float64) float64 {
	v, ok := t.Tree[key]
	if !ok {
		if math.IsNaN(preset) {
			t.Report(key, "missing", "want "+w.String())
		}
		return preset
	}
	n, ok := scenario.Number(v)
	if !ok || !w.Holds(n) {
		t.Wrong(key, v, w.Want(v))
		return math.NaN()
	}
	return n
}

// Text reads a text of one line.
func (t *Table) Text(key string, most int, required bool) string {
	want := "want a text of 1 to " + strconv.Itoa(most) + " characters"
	v, ok := t.Tree[key]
	if !ok {
		if required {
			t.Report(key, "missing", want)
		}
		return ""
	}
	s, ok := v.(string)
	switch {
	case !ok || strings.TrimSpace(s) == "":
		t.Wrong(key, v, want)
	case len([]rune(s)) > most:
		t.Report(key, "found "+strconv.Itoa(len([]rune(s)))+" characters", want)
	case scenario.Unprintable(s) != 0:
		t.Report(key, "found the control character "+strconv.QuoteRune(scenario.Unprintable(s)), "want plain text")
	default:
		return s
	}
	return ""
}
