package scenario

import (
	"cmp"
	"slices"
	"strings"
)

// unknownKey suggests the nearest KEY, or lists what may follow the part that
// was understood.
func (tg *target) unknownKey(key string) error {
	st, rest := &tg.steps[tg.depth-1], tg.rest
	understood := strings.TrimSuffix(strings.TrimSuffix(key, strings.Join(rest, ".")), ".")
	if len(rest) == 0 {
		return keyFault(key, "found the name of a table", "want one of its keys: "+strings.Join(st.follow(), ", "))
	}
	options := st.follow()
	if t := st.t.sub(rest[0]); t != nil && t.many && t != trains {
		understood, options = dotted(understood, rest[0]), t.labels(st.item)
	}
	present, absent := tg.around()
	if slices.Contains(absent, key) {
		return keyFault(key, "found no value", "want one set first: the scenario has no such table")
	}
	near := cmp.Or(withoutTable(understood, strings.Join(rest, "."), present), suggest(key, present), suggest(key, absent))
	if near != "" {
		return keyFault(key, "unknown key", "did you mean "+near+"?")
	}
	want := "want one of "
	if understood != "" {
		want = "after " + understood + " may follow "
	}
	if len(options) == 0 {
		return keyFault(key, "unknown key", want+"nothing: there is none in this scenario")
	}
	_, want = KeyMeant(strings.Join(rest, "."), options, want)
	return keyFault(key, "unknown key", want)
}

// withoutTable gives the KEY that was meant when a table in it is left out, or "".
func withoutTable(understood, rest string, keys []string) string {
	for _, k := range keys {
		if strings.HasPrefix(k, understood+".") && endsIn(k, rest) {
			return k
		}
	}
	return ""
}

// follow lists what may follow the present table in a KEY.
func (st *step) follow() []string {
	var all []string
	for _, k := range st.t.keys() {
		if k == trains.key && st.t == root {
			all = append(all, trains.labels(st.item)...)
		} else {
			all = append(all, k)
		}
	}
	return all
}

// labels lists what a KEY calls the items of an array of tables.
func (t *table) labels(parent any) []string {
	all := make([]string, t.count(parent))
	for i := range all {
		all[i] = t.segment(parent, i)
	}
	return all
}

// maxNear is how many KEYs of a scenario a misspelt one is compared with, so
// that many of them take no long time; clocks have some hundreds.
const maxNear = 2000

// around lists the KEYs that a misspelt one may have meant: those of its train,
// or of the whole scenario when it names none; and those of tables left out.
func (tg *target) around() (present, absent []string) {
	tr := &trail{s: tg.s}
	list := func(t *table, item any) {
		if len(present)+len(absent) > maxNear {
			return
		}
		for i := range t.fields {
			present = append(present, tr.key(0, t.fields[i].key))
		}
		for _, sub := range t.subs {
			if !sub.many && sub.count(item) == 0 {
				for i := range sub.fields {
					absent = append(absent, tr.key(0, sub.key+"."+sub.fields[i].key))
				}
			}
		}
	}
	if tg.train() == nil {
		tr.visit(root, tg.s, list)
	} else {
		tr.push(root, 0, tg.s, tg.s)
		tr.visitItem(trains, tg.s, tg.steps[1].i, list)
	}
	return present, absent
}
