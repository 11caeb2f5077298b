package scenario

import "evenpull/sim/internal/document"

// Nearest gives the candidate nearest to a misspelt word, or "" when none is
// near.
func Nearest(word string, candidates []string) string { return suggest(word, candidates) }

// DecimalComma tells whether a text is a number once its comma is a point.
func DecimalComma(text string) bool { return document.DecimalComma(text) }

// ValidName tells whether a text can stand for a train in a KEY: up to MaxName
// letters, digits, - and _.
func ValidName(s string) bool { return validName(s) }
