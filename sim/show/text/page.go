// Package text sets text for people in lines and tables. A function for each study writes its
// result for a terminal, as wide as Options say; the sentences are those of package words.
// Figures are rounded to the digits that they bear, so that programs read package data instead.
package text

import (
	"bufio"
	"cmp"
	"io"
	"strings"
	"unicode/utf8"

	"evenpull/sim/rules"
	"evenpull/sim/show/words"
)

// Options tell how something is written for people.
type Options struct {
	Colour  bool // colour the verdicts; the words alone say it all
	AllRows bool // of a run: every row, not only those at whole fusee turns
	Full    bool // all there is to tell, not only what fits a screen
	Width   int  // columns of the screen; 0 for 80
	// Again are the arguments, with a space before each, with which another command is about
	// the same; "" where there are none.
	Again string
}

// Page writes lines; what goes wrong shows at its end.
type Page struct {
	Options
	out  *bufio.Writer
	then words.Next // at the end
}

// page is a page on w.
func (o Options) page(w io.Writer) *Page {
	o.Width = cmp.Or(o.Width, 80)
	return &Page{Options: o, out: bufio.NewWriter(w)}
}

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
	return words.Either(p.Colour, "\x1b["+verdictColour[c]+"m"+word+"\x1b[0m", word)
}

// title writes the title of a file of one's own, if it has one.
func (p *Page) title(s string) {
	if s != "" {
		p.Wrap("", s)
		p.Line("")
	}
}

// list writes texts, each after a mark.
func (p *Page) list(mark string, texts []string) {
	for _, s := range texts {
		p.Wrap(mark, s)
	}
}

// found writes what a study found, what it says and what it warns of.
func (p *Page) found(head string, says, warns []string) {
	p.Wrap("", head)
	p.list("  - ", says)
	p.list("  ! ", warns)
	p.Line("")
}

// end writes the cautions and the command to go on with, and flushes the page.
func (p *Page) end(cautions ...string) error {
	p.Line("")
	p.list("Caution: ", cautions)
	if p.then.Command != "" && p.Again != "" {
		p.WrapWords("Next: ", append([]string{strings.Join(strings.Fields("evenpull "+p.then.Command+p.Again+" "+p.then.With), " ") + ","}, strings.Fields("which tells "+p.then.Tells)...))
	}
	return p.out.Flush() // with the first error of all
}
