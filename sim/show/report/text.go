package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"evenpull/sim"
	"evenpull/sim/show/text"
)

// Text tells how a run is written for people.
type Text struct {
	Colour  bool // colour the verdict; the word alone says it all
	AllRows bool // every row, not only those at whole fusee turns
	Width   int  // columns to wrap sentences at; 0 for text.Columns
}

// Write writes the run: for every train the verdict, its reasons, the faults,
// the figures and the rows; then what was assumed and the cautions.
func (t Text) Write(w io.Writer, r *Run) error {
	p := sheet{text.New(w, t.Colour), t.AllRows}
	if t.Width > 0 {
		p.Width = t.Width
	}
	p.Line(r.Title)
	if r.Note != "" {
		p.Wrap("", r.Note)
	}
	for i := range r.Trains {
		p.Line("")
		p.train(&r.Trains[i])
	}
	p.order(r)
	p.closing(r)
	return p.Flush()
}

// sheet is a page with a run on it.
type sheet struct {
	*text.Page
	allRows bool
}

func (p *sheet) train(r *sim.Result) {
	p.Line(fmt.Sprintf("%s train: %s", r.Train.Name, p.Verdict(r.Verdict.Code)))
	for _, why := range r.Reasons() {
		p.Wrap("  - ", why)
	}
	for _, fault := range r.Faults() {
		p.Wrap("  ! fault: ", fault)
	}
	for _, note := range r.Notes() {
		p.Wrap("  * note: ", note)
	}
	p.Line("")
	figures, rows := Figures(r), Rows(r, p.allRows)
	figures.Write(p.Page)
	p.Line("")
	if len(r.Train.Arbors) > 1 {
		arbors := Arbors(r)
		arbors.Write(p.Page)
		p.Line("")
	}
	rows.Write(p.Page)
}

// Arbors are the torques at every arbor, below a row of headings.
func Arbors(r *sim.Result) text.Grid {
	var g text.Grid
	g.Row("  arbor", "turns a fusee turn", "mean", "least", "greatest mN·m")
	for i := range r.Train.Arbors {
		a := ArborOf(r, i)
		g.Row("  "+a.Name, sim.Figure(a.Speed), milli(a.Mean), milli(a.Min), milli(a.Max))
	}
	g.Right(1, 2, 3, 4)
	return g
}

func milli(v float64) string { return sim.Figure(v * 1e3) }

// Rows are the rows of a run, at whole fusee turns or all of them, below two rows
// of headings and units.
func Rows(r *sim.Result, all bool) text.Grid {
	var g text.Grid
	judged, escapes := !math.IsNaN(r.Need.Used), r.Train.Escapes
	head := []string{"  fusee", "hours", "spring", "spring", "line", "fusee", "winding"}
	unit := []string{"  turn", "", "turns", "N·m", "N", "N·m", "N·m"}
	if judged {
		head, unit = append(head, "reserve"), append(unit, "")
	}
	if escapes {
		head, unit = append(head, "escape", "semi-arc", "rate off"), append(unit, "mN·m", "°", "mean, s/d")
	}
	if r.Train.Strikes {
		head, unit = append(head, "blow", "twelve", "fly"), append(unit, "s", "s", "turns/s")
	}
	g.Row(head...)
	g.Row(unit...)
	for i := range r.Rows {
		row := &r.Rows[i]
		if !all && i > 0 && i < len(r.Rows)-1 && row.FuseeTurn != math.Round(row.FuseeTurn) {
			continue
		}
		f := sim.Figure
		cells := []string{"  " + fmt.Sprintf("%.4g", row.FuseeTurn), f(row.Hours), fmt.Sprintf("%.2f", row.SpringTurns), f(row.SpringTorque),
			f(row.LineTension), f(row.FuseeTorque), f(row.WindingTorque)}
		if judged {
			cells = append(cells, fmt.Sprintf("%.2f", r.Reserve(row.FuseeTorque)))
		}
		if escapes {
			cells = append(cells, milli(row.LastTorque), fmt.Sprintf("%.2f", sim.Degrees(row.Amplitude)), offMean(r, row))
		}
		if r.Train.Strikes {
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
	return sim.Figure(seconds)
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
	if swing := (r.Swing.Rate.Max - r.Swing.Rate.Min) * secondsPerDay; swing < 1 {
		decimals = 3
	}
	return fmt.Sprintf("%+.*f", decimals, (row.Rate-r.Swing.Rate.Mean)*secondsPerDay)
}

func (p *sheet) closing(r *Run) {
	p.assumed(r.Assumed)
	for _, c := range cautions(r) {
		p.Line("")
		p.Wrap("Caution: ", c)
	}
}

// assumed lists what the scenario left out, the items of one train together.
func (p *sheet) assumed(list []string) {
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
