package scenario

// Nearest gives the candidate nearest to a misspelt word, or "" when none is
// near.
func Nearest(word string, candidates []string) string { return suggest(word, candidates) }
