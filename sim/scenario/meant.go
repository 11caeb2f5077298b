package scenario

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"evenpull/sim/internal/unit"
)

// Nearest gives the candidate nearest to a misspelt word, or "" when none is
// near.
func Nearest(word string, candidates []string) string { return suggest(word, candidates) }

// MostListed is how many names a message lists; of more it offers the nearest few.
const MostListed = 12

// fewNear are how many.
const fewNear = 4

// Few are the candidates that are like a word: those that hold it, then those in its unit, then
// the others, each in their order; all where there are no more than a message lists.
func Few(word string, candidates []string) []string {
	if len(candidates) <= MostListed {
		return candidates
	}
	unit := word[max(strings.LastIndexByte(word, '_'), 0):]
	unlike := func(c string) int {
		switch {
		case strings.Contains(c, strings.ToLower(word)):
			return 0
		case strings.HasPrefix(unit, "_") && strings.HasSuffix(c, unit):
			return 1
		}
		return 2
	}
	near := slices.Clone(candidates)
	slices.SortStableFunc(near, func(a, b string) int { return cmp.Compare(unlike(a), unlike(b)) })
	return near[:fewNear]
}

// KeyMeant is what was likely meant by an unknown key, "" where none is likely, and what to
// tell of it. The list is told after are, such as "the keys here are ".
func KeyMeant(key string, keys []string, are string) (meant, want string) {
	if w, as := unit.Another(key, keys); len(as) == 1 {
		return w, "did you mean " + as[0] + "?"
	} else if w != "" {
		return w, "want " + w + ", or in another unit " + orList(as[1:])
	}
	if near := suggest(key, keys); near != "" {
		return near, "did you mean " + near + "?"
	}
	return "", Among(key, keys, are)
}

// Among lists keys after are; of many those like the key and how many there are.
func Among(key string, keys []string, are string) string {
	few := Few(key, keys)
	if len(few) == len(keys) {
		return are + strings.Join(keys, ", ")
	}
	return are + strings.Join(few, ", ") + fmt.Sprintf(" and %d more: \"evenpull help keys\"", len(keys)-len(few))
}
