package scenario

import (
	"slices"
	"strconv"
	"strings"

	"evenpull/sim/internal/keyline"
	"evenpull/sim/internal/unit"
)

// unify puts what is written in another unit under the key of the format, in its unit,
// and keeps in mind how it was written.
func (tr *trail) unify(t *table, tree map[string]any) {
	var others []string
	for k := range tree {
		if t.field(k) == nil && t.sub(k) == nil {
			others = append(others, k)
		}
	}
	slices.Sort(others)
	for _, as := range others {
		f, by := t.measured(as)
		if f == nil || tree[f.key] != nil {
			continue
		}
		tree[f.key] = f.times(tree[as], by)
		delete(tree, as)
		tr.wrote(f.key, as, tree[f.key])
	}
}

// wrote keeps in mind as what the value of a key was written, and on which lines.
func (tr *trail) wrote(key, as string, value any) {
	if tr.s.written == nil {
		tr.s.written = map[string]string{}
	}
	tr.s.written[tr.spot(key)] = as
	list, _ := value.([]any)
	for i := -1; i < len(list); i++ {
		place := ""
		if i >= 0 {
			place = "." + strconv.Itoa(i)
		}
		if line, ok := tr.s.lines[tr.spot(as+place)]; ok {
			tr.s.lines[tr.spot(key+place)] = line
		}
	}
}

// writtenAs is how the key at a spot, or that of the list it is in, was written, where
// that is not as the format has it.
func (s *Scenario) writtenAs(spot string) (as string, ok bool) {
	if len(s.written) == 0 {
		return "", false
	}
	if as, ok = s.written[spot]; !ok {
		as, ok = s.written[keyline.Enclosing(spot)]
	}
	return as, ok
}

// InUnit gives the KEY of the format that a KEY in any unit stands for, and what a value
// under the one is to be multiplied by to stand under the other: going.line.thickness_mm and
// 25.4 for going.line.thickness_in. Of any other KEY it gives the KEY itself and 1.
func (s *Scenario) InUnit(key string) (string, float64) {
	tg, err := s.resolve(key, false)
	if err != nil || tg.by == 0 {
		return key, 1
	}
	return tg.canonical(), tg.by
}

// canonical is the KEY of the target as the format has it.
func (tg *target) canonical() string {
	if tg.index < 0 {
		return tg.key(0, tg.f.key)
	}
	return tg.key(0, tg.f.key+"."+strconv.Itoa(tg.index))
}

// inUnit is a TOML value under the KEY of the target as it stands under the key of the format.
func (tg *target) inUnit(v any) any {
	if tg.by == 0 {
		return v
	}
	if tg.index >= 0 {
		return unit.Times(v, tg.by)
	}
	return tg.f.times(v, tg.by)
}

// tolerancesInUnit puts the tolerances of KEYs in other units under those of the format.
func (s *Scenario) tolerancesInUnit() {
	for i := range s.Tolerances {
		t := &s.Tolerances[i]
		by := 1.0
		t.Key, by = s.InUnit(t.Key)
		t.PlusMinus *= by
	}
}

// measured is the field that a key stands for in another unit, and what its values are
// multiplied by. Of pairs, whose key has no unit, it may have any: points_in.
func (t *table) measured(k string) (*field, float64) {
	if key, by := unit.Wanted(k, t.keys()); key != "" {
		return t.field(key), by
	}
	for i := range t.fields {
		f := &t.fields[i]
		as, pairs := strings.CutPrefix(k, f.key+"_")
		switch {
		case f.kind != places || !pairs:
		case as == f.unit:
			return f, 1
		case unit.Factor("of_"+as, "of_"+f.unit) != 0:
			return f, unit.Factor("of_"+as, "of_"+f.unit)
		}
	}
	return nil, 0
}

// times is a TOML value times a factor: of pairs the second numbers alone.
func (f *field) times(v any, by float64) any {
	list, _ := v.([]any)
	if f.kind != places || list == nil {
		return unit.Times(v, by)
	}
	all := make([]any, len(list))
	for i := range list {
		all[i] = list[i]
		if both, _ := list[i].([]any); len(both) == 2 {
			all[i] = []any{both[0], unit.Times(both[1], by)}
		}
	}
	return all
}

// Spelt gives the key of an input in the unit that people write as a word, and how many of
// the key's own unit it makes: of thickness_mm and inches it is thickness_in, 25.4. The key
// is "" where that is no unit of its kind.
func Spelt(key, word string) (as string, by float64) { return unit.Spelt(key, word) }

// UnitWords are the units that a key may be in, its own first, as people write them.
func UnitWords(key string) []string { return unit.Words(key) }
