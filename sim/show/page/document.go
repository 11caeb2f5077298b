// Package page gathers all that the program knows of a clock into one document
// to keep, and writes it as a page or for an editor.
package page

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"slices"
	"strings"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/show/text"
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
	run             *sim.Clock
}

// Part is one train.
type Part struct {
	ID, Name, Kind         string
	Verdict                string // in capitals
	Code                   string // in small letters, for a class; "unjudged" for none
	Has                    string // the spring and barrel it has, in a sentence
	Reasons, Faults, Notes []string
	Figures, Arbors, Rows  Table
	Drawing, Torque        Picture
	Sweep, Rank            Picture
	Sensitivity            []string
	Inputs                 Table
	SetUp                  string   // what the best set-up gives, in a sentence; "" where there is no room for any
	ToOrder                string   // in a sentence; "" where no need is known
	Order                  []string // springs as they can be ordered: width × thickness × length and the thickness to keep
	Springs                *Table
	cured                  bool // by the best set-up alone
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

// newClock runs a scenario and gathers its figures and pictures. The number sets
// its ids apart from those of other clocks.
func newClock(ctx context.Context, s *scenario.Scenario, number int) (*Clock, error) {
	run, err := sim.RunClock(s, sim.Options{})
	if err != nil {
		return nil, err
	}
	c := &Clock{ID: fmt.Sprintf("clock-%d", number+1), Title: s.Title, Note: s.Note}
	c.run, c.Assumed = run, slices.Clone(run.Assumed)
	c.Assumed = append(c.Assumed, "a spring to order: a mean reserve of 1.3 aimed at where nothing else is wanted, 1 mm of end shake (common practice, no source)")
	for i := range run.Trains {
		p, err := newPart(ctx, s, i, &c.run.Trains[i], fmt.Sprintf("%s-train-%d", c.ID, i+1))
		if err != nil {
			return nil, err
		}
		c.Parts = append(c.Parts, *p)
	}
	if order := text.DownFirst(c.run); differ(order.Rows()) {
		t := tableOf(order, 1, "When each train has run down")
		c.Order = &t
	}
	return c, nil
}

// differ tells whether any train runs down later than the first.
func differ(rows [][]string) bool {
	for _, row := range rows[min(1, len(rows)):] {
		if row[len(row)-1] != "–" {
			return true
		}
	}
	return false
}

func word(c rules.Code) string {
	if c == rules.Unjudged {
		return "NOT JUDGED"
	}
	return strings.ToUpper(c.String())
}
