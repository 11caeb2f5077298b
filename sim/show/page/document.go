// Package page makes one document to keep of all that the program knows of a clock, and
// writes it as a page (HTML) or for an editor (Markdown).
//
// It computes nothing of a clock: figures are those of a dossier (package dossier), or of a
// letter to its owner (package letter), in the sentences of package words and the pictures of
// packages chart and drawing. They are rounded to the digits that they bear, in the units
// that stand beside them; what does not apply is a dash or left out. A document is
//
//	what was found and is advised, train by train, with a picture of the torque
//	cautions, before a spring is touched
//	studies that other commands kept
//	several clocks side by side
//	each train in full: drawing, figures, rows, what matters most
//	what the bench told
//	what was assumed, since the scenario does not say
//	how figures are computed: equations, signs, numerics, limits of the model, sources
//	how to make and to cite it
//
// A letter is head and parts alone. What an equation, a sign, a limit or a source says stands
// in method.toml, under a number that it keeps in every version; only those that apply to
// the trains are shown. A word of the trade is explained where it first stands, by texts.toml.
//
// A page holds all that it shows and asks no other address. Texts that people wrote are
// escaped, and cannot become marks of the page; the picture of a study is set as it is, and so
// has to be this program's own. The same clocks, studies and Origin make the same text. Where writing fails, part of
// it may be written.
package page

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"evenpull/sim"
	"evenpull/sim/show/words"
	"evenpull/sim/study/dossier"

	"github.com/BurntSushi/toml"
)

// Origin tells what a document was made by and from.
type Origin struct {
	Version string `json:"version"` // of the program
	Commit  string `json:"commit"`  // that it was built from; "" where that is not known
	Date    string `json:"date"`    // in the form in which it is to stand in the document
	Command string `json:"command"` // that makes it again
}

// Document is everything a page shows, in its order.
type Document struct {
	Origin
	Title    string
	Head     []Block // below the title
	Sections []Section
	Front    int        // how many of them answer, and stand first
	Again    Section    // the last: how to make the document again
	Pictures []*Picture // all that stand in it
	clocks   []*dossier.Clock
	err      error // the first met on the way
}

// Build makes a document of one clock, or of several to compare, and of a bench
// book of the first, which may be nil, with studies that other commands kept. There is to be a
// clock at least. It fails where a picture cannot be drawn.
func Build(clocks []*dossier.Clock, bench *dossier.Bench, studies []Study, o Origin) (*Document, error) {
	d := &Document{Origin: o, clocks: clocks}
	d.Title = words.Either(len(clocks) > 1, fmt.Sprintf("%d scenarios compared", len(clocks)), d.titles()[0])
	var fixed texts
	_, d.err = toml.DecodeFS(embedded, "texts.toml", &fixed)
	var runs []sim.Result
	for i, c := range clocks {
		if len(clocks) > 1 {
			d.Head = append(d.Head, paragraph(d.titled(i), c.Run.Note))
		} else if c.Run.Note != "" {
			d.Head = append(d.Head, Block{Text: &Item{Class: "note", Text: c.Run.Note}})
		}
		runs = append(runs, c.Run.Trains...)
	}
	d.answers(bench)
	d.cautions(fixed.Cautions, runs)
	d.Front = len(d.Sections)
	d.studies(studies)
	if len(clocks) > 1 {
		d.add("compare", "Side by side", d.results())
	}
	for i, c := range clocks {
		for k := range c.Trains {
			t, id := &c.Trains[k], fmt.Sprintf("clock-%d-train-%d", i+1, k+1)
			d.Sections = append(d.Sections, Section{ID: id, Title: strings.TrimSpace(d.number(i) + " " + t.Result.Name + " train"), Class: "train", Blocks: d.train(t, id)})
		}
	}
	if bench != nil {
		d.bench(bench)
	}
	d.add("assumed", "Assumed, since the scenario does not say", d.assumed()...)
	d.method(runs, bench != nil)
	d.Again = Section{ID: "again", Title: "Making it again", Blocks: []Block{
		paragraph("", "Made on "+o.Date+" by evenpull "+o.Version+" with"), {Quoted: &Quoted{o.Command}}, d.cite()}}
	left := glossary{words: fixed.Words}
	for i := range d.Sections {
		left.explain(d.Sections[i].Blocks)
	}
	figures := 0
	for i := range d.Sections {
		numbered(d.Sections[i].Blocks, &figures)
	}
	return d, d.err
}

// cautions are what to mind before a spring is touched.
func (d *Document) cautions(fixed []string, runs []sim.Result) {
	most, of := (&sim.Clock{Trains: runs}).MostStored()
	first := words.Caution(most)
	if len(runs) > 1 {
		first = "Of the springs here that of the " + of + " train holds most. " + first
	}
	d.add("cautions", "Cautions", paragraph("", first), paragraph("", strings.Join(fixed, " ")))
}

// assumed are the values that the scenarios left out, those of a train together.
func (d *Document) assumed() (blocks []Block) {
	for i, c := range d.clocks {
		var said []Item
		mark := "The clock:"
		var of []string
		flush := func() { said = append(said, items("", mark, strings.Join(of, "; "))...); of = nil }
		last := ""
		for _, a := range c.Run.Assumed {
			if a.Train != last {
				flush()
				mark, last = "The "+a.Train+" train:", a.Train
			}
			of = append(of, a.Says())
		}
		flush()
		if len(d.clocks) > 1 {
			blocks = append(blocks, Block{Heading: d.titled(i)})
		}
		blocks = append(blocks, Block{List: append(said, items("", "", words.ChooseAssumed())...)})
	}
	return blocks
}

func (d *Document) add(id, title string, blocks ...Block) {
	d.Sections = append(d.Sections, Section{ID: id, Title: title, Blocks: blocks})
}

// titles are those of the clocks, with the name of its file where another has the same.
func (d *Document) titles() []string {
	var titles []string
	for _, c := range d.clocks {
		title := c.Scenario.Title
		if slices.ContainsFunc(d.clocks, func(other *dossier.Clock) bool { return other != c && other.Scenario.Title == title }) {
			title += " (" + filepath.Base(c.Scenario.Source) + ")"
		}
		titles = append(titles, title)
	}
	return titles
}

// number is that of a clock among several, as a mark; "" for one alone.
func (d *Document) number(i int) string {
	return words.Either(len(d.clocks) > 1, fmt.Sprintf("%d:", i+1), "")
}

// titled is the title of a clock, after its number where there are several.
func (d *Document) titled(i int) string { return strings.TrimSpace(d.number(i) + " " + d.titles()[i]) }

func draw[T any](d *Document, id, caption, alt string, write func(io.Writer, string, T) error, of T) Block {
	var svg bytes.Buffer
	d.err = cmp.Or(d.err, write(&svg, "svg", of))
	return d.figure(&Picture{ID: id, Caption: caption, Alt: alt, SVG: svg.Bytes()})
}

// numbered puts numbers before what pictures show, as they follow each other.
func numbered(blocks []Block, figures *int) {
	for i := range blocks {
		if p := blocks[i].Picture; p != nil {
			*figures++
			p.Caption = strings.TrimSuffix(fmt.Sprintf("Figure %d. %s", *figures, p.Caption), " ")
		}
		numbered(blocks[i].Row, figures)
		if s := blocks[i].Section; s != nil {
			numbered(s.Blocks, figures)
		}
	}
}

// figure takes a picture in.
func (d *Document) figure(p *Picture) Block {
	d.Pictures = append(d.Pictures, p)
	return Block{Picture: p}
}

// texts are those that stand in every document.
type texts struct {
	Words    []words.Line
	Cautions []string
}
