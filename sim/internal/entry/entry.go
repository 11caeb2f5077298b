// Package entry reads TOML tables key by key and comma-separated values row by row,
// and collects all that is wrong with them.
package entry

import (
	"cmp"
	"fmt"
	"io"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"evenpull/sim/internal/document"
	"evenpull/sim/internal/keyline"
	"evenpull/sim/internal/unit"
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
	text   string
	lines  keyline.Index
	faults scenario.Faults

	written map[string]string // by spot, the keys that the file has in another unit
	meant   map[string]bool   // spots of keys that are there, misspelt
}

// Unit takes the values of a key that has no unit in its name, written with one of those of
// the key that is given with its own: running_down as running_down_nm, or running_down_cnm.
func (t *Table) Unit(key, whole string) {
	t.unify([]string{whole})
	v, there := t.Tree[whole]
	if _, twice := t.Tree[key]; !there || twice {
		return
	}
	t.Tree[key] = v
	delete(t.Tree, whole)
	t.file.lines[dotted(t.spot, key)] = t.Line(whole)
}

// unify keeps in mind how what stands in another unit than that of its key was written.
func (t *Table) unify(keys []string) {
	for key, as := range unit.Unify(t.Tree, keys) {
		if t.file.written == nil {
			t.file.written = map[string]string{}
		}
		t.file.written[dotted(t.spot, key)] = as
		t.file.lines[dotted(t.spot, key)] = t.Line(as)
	}
}

// Read reads at most scenario.MaxBytes of TOML as the table of all others. Source
// names it in messages, noun is what it is to be, with its article.
func Read(r io.Reader, source, noun string) (*Table, error) {
	var text strings.Builder
	tree, lines, err := document.Read(io.TeeReader(r, &text), source, noun, scenario.MaxBytes)
	if err != nil {
		return nil, scenario.OfText(source, err)
	}
	return &Table{Tree: tree, file: &file{source: source, text: text.String(), lines: lines, meant: map[string]bool{}}}, nil
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

// Stands tells whether a key of the table stands in the file.
func (t *Table) Stands(key string) bool {
	_, ok := t.file.lines[dotted(t.spot, key)]
	return ok
}

// missing is what was found of a key that was left out.
const missing = "missing"

// Report notes a fault at a key of the table; "" is the table itself.
func (t *Table) Report(key, found, want string) { t.ReportAt(key, key, found, want) }

// ReportAt is Report where the spot below the table is not spelt as the key is.
func (t *Table) ReportAt(spot, key, found, want string) {
	if found == missing && t.file.meant[dotted(t.spot, spot)] {
		return // the misspelt key is told
	}
	t.file.faults = append(t.file.faults, t.FaultAt(spot, key, found, want))
}

// FaultAt is the fault that ReportAt notes.
func (t *Table) FaultAt(spot, key, found, want string) scenario.Fault {
	line := t.Line(spot)
	if as := t.file.written[dotted(t.spot, spot)]; as != "" {
		key, found = as, unit.Found(found, key)
	}
	return scenario.Fault{Source: t.file.source, Line: line, Key: dotted(t.key, key), Found: found, Want: want}
}

// Wrong reports a value that is not what is wanted.
func (t *Table) Wrong(key string, v any, want string) {
	t.Report(key, "found "+document.Describe(v), want)
}

// Known reports the keys that are none of those the table may hold.
//
// What is written in another unit is put under its key, in its unit, first.
func (t *Table) Known(keys ...string) {
	t.unify(keys)
	for _, k := range slices.Sorted(maps.Keys(t.Tree)) {
		if same, _ := unit.Wanted(k, keys); same != "" {
			t.Report(k, "found "+k+" beside "+same+", which it is in another unit", "want one of them")
		} else if !slices.Contains(keys, k) {
			meant, want := scenario.KeyMeant(k, keys, "the keys here are ")
			t.Report(keyline.Plain(k), "unknown key", want)
			if _, stands := t.Tree[meant]; meant != "" && !stands {
				t.file.meant[dotted(t.spot, meant)] = true
			}
		}
	}
}

// Meant is what was likely meant by a word, or else all that there are.
func Meant(word string, all []string, are string) string {
	_, want := scenario.KeyMeant(word, all, are)
	return want
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
		items[i] = t.Item(key, i)
		items[i].Tree = tree
	}
	return items
}

// Item is an item, from 0, of an array of tables, without what stands in it.
func (t *Table) Item(key string, i int) Table {
	return Table{nil, t.file, dotted(t.spot, key+"."+strconv.Itoa(i)), dotted(t.key, key+"."+strconv.Itoa(i+1))}
}

// Sub gives the table that stands under a key; false where there stands something else.
func (t *Table) Sub(key string) (Table, bool) {
	tree, ok := t.Tree[key].(map[string]any)
	return Table{tree, t.file, dotted(t.spot, key), dotted(t.key, key)}, ok
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

// Number reads a number. One left out is the preset; it is missing when that is
// NaN.
func (t *Table) Number(key string, w Within, preset float64) float64 {
	v, ok := t.Tree[key]
	if !ok {
		if math.IsNaN(preset) {
			t.Report(key, missing, w.wantMissing())
		}
		return preset
	}
	n, ok := document.Number(v)
	if !ok || !w.Holds(n) {
		t.Wrong(key, v, w.Want(v))
		return math.NaN()
	}
	return n
}

// Whole reads a whole number from lo to hi; 0 for one left out or at fault.
func (t *Table) Whole(key string, lo, hi int) int {
	v, given := t.Tree[key]
	if !given {
		return 0
	}
	n, ok := document.Number(v)
	if !ok || n != math.Trunc(n) || n < float64(lo) || n > float64(hi) {
		t.Wrong(key, v, wantWhole(lo, hi))
		return 0
	}
	return int(n)
}

func wantWhole(lo, hi int) string { return fmt.Sprintf("want a whole number from %d to %d", lo, hi) }

// Truth reads true or false; one left out is the preset.
func (t *Table) Truth(key string, preset bool) bool {
	v, given := t.Tree[key]
	if !given {
		return preset
	}
	is, ok := v.(bool)
	if !ok {
		t.Wrong(key, v, wantTruth)
	}
	return is
}

const wantTruth = "want true or false"

// Text reads a text of one line.
func (t *Table) Text(key string, most int, required bool) string {
	v, ok := t.Tree[key]
	if !ok {
		if required {
			t.Report(key, missing, wantText(most))
		}
		return ""
	}
	text, ok := v.(string)
	switch found, want := wrongText(text, most); {
	case !ok || strings.TrimSpace(text) == "":
		t.Wrong(key, v, wantText(most))
	case found != "":
		t.Report(key, found, want)
	default:
		return text
	}
	return ""
}

func wantText(most int) string { return "want a text of 1 to " + strconv.Itoa(most) + " characters" }

// wrongText tells what is wrong with a text of one line, "" when nothing is.
func wrongText(text string, most int) (found, want string) {
	if n := utf8.RuneCountInString(text); n > most {
		return "found " + strconv.Itoa(n) + " characters", wantText(most)
	}
	if what := document.Unprintable(text, false); what != "" {
		return "found " + what, "want plain text"
	}
	return "", ""
}
