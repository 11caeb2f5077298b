package stock

import (
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"evenpull/sim/internal/keyline"
	"evenpull/sim/scenario"
)

// reader goes through a stock list and collects what is wrong with it.
type reader struct {
	source string
	lines  keyline.Index
	faults scenario.Faults
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

// line is where a key of the table stands; "" is the table itself.
func (t *table) line(key string) int { return t.rd.lines.Find(dotted(t.spot, key)) }

// report notes a fault at a key of the table.
func (t *table) report(key, found, want string) {
	t.rd.faults = append(t.rd.faults, scenario.Fault{Source: t.rd.source, Line: t.line(key), Key: dotted(t.key, key), Found: found, Want: want})
}

// wrong reports a value that is not what is wanted.
func (t *table) wrong(key string, v any, want string) {
	t.report(key, "found "+scenario.Describe(v), want)
}

// known reports the keys that are none of those the table may hold.
func (t *table) known(keys ...string) {
	for _, k := range slices.Sorted(maps.Keys(t.tree)) {
		if !slices.Contains(keys, k) {
			t.report(keyline.Plain(k), "unknown key", nearest(k, keys, "the keys here are "))
		}
	}
}

// nearest is what was likely meant by a word, or else all that there are.
func nearest(word string, all []string, are string) string {
	if near := scenario.Nearest(word, all); near != "" {
		return "did you mean " + near + "?"
	}
	return are + strings.Join(all, ", ")
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
	return "a number from " + scenario.Exactly(w.lo) + " to " + scenario.Exactly(w.hi) + " " + w.unit
}

// want says what is wanted in place of a value, and points at its quotes.
func (w within) want(v any) string {
	s, ok := v.(string)
	if _, err := strconv.ParseFloat(s, 64); ok && err == nil {
		return "want " + w.String() + " without quotes"
	}
	if _, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64); ok && err == nil {
		return "want " + w.String() + " without quotes and with a decimal point"
	}
	return "want " + w.String()
}

// number reads a number that has to be there; NaN when it is at fault.
func (t *table) number(key string, w within) float64 {
	v, given := t.tree[key]
	if !given {
		t.report(key, "missing", "want "+w.String())
		return math.NaN()
	}
	n, ok := scenario.Number(v)
	if !ok || !w.holds(n) {
		t.wrong(key, v, w.want(v))
		return math.NaN()
	}
	return n
}

// text reads a text of one line that has to be there; "" when it is at fault.
func (t *table) text(key string, most int) string {
	want := "want a text of 1 to " + strconv.Itoa(most) + " characters"
	v, given := t.tree[key]
	s, ok := v.(string)
	switch {
	case !given:
		t.report(key, "missing", want)
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
