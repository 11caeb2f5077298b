package page

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"evenpull/sim/show/words"
)

// glossary is the words of the trade that were not used yet, with what they mean.
type glossary struct{ words []words.Line }

// explain says of each word what it means where it first stands: behind it in a sentence,
// below the caption of a table.
func (g *glossary) explain(blocks []Block) {
	for i := range blocks {
		b := &blocks[i]
		for _, it := range append([]*Item{b.Text}, pointers(b.List)...) {
			if it != nil {
				it.Text = g.behind(it.Text)
				if means := g.after(it.Mark); means != "" {
					it.Text += "; " + means
				}
			}
		}
		for k := range b.Pairs {
			b.Pairs[k][0] = g.behind(b.Pairs[k][0])
		}
		if b.Picture != nil {
			b.Picture.Caption = g.behind(b.Picture.Caption)
		}
		if t := b.Table; t != nil {
			t.Note = g.after(strings.Join(append(t.heads(), t.Caption), "; "))
		}
		if b.Section != nil {
			g.explain(b.Section.Blocks)
		}
		g.explain(b.Row)
	}
}

// behind has the words of a text followed by what they mean.
func (g *glossary) behind(text string) string {
	return g.each(text, func(text string, end int, _, says string) string { return text[:end] + " (" + says + ")" + text[end:] })
}

// after is what the words of a text mean, to follow it.
func (g *glossary) after(text string) string {
	var all []string
	g.each(text, func(text string, _ int, word, says string) string {
		all = append(all, word+" means "+says)
		return text
	})
	return strings.Join(all, "; ")
}

// each goes through the words that a text has, the first of each, which are used then.
func (g *glossary) each(text string, put func(text string, end int, word, says string) string) string {
	left := g.words[:0:0]
	for _, w := range g.words {
		if end := endOf(w[0], text); end > 0 {
			text = put(text, end, w[0], w[1])
		} else {
			left = append(left, w)
		}
	}
	g.words = left
	return text
}

// endOf is where a word ends that stands by itself in a text, also with a capital; 0 for none.
func endOf(word, text string) int {
	for _, w := range []string{word, words.Capital(word)} {
		for from := 0; ; {
			at := strings.Index(text[from:], w)
			if at < 0 {
				break
			}
			before, _ := utf8.DecodeLastRuneInString(text[:from+at])
			from += at + len(w)
			if after, _ := utf8.DecodeRuneInString(text[from:]); !within(before) && !within(after) {
				return from
			}
		}
	}
	return 0
}

// within tells whether a letter goes on with a word.
func within(r rune) bool { return unicode.IsLetter(r) || r == '-' || r == '_' }

// heads are the headings of a table, and what its rows are of.
func (t *Table) heads() (all []string) {
	for i, row := range t.Rows {
		if i < t.Heads {
			all = append(all, row...)
		} else if len(row) > 0 {
			all = append(all, row[0])
		}
	}
	return all
}

func pointers(list []Item) (all []*Item) {
	for i := range list {
		all = append(all, &list[i])
	}
	return all
}
