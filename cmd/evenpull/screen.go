package main

import (
	"io"
	"os"
	"regexp"
	"strings"

	"evenpull/sim/show/text"

	"golang.org/x/term"
)

// widest is the number of columns over which lines are no longer easy to read.
const widest = 120

// columns are those of the terminal that w is, up to widest; 0 where it is none, or does not
// tell.
func columns(w io.Writer) int {
	f, ok := w.(*os.File)
	if !ok || !isTerminal(w) {
		return 0
	}
	wide, _, err := term.GetSize(int(f.Fd()))
	if err != nil {
		return 0
	}
	return min(wide, widest)
}

// screen is how text is written to w.
func (f *flags) screen(w io.Writer) text.Options {
	return text.Options{Colour: wantsColour(w), Width: columns(w), Full: f.full, Again: f.again()}
}

// again are the arguments with which another command is about the same clock; "" where
// there is none, or it was read from standard input.
func (f *flags) again() string {
	if !f.loaded || f.named == "-" {
		return ""
	}
	words := []string{}
	if f.named != "" {
		words = append(words, quoted(f.named))
	}
	if f.train != "" {
		words = append(words, "--train "+quoted(f.train))
	}
	for _, set := range f.set {
		words = append(words, "--set "+quoted(set))
	}
	return " " + strings.Join(words, " ")
}

// plainWord is a word that no shell takes for more.
var plainWord = regexp.MustCompile(`^[\w./:=,+@%-]+$`)

// quoted is a word as it is typed at a prompt.
func quoted(word string) string {
	if plainWord.MatchString(word) {
		return word
	}
	return "'" + strings.ReplaceAll(word, "'", `'\''`) + "'"
}
