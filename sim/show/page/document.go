// Package page makes one document to keep of all that the program knows of a clock,
// and writes it as a page or for an editor.
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
	"evenpull/sim/bench/assign"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
	"evenpull/sim/study/dossier"

	"github.com/BurntSushi/toml"
)

// Origin tells what a document was made by and from.
type Origin struct {
	Version string `json:"version"` // of the program
	Date    string `json:"date"`    // as it is to stand in the document
	Command string `json:"command"` // that makes it again
}

// Document is everything a page shows, in its order.
type Document struct {
	Origin
	Title    string
	Head     []Block // below the title
	Sections []Section
	Again    Section    // the last: how to make the document again
	Pictures []*Picture // all that stand in it
	clocks   []*dossier.Clock
	err      error // the first met on the way
}

// Build makes a document of one clock, or of several to compare, and of a bench
// book of the first, which may be nil.
func Build(clocks []*dossier.Clock, bench *dossier.Bench, o Origin) (*Document, error) {
	d := &Document{Origin: o, clocks: clocks}
	d.Title = strings.Join(d.titles(), " / ")
	var fixed texts
	_, d.err = toml.DecodeFS(embedded, "texts.toml", &fixed)
	var runs []sim.Result
	verdicts := []Block{{Text: &Item{Class: "mind", Text: "Before anything is let down, taken out, fitted or wound, read the cautions.", To: "cautions"}}}
	var trains []Section
	var assumed []Block
	for i, c := range clocks {
		of := ""
		if title := d.titles()[i]; len(clocks) > 1 {
			of = " of " + title
			d.Head = append(d.Head, paragraph(title, ""))
			assumed = append(assumed, Block{Heading: title})
		}
		if c.Run.Note != "" {
			d.Head = append(d.Head, Block{Text: &Item{Class: "note", Text: c.Run.Note}})
		}
		for k := range c.Trains {
			t, id := &c.Trains[k], fmt.Sprintf("clock-%d-train-%d", i+1, k+1)
			name := t.Result.Name + " train" + of
			verdicts = append(verdicts, verdict(t, id+"-verdict", name))
			trains = append(trains, Section{ID: id, Title: name, Class: "train", Blocks: d.train(t, id)})
		}
		if g := text.DownFirst(c.Run); len(g.Rows) > 2 {
			verdicts = append(verdicts, table("When each train has run down", 1, g))
		}
		assumed = append(assumed, list(append(words.Assumed(c.Run), words.ChooseAssumed())))
		runs = append(runs, c.Run.Trains...)
	}
	d.add("verdicts", "Verdicts", verdicts...)
	if len(clocks) > 1 {
		d.add("compare", "Side by side", d.results(), d.inputs())
	}
	d.Sections = append(d.Sections, trains...)
	if bench != nil {
		d.bench(bench)
	}
	d.add("assumed", "Assumed, since the scenario does not say", assumed...)
	d.add("equations", "Equations and sources", list(speaking(fixed.Equations, runs)))
	d.add("limits", "Limits of the model", list(speaking(fixed.Limits, runs)))
	d.add("words", "Words", Block{Pairs: fixed.Words})
	most, of := (&sim.Clock{Trains: runs}).MostStored()
	cautions := []Block{paragraph("", "Of the springs here that of the "+of+" train holds most. "+words.Caution(most))}
	for _, s := range fixed.Cautions {
		cautions = append(cautions, paragraph("", s))
	}
	d.add("cautions", "Cautions", cautions...)
	d.Again = Section{ID: "again", Title: "Making it again", Blocks: []Block{
		paragraph("", "Made on "+o.Date+" by evenpull "+o.Version+" with"), {Quoted: &Quoted{Text: o.Command}}}}
	return d, d.err
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

func draw[T any](d *Document, id, caption, alt string, write func(io.Writer, string, T) error, of T) Block {
	var svg bytes.Buffer
	d.err = cmp.Or(d.err, write(&svg, "svg", of))
	p := &Picture{ID: id, Caption: caption, Alt: alt, SVG: svg.Bytes()}
	d.Pictures = append(d.Pictures, p)
	return Block{Picture: p}
}

// quote takes what a command prints.
func quote[T any](d *Document, caption string, write func(io.Writer, T, text.Options) error, of T) Block {
	var said strings.Builder
	d.err = cmp.Or(d.err, write(&said, of, text.Options{}))
	return Block{Quoted: &Quoted{caption, strings.TrimRight(said.String(), "\n")}}
}

func (d *Document) bench(b *dossier.Bench) {
	blocks := []Block{
		draw(d, "bench-readings", "Readings of the bench beside the prediction", "Measured torques of every spring with 95 % intervals, beside what is predicted", chart.Usual(chart.Record), &assign.Record{Study: b.Readings, Judged: b.Assign}),
		quote(d, "Bench record in figures", text.Record, b.Readings)}
	if len(b.Taken) > 0 {
		blocks = append([]Block{{Heading: "In place of what the scenario says"}, list(words.FromBench(b.Taken))}, blocks...)
	}
	if b.Assign != nil {
		const which = "Which barrel belongs to which train"
		blocks = append(blocks, Block{Heading: which}, quote(d, which, text.Assign, b.Assign))
	}
	d.add("bench", strings.TrimSuffix("Bench record: "+b.Book.Title, ": "), blocks...)
}

// remark is a sentence on how figures are computed.
type remark struct {
	Of   string // the trains that it speaks of: "" for all, or with an "escapement", or "striking"
	Text string
}

// texts are those that stand in every document.
type texts struct {
	Equations, Limits []remark // what figures are computed by, with the sources; what the model leaves out
	Words             []words.Line
	Cautions          []string
}

// speaking are the remarks that speak of some train.
func speaking(of []remark, trains []sim.Result) []string {
	var said []string
	for _, m := range of {
		speaks := func(r sim.Result) bool {
			return m.Of == "" || m.Of == "escapement" && r.Escapes || m.Of == "striking" && r.Strikes
		}
		if slices.ContainsFunc(trains, speaks) {
			said = append(said, m.Text)
		}
	}
	return said
}
