package scenario

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// trail is the way from the whole scenario down to a table, and the faults met
// on it. Nothing is spelt out before a fault occurs, so that a walk over a
// sound scenario allocates nothing.
//
// A place in a scenario has two spellings. Its KEY is for people and --set:
// going.mesh.centre.wheel. Its spot counts from 0 and stays the same whatever
// the names are: train.0.mesh.1.wheel.
type trail struct {
	s      *Scenario
	steps  [5]step
	depth  int
	ranged bool // values are not judged one by one
	faults Faults
	bad    map[string]bool // spots with a fault, which no later check judges again
	spelt  []byte          // memory of spell
}

// step is one table on the way: item i of the table t inside parent.
type step struct {
	t            *table
	i            int
	parent, item any
}

func (tr *trail) push(t *table, i int, parent, item any) {
	st := &tr.steps[tr.depth]
	st.t, st.i, st.parent, st.item = t, i, parent, item // one by one: copying a step made before would wait for it
	tr.depth++
}

func (tr *trail) pop() { tr.depth-- }

// train is the train that the trail is in, or nil.
func (tr *trail) train() *Train {
	if tr.depth > 1 {
		if t, ok := tr.steps[1].item.(*Train); ok {
			return t
		}
	}
	return nil
}

// spot spells the place of a key of the present table; "" is the table itself.
func (tr *trail) spot(key string) string { return string(tr.spell(key)) }

// spell is spot in memory that the next call uses again.
func (tr *trail) spell(key string) []byte {
	b := tr.spelt[:0]
	for _, st := range tr.steps[:tr.depth] {
		if st.t == root {
			continue
		}
		b = dot(b, st.t.key)
		if st.t.many {
			b = dot(b, strconv.Itoa(st.i))
		}
	}
	tr.spelt = dot(b, key)
	return tr.spelt
}

// key spells the KEY of a key of the present table, leaving out the first
// steps.
func (tr *trail) key(first int, key string) string {
	b := make([]byte, 0, 48)
	for _, st := range tr.steps[first:tr.depth] {
		if st.t == root {
			continue
		}
		label := ""
		if st.t.many {
			label = st.t.segment(st.parent, st.i)
		}
		if !st.t.many || st.t != trains || strings.HasPrefix(label, "#") {
			b = dot(b, st.t.key)
		}
		b = dot(b, label)
	}
	b = dot(b, key)
	return string(b)
}

// trains is the one array of tables that a KEY names without its own key.
var trains = root.sub("train")

func dot(b []byte, part string) []byte {
	if part == "" {
		return b
	}
	if len(b) > 0 {
		b = append(b, '.')
	}
	return append(b, part...)
}

// segment is what a KEY calls item i: its name; name#2 for the second of that
// name; #3 for the third when it has no usable name; 3 where items never have.
func (t *table) segment(parent any, i int) string {
	if t.label == nil {
		return strconv.Itoa(i + 1)
	}
	label := t.label(t.item(parent, i))
	if !validName(label) {
		return "#" + strconv.Itoa(i+1)
	}
	nth := 1
	for j := range i {
		if t.label(t.item(parent, j)) == label {
			nth++
		}
	}
	if nth > 1 {
		return label + "#" + strconv.Itoa(nth)
	}
	return label
}

// find is the item that a KEY calls seg, or -1.
func (t *table) find(parent any, seg string) int {
	for i := range t.count(parent) {
		if t.segment(parent, i) == seg {
			return i
		}
	}
	return -1
}

func validName(s string) bool {
	n := 0
	for _, r := range s {
		if small := 'a' <= r && r <= 'z'; !small && !inName(r) {
			return false
		}
		n++
	}
	return n > 0 && n <= MaxName
}

func inName(r rune) bool {
	return r == '-' || r == '_' || r != utf8.RuneError && (unicode.IsLetter(r) || unicode.IsDigit(r))
}

// visit calls f at every table there is, the outer ones first.
func (tr *trail) visit(t *table, parent any, f func(t *table, item any)) {
	for i := range t.count(parent) {
		tr.visitItem(t, parent, i, f)
	}
}

func (tr *trail) visitItem(t *table, parent any, i int, f func(t *table, item any)) {
	item := t.item(parent, i)
	tr.push(t, i, parent, item)
	f(t, item)
	for _, s := range t.subs {
		tr.visit(s, item, f)
	}
	tr.pop()
}
