package scenario

import (
	"slices"
	"strconv"
	"strings"

	"evenpull/sim/internal/document"
	"evenpull/sim/internal/keyline"
)

// maxKey is the longest KEY looked at, in bytes; none of the format comes near.
const maxKey = 400

// target is what a KEY names.
type target struct {
	trail          // down to the table
	f     *field   // the key in it
	v     any      // pointer to its value
	by    float64  // what its values are multiplied by, where the KEY is in another unit; else 0
	index int      // of the number in a list or pair, or -1
	made  []*step  // tables made on the way
	rest  []string // the part of the KEY that was not understood
}

// resolve finds what a KEY names. Tables that may be left out and are not
// there are made when create is set; undo takes them away again. With an error
// comes how far the KEY was understood.
func (s *Scenario) resolve(key string, create bool) (*target, error) {
	tg := &target{trail: trail{s: s}, index: -1}
	tg.push(root, 0, s, s)
	if len(key) > maxKey {
		return tg, keyFault(keyline.Clip(key), "unknown key", "want a key of this scenario")
	}
	parts := strings.Split(key, ".")
	for len(parts) > 0 {
		st := &tg.steps[tg.depth-1]
		f := st.t.field(parts[0])
		if f == nil {
			f, tg.by = st.t.measured(parts[0])
		}
		if f != nil {
			tg.f, tg.v = f, f.ref(st.item)
			if err := tg.element(key, parts[1:]); err != nil {
				tg.undo()
				return tg, err
			}
			return tg, nil
		}
		n := tg.down(parts, create)
		if n == 0 {
			break
		}
		parts = parts[n:]
	}
	defer tg.undo()
	tg.rest = parts
	return tg, tg.unknownKey(key)
}

// down takes the trail into the table that the parts begin with, and says how
// many parts that took: 0 when there is no such table.
func (tg *target) down(parts []string, create bool) int {
	st := &tg.steps[tg.depth-1]
	t, item, used := st.t.sub(parts[0]), 0, 1
	switch {
	case st.t == root && (t == nil || t == trains):
		t, item = trains, trains.find(st.item, parts[0])
	case t == nil:
		return 0
	case t.many:
		if len(parts) < 2 {
			return 0
		}
		item, used = t.find(st.item, parts[1]), 2
	}
	if item < 0 {
		return 0
	}
	if t.count(st.item) == 0 {
		if !create {
			return 0
		}
		t.resize(st.item, 1)
		tg.made = append(tg.made, &step{t: t, parent: st.item})
	}
	tg.push(t, item, st.item, t.item(st.item, item))
	return used
}

// undo takes away the tables that resolve made.
func (tg *target) undo() {
	for _, st := range slices.Backward(tg.made) {
		st.t.grow(st.parent, 0)
	}
	tg.made = nil
}

// element takes the number that follows a list, pair or pairs, from 0: of diameters the
// turn that one stands at, of points the number of the point whose diameter it is.
func (tg *target) element(key string, rest []string) error {
	if len(rest) == 0 {
		return nil
	}
	n := 0
	switch v := tg.v.(type) {
	case *[]float64:
		n = len(*v)
	case *[]Point:
		n = len(*v)
	case *Range:
		n = 2
	}
	if n == 0 && (tg.f.kind == list || tg.f.kind == places) {
		return keyFault(key, "found no value", "want the whole list set first: "+tg.f.accepts())
	}
	if n == 0 {
		return keyFault(key, "unknown key", "want "+strings.TrimSuffix(key, "."+strings.Join(rest, "."))+" with nothing after it")
	}
	i, err := strconv.Atoi(rest[0])
	if err != nil || i < 0 || i >= n || len(rest) > 1 {
		return keyFault(key, "found "+strconv.Quote(keyline.Clip(strings.Join(rest, "."))), "want a place from 0 to "+strconv.Itoa(n-1))
	}
	tg.index = i
	return nil
}

// number is the number that the KEY names, or nil when it names another thing.
func (tg *target) number() *float64 {
	switch v := tg.v.(type) {
	case *float64:
		return v
	case *[]float64:
		if tg.index >= 0 {
			return &(*v)[tg.index]
		}
	case *[]Point:
		if tg.index >= 0 {
			return &(*v)[tg.index].DiameterMM
		}
	case *Range:
		switch tg.index {
		case 0:
			return &v.Lo
		case 1:
			return &v.Hi
		}
	}
	return nil
}

// fieldSpot is the spot of the key, and of the number in it when one is named.
func (tg *target) fieldSpot() string {
	if tg.index < 0 {
		return tg.spot(tg.f.key)
	}
	return tg.spot(tg.f.key + "." + strconv.Itoa(tg.index))
}

// shown is a KEY, or what was given as one, for a message.
func shown(key string) string {
	if document.Unprintable(key, false) != "" {
		return strconv.Quote(keyline.Clip(key))
	}
	return key
}

func dotted(a, b string) string { return strings.TrimPrefix(a+"."+b, ".") }

// keyFault is a fault of the KEY itself.
func keyFault(key, found, want string) error {
	key = shown(key)
	return Fault{Source: setSource(key), Key: key, Found: found, Want: want}
}
