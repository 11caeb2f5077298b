package page

import (
	"strings"

	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
)

// Section is a part of the document under a title.
type Section struct {
	ID, Title string
	Word      string // ends the title and stands out; "" for none
	Class     string // for the style sheet
	Blocks    []Block
}

// Block is a piece of a section: the one of its fields that is set.
type Block struct {
	Heading string // of what follows in the section
	Text    *Item  // a paragraph
	List    []Item
	Pairs   []words.Line // terms and what is said of them
	Table   *Table
	Picture *Picture
	Quoted  *Quoted
	Section *Section // within the section, a level down
	Row     []Block  // beside each other where there is room

	Equations, Signs, Remarks []Entry // of how figures are computed
}

// Item is a paragraph, or one of a list.
type Item struct {
	Mark, Text string // the mark, if any, comes first and stands out
	Class      string // for the style sheet
	To         string // the id of a section that the text leads to; "" for none
}

// Table is cells in rows; the first Heads of them are headings.
type Table struct {
	Caption string
	Note    string // what words of it mean; "" for none
	Heads   int
	text.Grid
}

// Quoted is a command, which keeps its lines.
type Quoted struct{ Text string }

// items are those of a list that bear the same mark; there is none for "".
func items(class, mark string, texts ...string) (made []Item) {
	for _, s := range texts {
		if s != "" {
			made = append(made, Item{Class: class, Mark: mark, Text: s})
		}
	}
	return made
}

// sentences are texts as sentences of one paragraph.
func sentences(texts []string) string {
	var all []string
	for _, s := range texts {
		all = append(all, words.Capital(s)+".")
	}
	return strings.Join(all, " ")
}

func list(texts []string) Block { return Block{List: items("", "", texts...)} }

func paragraph(mark, text string) Block { return Block{Text: &Item{Mark: mark, Text: text}} }

func table(caption string, heads int, g text.Grid) Block {
	return Block{Table: &Table{Caption: caption, Heads: heads, Grid: g}}
}
