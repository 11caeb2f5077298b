package unit

import "strings"

// people write some units otherwise than a key ends in them.
var people = map[string]string{
	"nm": "N·m", "mnm": "mN·m", "cnm": "cN·m", "kgfcm": "kgf·cm", "ozin": "oz·in", "lbin": "lb·in",
	"n": "N", "mpa": "MPa", "gpa": "GPa",
}

// more are further words for units.
var more = map[string]string{
	`"`: "in", "″": "in", "inch": "in", "inches": "in", "gram": "g", "grams": "g", "lbs": "lb", "°": "deg", "degree": "deg", "degrees": "deg",
	"sec": "s", "seconds": "s", "minutes": "min", "hour": "h", "hours": "h",
}

// plainly takes from a unit what a key cannot hold.
var plainly = strings.NewReplacer("·", "", "⋅", "", "*", "", "-", "", ".", "")

// Spelt gives the key in the unit that people write as a word, and how many of the key's
// own unit it makes: of thickness_mm and inches it is thickness_in, 25.4. The key is "" where
// that is no unit of its kind.
func Spelt(key, word string) (as string, by float64) {
	name := plainly.Replace(strings.ToLower(word))
	if is, ok := more[strings.ToLower(word)]; ok {
		name = is
	}
	stem, kind, of := split(key)
	if kind < 0 {
		return "", 0
	}
	for _, u := range kinds[kind] {
		if u.name == name {
			return stem + "_" + name, u.of / of
		}
	}
	return "", 0
}

// Another is the key among those wanted that was likely meant by one that ends in no unit of
// its kind, and as what it may be written: of thickness_inches thickness_in, of thickness_foot
// thickness_mm and its other units. They are empty where no key goes by that name.
func Another(key string, wanted []string) (meant string, as []string) {
	for _, w := range wanted {
		stem, kind, _ := split(w)
		word, same := strings.CutPrefix(key, stem+"_")
		if kind < 0 || !same || strings.Contains(word, "_") {
			continue
		}
		if spelt, by := Spelt(w, word); by != 0 {
			return w, []string{spelt}
		}
		as = []string{w}
		for _, other := range Others(w) {
			as = append(as, other.Key)
		}
		return w, as
	}
	return "", nil
}

// Words are the units that a key may be in, its own first, as people write them.
func Words(key string) (words []string) {
	stem, kind, _ := split(key)
	if kind < 0 {
		return nil
	}
	for _, u := range kinds[kind] {
		word := u.name
		if other, ok := people[word]; ok {
			word = other
		}
		if stem+"_"+u.name == key {
			words = append([]string{word}, words...)
		} else {
			words = append(words, word)
		}
	}
	return words
}
