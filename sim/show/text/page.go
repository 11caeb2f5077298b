// Package text sets text for people in lines and tables, and numbers for
// programs.
package text

import (
	"bufio"
	"io"
	"strings"
	"unicode/utf8"

	"evenpull/sim/rules"
	"evenpull/sim/show/words"
)

// Columns is the width that sentences are wrapped to when none is asked for.
const Columns = 96

// Page writes lines; what goes wrong shows when it is flushed.
type Page struct {
	Width  int  // columns to wrap sentences at
	Colour bool // colour the verdicts; the words alone say it all
	out    *bufio.Writer
}

// New is a page on w.
func New(w io.Writer, colour bool) *Page {
	return &Page{Width: Columns, Colour: colour, out: bufio.NewWriter(w)}
}

// Flush writes what is still held back, and gives the first error met.
func (p *Page) Flush() error { return p.out.Flush() }

// Line writes a line.
func (p *Page) Line(s string) {
	p.out.WriteString(strings.TrimRight(s, " "))
	p.out.WriteByte('\n')
}

// Wrap writes a text with its first line after mark and the others indented
// as far.
func (p *Page) Wrap(mark, text string) { p.WrapWords(mark, strings.Fields(text)) }

// WrapWords is Wrap for pieces that are to stay whole.
func (p *Page) WrapWords(mark string, words []string) {
	indent := strings.Repeat(" ", utf8.RuneCountInString(mark))
	at, room := mark, p.Width-len(indent)
	var cur []string
	n := 0
	for _, word := range words {
		size := visible(word) + 1
		if n > 0 && n+size > room {
			p.Line(at + strings.Join(cur, " "))
			at, cur, n = indent, cur[:0], 0
		}
		cur = append(cur, word)
		n += size
	}
	p.Line(at + strings.Join(cur, " "))
}

// colours of the verdicts as ANSI SGR codes; bold in any case.
var verdictColour = map[rules.Code]string{
	rules.Stops: "1;31", rules.Thin: "1;33", rules.Suits: "1;32", rules.Strong: "1;33", rules.Overdriven: "1;31", rules.Unjudged: "1",
}

// Verdict is the verdict's word in capitals, coloured if the page is.
func (p *Page) Verdict(c rules.Code) string {
	word := words.Verdict(c)
	if !p.Colour {
		return word
	}
	return "\x1b[" + verdictColour[c] + "m" + word + "\x1b[0m"
}

// list writes texts, each after a mark.
func (p *Page) list(mark string, texts []string) {
	for _, s := range texts {
		p.Wrap(mark, s)
	}
}
