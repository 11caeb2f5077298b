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
	faults Faults
	bad    map[string]bool // spots with a fault, which no later check judges again
}

// step is one table on the way: item i of the table t inside parent.
type step struct {
	t            *table
	i            int
	parent, item any
}

func (tr *trail) push(t *table, i int, parent, item any) {
	tr.steps[tr.depth] = step{t, i, parent, item}
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
func (tr *trail) spot(key string) string {
	var b strings.Builder
	for _, st := range tr.steps[:tr.depth] {
		if st.t == root {
			continue
		}
		dot(&b, st.t.key)
		if st.t.many {
			dot(&b, strconv.Itoa(st.i))
		}
	}
	dot(&b, key)
	return b.String()
}

// key spells the KEY of a key of the present table, leaving out the first
// steps.
func (tr *trail) key(first int, key string) string {
	var b strings.Builder
	for _, st := range tr.steps[first:tr.depth] {
		if st.t == root {
			continue
		}
		label := ""
		if st.t.many {
			label = st.t.segment(st.parent, st.i)
		}
		if !st.t.many || st.t != trains || strings.HasPrefix(label, "#") {
			dot(&b, st.t.key)
		}
		dot(&b, label)
	}
	dot(&b, key)
	return b.String()
}

// trains is the one array of tables that a KEY names without its own key.
var trains = root.sub("train")

func dot(b *strings.Builder, part string) {
	if part == "" {
		return
	}
	if b.Len() > 0 {
		b.WriteByte('.')
	}
	b.WriteString(part)
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
	if s == "" || utf8.RuneCountInString(s) > maxName {
		return false
	}
	for _, r := range s {
		if r == utf8.RuneError || r != '-' && r != '_' && !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			return false
		}
	}
	return true
}

// report notes a fault at a key of the present table ("": the table itself).
// The other keys have a part in it: when one of them came from --set and key
// did not, the fault is laid there.
func (tr *trail) report(key, found, want string, others ...string) {
	spot := tr.spot(key)
	tr.mark(spot)
	f := Fault{Source: tr.s.Source, Line: tr.s.lines.find(spot), Key: tr.key(0, key), Found: found, Want: want}
	for _, k := range append([]string{key}, others...) {
		if by, ok := tr.s.setBy(tr.spot(k)); ok {
			f.Source, f.Line = setSource(by), 0
			break
		}
	}
	tr.faults = append(tr.faults, f)
}

// setBy gives the KEY by which Set changed a spot or the list it is in.
func (s *Scenario) setBy(spot string) (string, bool) {
	for spot != "" && len(s.set) > 0 {
		if by, ok := s.set[spot]; ok {
			return by, true
		}
		spot = enclosing(spot)
	}
	return "", false
}

// enclosing cuts the last part off a spot.
func enclosing(spot string) string {
	return spot[:max(0, strings.LastIndexByte(spot, '.'))]
}

func (tr *trail) mark(spot string) {
	if tr.bad == nil {
		tr.bad = map[string]bool{}
	}
	tr.bad[spot] = true
}

// sound tells whether none of the keys, nor a table they are in, has a fault.
func (tr *trail) sound(keys ...string) bool {
	if len(tr.bad) == 0 {
		return true
	}
	for _, k := range keys {
		for spot := tr.spot(k); spot != ""; spot = enclosing(spot) {
			if tr.bad[spot] {
				return false
			}
		}
	}
	return true
}

// visit calls f at every table there is, the outer ones first.
func (tr *trail) visit(t *table, parent any, f func(t *table, item any)) {
	for i := range t.count(parent) {
		item := t.item(parent, i)
		tr.push(t, i, parent, item)
		f(t, item)
		for _, s := range t.subs {
			tr.visit(s, item, f)
		}
		tr.pop()
	}
}
