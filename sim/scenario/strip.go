package scenario

import (
	"math"
	"slices"
)

var strips = trains.sub("mainspring")

// StripKeys are the keys of [train.mainspring] that tell of a strip, in the order of the format:
// but for present: what was measured is there.
func StripKeys() []string {
	return slices.DeleteFunc(strips.keys(), func(key string) bool { return strips.field(key).kind == flag })
}

// StripValue is the value of a key of [train.mainspring], as TOML text that Set takes.
type StripValue struct{ Key, Value string }

// ReadStrip reads what was measured of a strip: those keys of [train.mainspring] that a
// TOML tree has, in the units of the format, any of which may be left out. They come in the
// order of the format. What is wrong comes as Faults of the keys, without file or line.
func ReadStrip(tree map[string]any) ([]StripValue, Faults) {
	tr, m := trail{s: new(Scenario)}, new(Mainspring)
	var values []StripValue
	for i := range strips.fields {
		f := &strips.fields[i]
		if f.kind == flag {
			continue
		}
		v := f.ref(m)
		if n, ok := v.(*float64); ok {
			*n = math.NaN()
		}
		if _, there := tree[f.key]; !there {
			continue
		}
		tr.decodeField(f, m, tree)
		if tr.sound(f.key) {
			tr.checkField(f, v)
		}
		values = append(values, StripValue{f.key, toml(v)})
	}
	tr.alternatives(m)
	return values, tr.faults
}
