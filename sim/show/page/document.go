// Package page makes one document to keep of all that the program knows of a clock,
// and writes it as a page or for an editor.
package page

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"evenpull/sim/show/chart"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
	"evenpull/sim/study/dossier"
)

// Origin tells what a document was made by and from.
type Origin struct {
	Version string // of the program
	Date    string // as it is to stand in the document
	Command string // that makes it again
}

// Document is everything a page shows, in its order.
type Document struct {
	Origin
	Clocks  []Clock
	Compare *Comparison // of several clocks
	Bench   *Bench      // nil without a bench file
	Equations,
	Limits,
	Cautions []string
	Words [][2]string // and what they mean
}

// Clock is one scenario.
type Clock struct {
	ID, Title, Note string
	Parts           []Part
	Order           *Table // which train runs down first; nil for one train
	Assumed         []string
	of              *dossier.Clock
}

// Part is one train.
type Part struct {
	ID, Name, Kind         string
	Verdict                string // in capitals
	Code                   string // in small letters, for a class; "unjudged" for none
	Has                    string // the spring and barrel it has, in a sentence
	Reasons, Faults, Notes []string
	Figures, Arbors, Rows  Table
	All                    Table // every figure of the run
	Drawing, Torque        Picture
	Sweep, Rank            Picture
	Sensitivity            []string
	Inputs                 Table
	SetUp                  string   // what is advised of it, in a sentence; "" where there is no room for any
	ToOrder                string   // in a sentence; "" where no need is known
	Order                  []string // springs as they can be ordered: width × thickness × length and the thickness to keep
	Springs                *Table
}

// Table is cells in rows; the first Heads of them are headings.
type Table struct {
	Caption string
	Heads   int
	Rows    [][]string
	Right   []bool // columns that are flush right
}

// Picture is a drawing as SVG, with what it shows in words.
type Picture struct {
	ID, Caption, Alt string
	SVG              []byte
}

// tableOf takes a table as text has it.
func tableOf(g text.Grid, heads int, caption string) Table {
	t := Table{Caption: caption, Heads: heads}
	for _, row := range g.Rows() {
		cells := make([]string, len(row))
		for i, cell := range row {
			cells[i] = strings.TrimSpace(cell)
			for len(t.Right) <= i {
				t.Right = append(t.Right, g.IsRight(len(t.Right)))
			}
		}
		t.Rows = append(t.Rows, cells)
	}
	return t
}

// draw makes a picture.
func draw(id, caption, alt string, write func(w io.Writer, format string) error) (Picture, error) {
	var b bytes.Buffer
	if err := write(&b, "svg"); err != nil {
		return Picture{}, err
	}
	return Picture{ID: id, Caption: caption, Alt: alt, SVG: holdWidths(b.Bytes())}, nil
}

// Bench is what a bench book says of the first clock.
type Bench struct {
	Title    string
	Text     string // as record prints it
	Assign   string // as assign prints it; "" where nothing can be assigned
	Readings Picture
}

// Build makes a document of one clock, or of several to compare, and of a bench
// book of the first, which may be nil.
func Build(clocks []*dossier.Clock, b *dossier.Bench, o Origin) (*Document, error) {
	d := &Document{Origin: o}
	for i, c := range clocks {
		made, err := newClock(c, i)
		if err != nil {
			return nil, err
		}
		d.Clocks = append(d.Clocks, *made)
	}
	tellApart(d.Clocks)
	if len(d.Clocks) > 1 {
		var err error
		if d.Compare, err = compare(d.Clocks); err != nil {
			return nil, err
		}
		d.Compare.Inputs = differences(d.Clocks)
	}
	if b != nil {
		if err := d.bench(b); err != nil {
			return nil, err
		}
	}
	d.Equations, d.Limits, d.Words = equations(d.Clocks), limits(d.Clocks), glossary()
	most, of := 0.0, ""
	for _, c := range clocks {
		if j, name := c.Run.MostStored(); j > most {
			most, of = j, name
		}
	}
	d.Cautions = []string{"Of the springs here that of the " + of + " train holds most. " + words.Caution(most),
		"Where a fault tells that a spring binds before the fusee is wound, do not wind on against it.", "Changes to a historic movement cannot be undone: prefer a spring that suits it, keep every part that was taken out, and record what was done."}
	return d, nil
}

// newClock gathers the figures and pictures of a clock. The number sets its ids apart
// from those of other clocks.
func newClock(of *dossier.Clock, number int) (*Clock, error) {
	c := &Clock{ID: fmt.Sprintf("clock-%d", number+1), Title: of.Run.Title, Note: of.Run.Note, of: of}
	c.Assumed = append(slices.Clone(of.Run.Assumed), words.ChooseAssumed())
	for i := range of.Trains {
		p, err := newPart(&of.Trains[i], fmt.Sprintf("%s-train-%d", c.ID, i+1))
		if err != nil {
			return nil, err
		}
		c.Parts = append(c.Parts, *p)
	}
	if list := of.Run.DownFirst(); len(list) > 1 && list[len(list)-1].HoursGoing() > list[0].HoursGoing()+0.05 {
		t := tableOf(text.DownFirst(of.Run), 1, "When each train has run down")
		c.Order = &t
	}
	return c, nil
}

// tellApart adds the name of its file to a title that another clock has too.
func tellApart(clocks []Clock) {
	for i := range clocks {
		s := clocks[i].of.Scenario
		if slices.ContainsFunc(clocks, func(c Clock) bool { return c.of.Scenario != s && c.of.Scenario.Title == s.Title }) {
			clocks[i].Title += " (" + filepath.Base(s.Source) + ")"
		}
	}
}

func (d *Document) bench(b *dossier.Bench) error {
	var said strings.Builder
	if err := text.Record(&said, b.Readings, text.Options{}); err != nil {
		return err
	}
	p, err := draw("bench-readings", "Readings of the bench beside the prediction", "Measured torques of every spring with 95 % intervals, beside what is predicted",
		func(w io.Writer, format string) error { return chart.Record(w, format, b.Readings) })
	d.Bench = &Bench{Title: b.Book.Title, Text: said.String(), Readings: p}
	if err != nil || b.Assign == nil {
		return err
	}
	said.Reset()
	err = text.Assign(&said, b.Assign, text.Options{})
	d.Bench.Assign = said.String()
	return err
}
