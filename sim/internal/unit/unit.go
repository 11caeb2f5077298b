// Package unit knows the units in which people hold a quantity, and turns a table of
// values written in any of them into those that are wanted.
//
// A quantity's key ends in its unit: thickness_mm, thickness_in. Factors are exact, or the
// nearest float to it: inch, pound and standard gravity of NIST SP 811.
package unit

import (
	"maps"
	"math"
	"regexp"
	"slices"
	"strings"
)

const (
	inch    = 25.4             // mm
	pound   = 453.59237        // g
	gravity = 9.80665          // m/s²
	pounds  = pound / 1000     // kg
	force   = pounds * gravity // N, of a pound
)

// kinds are the units of each kind by the ends of keys, each with how many of the first it
// makes.
var kinds = [...][]struct {
	name string
	of   float64
}{
	{{"mm", 1}, {"cm", 10}, {"m", 1000}, {"in", inch}},
	{{"g", 1}, {"kg", 1000}, {"oz", pound / 16}, {"lb", pound}},
	{{"mnm", 1}, {"cnm", 10}, {"nm", 1000}, {"kgfcm", gravity * 10}, {"ozin", force / 16 * inch}, {"lbin", force * inch}},
	{{"n", 1}, {"kgf", gravity}, {"lbf", force}},
	{{"mpa", 1}, {"gpa", 1000}, {"ksi", 1000 * force / (inch * inch)}},
	{{"deg", 1}, {"rad", 180 / math.Pi}},
	{{"s", 1}, {"min", 60}, {"h", 3600}},
}

// split gives what a key is of and its unit's kind and size; kind −1 where it has none.
func split(key string) (stem string, kind int, of float64) {
	at := strings.LastIndexByte(key, '_')
	for kind, units := range kinds {
		for _, u := range units {
			if at > 0 && key[at+1:] == u.name {
				return key[:at], kind, u.of
			}
		}
	}
	return key, -1, 0
}

// Factor is what a value under one key is to be multiplied by to stand under another of the
// same quantity; 0 where they are not of one quantity in two units.
func Factor(from, to string) float64 {
	a, kind, of := split(from)
	b, other, is := split(to)
	if kind < 0 || kind != other || a != b || from == to {
		return 0
	}
	return of / is
}

// Other is a key of the same quantity in another unit, and what a value under it is to be
// multiplied by to stand under the key that it is another of.
type Other struct {
	Key string
	By  float64
}

// Others are those of a key, the smallest unit first; none where it has no unit.
func Others(key string) (all []Other) {
	stem, kind, is := split(key)
	if kind < 0 {
		return nil
	}
	for _, u := range kinds[kind] {
		if as := stem + "_" + u.name; as != key {
			all = append(all, Other{as, u.of / is})
		}
	}
	return all
}

// Wanted is the key among those wanted that a key in another unit stands for, and the
// factor to it; "" for none.
func Wanted(key string, wanted []string) (string, float64) {
	if _, kind, _ := split(key); kind < 0 {
		return "", 0
	}
	for _, w := range wanted {
		if by := Factor(key, w); by != 0 {
			return w, by
		}
	}
	return "", 0
}

// Unify puts the values of a table that are written in another unit under the keys wanted,
// in their unit, and tells as what each was written. A quantity that stands there twice is
// left alone.
func Unify(tree map[string]any, wanted []string) (as map[string]string) {
	for _, key := range slices.Sorted(maps.Keys(tree)) {
		if slices.Contains(wanted, key) {
			continue
		}
		w, by := Wanted(key, wanted)
		if w == "" {
			continue
		}
		if _, twice := tree[w]; twice {
			continue
		}
		if as == nil {
			as = map[string]string{}
		}
		as[w] = key
		tree[w] = Times(tree[key], by)
		delete(tree, key)
	}
	return as
}

// number is that which stands first in what was found.
var number = regexp.MustCompile(`^found (about )?[-+0-9.e]+`)

// Found says of a number that was found, and was written in another unit, under which key
// it is that number.
func Found(found, key string) string {
	return number.ReplaceAllString(found, "$0 ("+key+")")
}

// Times is a TOML number, or each of a list, times a factor; any other value is as it was.
func Times(v any, by float64) any {
	switch v := v.(type) {
	case int64:
		return float64(v) * by
	case float64:
		return v * by
	case []any:
		all := make([]any, len(v))
		for i := range v {
			all[i] = Times(v[i], by)
		}
		return all
	}
	return v
}
