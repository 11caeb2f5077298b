package bench

import (
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"evenpull/sim/internal/keyline"
	"evenpull/sim/scenario"
)

// reader goes through a bench file and collects what is wrong with it.
type reader struct {
	source string
	lines  keyline.Index
	open   Open
	faults scenario.Faults // of the file itself
	apart  scenario.Faults // of the files of readings that it names
}

// table is one TOML table. Its spot counts from 0, as the index of lines does;
// its key is for people and counts from 1.
type table struct {
	rd        *reader
	spot, key string
	tree      map[string]any
}

func dotted(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + "." + b
}

// report notes a fault at a key of the table; "" is the table itself.
func (t *table) report(key, found, want string) { t.reportAt(key, key, found, want) }

// reportAt is report where the spot below the table is not spelt as the key is.
func (t *table) reportAt(spot, key, found, want string) {
	t.rd.faults = append(t.rd.faults, scenario.Fault{Source: t.rd.source, Line: t.rd.lines.Find(dotted(t.spot, spot)),
		Key: dotted(t.key, key), Found: found, Want: want})
}

// wrong reports a value that is not what is wanted.
func (t *table) wrong(key string, v any, want string) {
	t.report(key, "found "+scenario.Describe(v), want)
}

// known reports the keys that are none of those the table may hold.
func (t *table) known(keys ...string) {
	for _, k := range slices.Sorted(maps.Keys(t.tree)) {
		if slices.Contains(keys, k) {
			continue
		}
		want := "the keys here are " + strings.Join(keys, ", ")
		if near := scenario.Nearest(k, keys); near != "" {
			want = "did you mean " + near + "?"
		}
		t.report(keyline.Plain(k), "unknown key", want)
	}
}

// tables gives the items of an array of tables, none when there is none. Name
// is what its items are called when there are too many.
func (t *table) tables(key, header, name string, most int) []table {
	v, ok := t.tree[key]
	if !ok {
		return nil
	}
	trees, ok := treesOf(v)
	switch {
	case !ok:
		t.wrong(key, v, "want "+header)
		return nil
	case len(trees) > most:
		t.report(key, "found "+strconv.Itoa(len(trees))+" "+name, "want at most "+strconv.Itoa(most))
		return nil
	}
	items := make([]table, len(trees))
	for i, tree := range trees {
		items[i] = table{t.rd, dotted(t.spot, key+"."+strconv.Itoa(i)), dotted(t.key, key+"."+strconv.Itoa(i+1)), tree}
	}
	return items
}

// treesOf takes a value as an array of tables, however it was written.
func treesOf(v any) ([]map[string]any, bool) {
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

// within is the range of a number, its ends included.
type within struct {
	lo, hi float64
	unit   string
}

func (w within) holds(v float64) bool { return v >= w.lo && v <= w.hi }

func (w within) String() string {
	return strings.TrimSuffix("a number from "+scenario.Exactly(w.lo)+" to "+scenario.Exactly(w.hi)+" "+w.unit, " ")
}

// want says what is wanted in place of a value, and points at its quotes.
func (w within) want(v any) string {
	if s, ok := v.(string); ok {
		if _, err := strconv.ParseFloat(s, 64); err == nil {
			return "want " + w.String() + " without quotes"
		}
		if _, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64); err == nil {
			return "want " + w.String() + " without quotes and with a decimal point"
		}
	}
	return "want " + w.String()
}

// number reads a number. One left out is the preset; it is missing when that is
// NaN.
func (t *table) number(key string, w within, preset float64) float64 {
	v, ok := t.tree[key]
	if !ok {
		if math.IsNaN(preset) {
			t.report(key, "missing", "want "+w.String())
		}
		return preset
	}
	n, ok := scenario.Number(v)
	if !ok || !w.holds(n) {
		t.wrong(key, v, w.want(v))
		return math.NaN()
	}
	return n
}

// text reads a text of one line.
func (t *table) text(key string, most int, required bool) string {
	want := "want a text of 1 to " + strconv.Itoa(most) + " characters"
	v, ok := t.tree[key]
	if !ok {
		if required {
			t.report(key, "missing", want)
		}
		return ""
	}
	s, ok := v.(string)
	switch {
	case !ok || strings.TrimSpace(s) == "":
		t.wrong(key, v, want)
	case len([]rune(s)) > most:
		t.report(key, "found "+strconv.Itoa(len([]rune(s)))+" characters", want)
	case scenario.Unprintable(s) != 0:
		t.report(key, "found the control character "+strconv.QuoteRune(scenario.Unprintable(s)), "want plain text")
	default:
		return s
	}
	return ""
}

// name reads the name of a train.
func (t *table) name(key string) string {
	const want = "want the name of a train: up to 64 letters, digits, - and _"
	v, ok := t.tree[key]
	if !ok {
		t.report(key, "missing", want)
		return ""
	}
	if s, ok := v.(string); ok && scenario.ValidName(s) {
		return s
	}
	t.wrong(key, v, want)
	return ""
}
