package scenario

import "evenpull/sim/internal/document"

// Cure says how a text that is no number is to be typed to be one, such as "with a
// decimal point: 0.38"; "" when nothing makes it one.
func Cure(text string) string { return document.Cure(text) }

// Unprintable describes the first character of a text of one line that would upset a
// terminal, a page or a picture; "" for none.
func Unprintable(text string) string { return document.Unprintable(text, false) }

// ValidName tells whether a text can stand for a train in a KEY: up to MaxName
// letters, digits, - and _.
func ValidName(s string) bool { return validName(s) }
