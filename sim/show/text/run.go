package text

import (
	"fmt"
	"io"
	"math"
	"strings"

	"evenpull/escapement"
	"evenpull/sim"
	"evenpull/sim/show/words"
)

// Options tell how something is written for people.
type Options struct {
	Colour  bool // colour the verdicts; the word alone says it all
	AllRows bool // of a run: every row, not only those at whole fusee turns
	Width   int  // columns to wrap sentences at; 0 for Columns
}

// page is a Page as the options have it.
func (o Options) page(w io.Writer) *Page {
	p := New(w, o.Colour)
	if o.Width > 0 {
		p.Width = o.Width
	}
	return p
}

// Run writes a run: for every train the verdict, its reasons, the faults, the
// figures and the rows; then what was assumed and the cautions.
func Run(w io.Writer, c *sim.Clock, o Options) error {
	p := o.page(w)
	p.Line(c.Title)
	if c.Note != "" {
		p.Wrap("", c.Note)
	}
	for i := range c.Trains {
		p.Line("")
		p.train(&c.Trains[i], o.AllRows)
	}
	if g := DownFirst(c); len(g.Rows()) > 2 {
		p.Line("")
		g.Write(p)
	}
	p.assumed(c.Assumed)
	for _, s := range words.Cautions(c) {
		p.Line("")
		p.Wrap("Caution: ", s)
	}
	return p.Flush()
}

func (p *Page) train(r *sim.Result, allRows bool) {
	p.Line(fmt.Sprintf("%s train: %s", r.Name, p.Verdict(r.Verdict.Code)))
	p.list("  - ", words.Reasons(&r.Digest))
	p.list("  ! fault: ", words.Faults(&r.Digest))
	p.list("  * note: ", words.Notes(&r.Digest))
	p.Line("")
	var figures Grid
	for _, l := range words.Summary(r) {
		figures.Row(strings.TrimRight("  "+l[0], " "), l[1])
	}
	figures.Write(p)
	p.Line("")
	if len(r.Train.Arbors) > 1 {
		arbors := Arbors(r)
		arbors.Write(p)
		p.Line("")
	}
	rows := Rows(r, allRows)
	rows.Write(p)
}

// Arbors are the torques at every arbor, below a row of headings.
func Arbors(r *sim.Result) Grid {
	var g Grid
	g.Row("  arbor", "turns a fusee turn", "mean", "least", "greatest mN·m")
	for _, a := range r.Arbors() {
		g.Row("  "+a.Name, words.Figure(a.Speed), milli(a.Torque.Mean), milli(a.Torque.Min), milli(a.Torque.Max))
	}
	g.Right(1, 2, 3, 4)
	return g
}

func milli(v float64) string { return words.Figure(v * 1e3) }

// Rows are the rows of a run, at whole fusee turns or all of them, below two rows
// of headings and units.
func Rows(r *sim.Result, all bool) Grid {
	var g Grid
	judged, escapes := !math.IsNaN(r.Need.Used), r.Escapes
	head := []string{"  fusee", "hours", "spring", "spring", "line", "fusee", "winding"}
	unit := []string{"  turn", "", "turns", "N·m", "N", "N·m", "N·m"}
	if judged {
		head, unit = append(head, "reserve"), append(unit, "")
	}
	if escapes {
		head, unit = append(head, "escape", "semi-arc", "rate off"), append(unit, "mN·m", "°", "mean, s/d")
	}
	if r.Strikes {
		head, unit = append(head, "blow", "twelve", "fly"), append(unit, "s", "s", "turns/s")
	}
	g.Row(head...)
	g.Row(unit...)
	for i := range r.Rows {
		row := &r.Rows[i]
		if !all && i > 0 && i < len(r.Rows)-1 && row.FuseeTurn != math.Round(row.FuseeTurn) {
			continue
		}
		f := words.Figure
		cells := []string{"  " + fmt.Sprintf("%.4g", row.FuseeTurn), f(row.Hours), fmt.Sprintf("%.2f", row.SpringTurns), f(row.SpringTorque),
			f(row.LineTension), f(row.FuseeTorque), f(row.WindingTorque)}
		if judged {
			cells = append(cells, fmt.Sprintf("%.2f", r.Reserve(row.FuseeTorque)))
		}
		if escapes {
			cells = append(cells, milli(row.LastTorque), fmt.Sprintf("%.2f", row.Amplitude*180/math.Pi), offMean(r, row))
		}
		if r.Strikes {
			cells = append(cells, orStalls(row.BlowInterval), orStalls(row.Twelve), f(row.FlySpeed))
		}
		g.Row(cells...)
	}
	g.Right(0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10)
	return g
}

func orStalls(seconds float64) string {
	if math.IsNaN(seconds) {
		return "stalls"
	}
	return words.Figure(seconds)
}

// offMean is the rate of a row off the mean of the run in seconds a day, which
// is what shows on a clock that is regulated.
func offMean(r *sim.Result, row *sim.Row) string {
	switch {
	case row.Amplitude == 0:
		return "stands"
	case math.IsNaN(row.Rate):
		return "trips"
	case math.IsNaN(r.Swing.Rate.Mean):
		return "–"
	}
	decimals := 1
	if swing := (r.Swing.Rate.Max - r.Swing.Rate.Min) * escapement.SecondsPerDay; swing < 1 {
		decimals = 3
	}
	return fmt.Sprintf("%+.*f", decimals, (row.Rate-r.Swing.Rate.Mean)*escapement.SecondsPerDay)
}

// DownFirst is the trains whose hours are known by when they stop or have run
// down, below a row of headings.
func DownFirst(c *sim.Clock) Grid {
	var g Grid
	list := c.DownFirst()
	if len(list) == 0 {
		return g
	}
	first := list[0].HoursGoing()
	g.Row("Which train runs down first", "hours", "days", "after the first")
	for i := range list {
		h, later := list[i].HoursGoing(), "–"
		if late := h - first; late > 0.05 {
			later = words.Figure(late) + " h"
		}
		g.Row("  "+list[i].Name, words.Figure(h), words.Figure(h/24), later)
	}
	g.Right(1, 2, 3)
	return g
}

// assumed lists what the scenario left out, the items of one train together.
func (p *Page) assumed(list []string) {
	if len(list) == 0 {
		return
	}
	p.Line("")
	p.Line("Assumed, since the scenario does not say:")
	var owner string
	var items []string
	flush := func() {
		if len(items) > 0 {
			p.WrapWords("  - ", append(strings.Fields(owner), items...))
		}
	}
	for _, a := range list {
		of, item := "", a
		if train, rest, ok := strings.Cut(a, ": "); ok && strings.HasPrefix(train, "train ") {
			of, item = train+": ", rest
		}
		if of != owner {
			flush()
			owner, items = of, nil
		}
		if len(items) > 0 {
			items[len(items)-1] += ";"
		}
		items = append(items, item)
	}
	flush()
}
