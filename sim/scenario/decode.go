package scenario

import (
	"slices"
	"strconv"
	"strings"

	"evenpull/sim/internal/document"
	"evenpull/sim/internal/keyline"
)

// decode fills item i of the table t inside parent from its TOML tree,
// reporting keys that are unknown and values of the wrong type.
func (tr *trail) decode(t *table, parent any, i int, item any, tree map[string]any) {
	tr.push(t, i, parent, item)
	defer tr.pop()
	tr.unify(t, tree)
	for _, names := range []bool{true, false} { // names first: messages use them
		for j := range t.fields {
			if f := &t.fields[j]; (f.kind == name) == names {
				tr.decodeField(f, item, tree)
			}
		}
	}
	tr.unknown(t, tree)
	for _, s := range t.subs {
		tr.decodeSub(s, item, tree)
	}
}

func (tr *trail) decodeField(f *field, item any, tree map[string]any) {
	v, ok := tree[f.key]
	if !ok {
		return
	}
	w := f.assign(f.ref(item), v)
	switch {
	case w == nil:
	case w.at < 0:
		tr.report(f.key, w.found, w.want)
	default:
		tr.report(f.key+"."+strconv.Itoa(w.at), w.found, w.want)
		tr.mark(tr.spot(f.key))
	}
}

func (tr *trail) unknown(t *table, tree map[string]any) {
	var strange []string
	for k := range tree {
		if t.field(k) == nil && t.sub(k) == nil {
			strange = append(strange, k)
		}
	}
	slices.Sort(strange)
	for _, k := range strange {
		if same, _ := t.measured(k); same != nil {
			tr.report(k, "found "+k+" beside "+same.key+", which it is in another unit", "want one of them")
			continue
		}
		meant, want := KeyMeant(k, t.keys(), "the keys here are ")
		if places := root.having(k, nil); meant == "" && len(places) > 0 {
			want = "it belongs to " + orList(places)
		}
		tr.report(keyline.Plain(k), "unknown key", want)
		if _, stands := tree[meant]; meant != "" && !stands {
			tr.mark(tr.spot(meant)) // one message is enough: not that this one is missing
		}
	}
}

// having adds the headers of the tables inside this one that have a key.
func (t *table) having(k string, headers []string) []string {
	for _, s := range t.subs {
		if s.field(k) != nil {
			headers = append(headers, s.header())
		}
		headers = s.having(k, headers)
	}
	return headers
}

func (tr *trail) decodeSub(t *table, parent any, tree map[string]any) {
	v, ok := tree[t.key]
	if !ok {
		if t.required {
			tr.report(t.key, "missing", "want a table "+t.header())
		}
		return
	}
	items, ok := t.trees(v)
	if !ok {
		tr.report(t.key, t.foundTable(v), "want "+t.shape())
		return
	}
	if !tr.size(t, len(items)) {
		return
	}
	if t.grow != nil {
		t.resize(parent, len(items))
	}
	for i, item := range items {
		tr.decode(t, parent, i, t.item(parent, i), item)
	}
}

// trees takes a value as the tables that t stands for.
func (t *table) trees(v any) ([]map[string]any, bool) {
	switch v := v.(type) {
	case map[string]any:
		return []map[string]any{v}, !t.many
	case []map[string]any:
		return v, t.many
	case []any:
		items := make([]map[string]any, len(v))
		for i := range v {
			m, ok := v[i].(map[string]any)
			if !ok {
				return nil, false
			}
			items[i] = m
		}
		return items, t.many
	}
	return nil, false
}

// size reports an array of tables that is too short or too long.
func (tr *trail) size(t *table, n int) bool {
	switch {
	case !t.many || n >= t.least && n <= t.limit:
		return true
	case n == 0:
		tr.report(t.key, "missing", "want at least one table "+t.header())
	default:
		tr.report(t.key, "found "+plural(n, "table"), "want at most "+document.Figure(float64(t.limit)))
	}
	return false
}

// foundTable describes what stands in place of a table.
func (t *table) foundTable(v any) string {
	if t.many {
		if _, single := v.(map[string]any); single {
			return "found a single table"
		}
	}
	return "found " + document.Describe(v)
}

// shape says how the table is written.
func (t *table) shape() string {
	if t.many {
		return "tables " + t.header() + ", each in double brackets"
	}
	return "one table " + t.header() + " in single brackets"
}

// header is the table's header in the file.
func (t *table) header() string {
	path := t.path(root, "")
	if t.many {
		return "[[" + path + "]]"
	}
	return "[" + path + "]"
}

// path finds the dotted name of t inside the table at.
func (t *table) path(at *table, prefix string) string {
	for _, s := range at.subs {
		name := strings.TrimPrefix(prefix+"."+s.key, ".")
		if s == t {
			return name
		}
		if p := t.path(s, name); p != "" {
			return p
		}
	}
	return ""
}
