package scenario

import (
	"strings"
	"unicode/utf8"
)

// suggest gives the candidate nearest to a misspelt word, or "". Near is a few
// slips of the pen, or a key without its unit or what goes before it.
func suggest(word string, candidates []string) string {
	best, least := "", 1+max(2, min(len(word)/4, 6))
	for _, c := range candidates {
		if strings.HasPrefix(c, word+"_") || endsIn(c, word) {
			return c
		}
		if d := distance(word, c, least); d < least {
			best, least = c, d
		}
	}
	if least >= utf8.RuneCountInString(word) { // nothing of the word would be left
		return ""
	}
	return best
}

// endsIn tells whether a word is the end of a dotted key, with or without its
// unit.
func endsIn(key, word string) bool {
	_, unit, found := strings.Cut(key, "."+word+"_")
	return found && !strings.Contains(unit, ".") || strings.HasSuffix(key, "."+word)
}

// distance counts the slips (a letter wrong, missing, too many, or two
// swapped) between two words; at most enough, when there are more. It is the
// "optimal string alignment" form of Damerau's distance.
func distance(a, b string, enough int) int {
	if diff := len(a) - len(b); diff >= enough || -diff >= enough {
		return enough
	}
	before, last, now := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := range len(a) {
		now[0] = i + 1
		least := now[0]
		for j := range len(b) {
			slip := 0
			if lower(a[i]) != lower(b[j]) {
				slip = 1
			}
			now[j+1] = min(last[j]+slip, last[j+1]+1, now[j]+1)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				now[j+1] = min(now[j+1], before[j-1]+1)
			}
			least = min(least, now[j+1])
		}
		if least >= enough { // no later row comes below it
			return enough
		}
		before, last, now = last, now, before
	}
	return min(last[len(b)], enough)
}

func lower(c byte) byte {
	if c >= 'A' && c <= 'Z' {
		return c + 'a' - 'A'
	}
	return c
}
