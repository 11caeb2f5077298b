package main

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode"
)

// overlong is a word that nobody reads to its end; a path may be long.
var overlong = regexp.MustCompile(`\S{300,}`)

// say tells the user what was done, on a line of its own.
func (s streams) say(format string, args ...any) {
	fmt.Fprintln(s.err, legible(fmt.Sprintf(format, args...)))
}

// legible makes a message fit for a terminal, whatever of the command line or of a name
// it quotes: what is not printed is written as Go writes it, and endless words are cut.
func legible(message string) string {
	var b strings.Builder
	for _, r := range message { // bytes that are no UTF-8 come as U+FFFD
		if r == '\n' || r == '\t' || unicode.IsPrint(r) {
			b.WriteRune(r)
			continue
		}
		b.WriteString(strings.Trim(strconv.QuoteRune(r), "'"))
	}
	return overlong.ReplaceAllStringFunc(b.String(), func(word string) string {
		all := []rune(word)
		return fmt.Sprintf("%s… (%d characters)", string(all[:100]), len(all))
	})
}
