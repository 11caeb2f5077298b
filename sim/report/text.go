package report

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"strings"
	"unicode/utf8"

	"evenpull/sim"
)

// Text tells how a run is written for people.
type Text struct {
	Colour  bool // colour the verdict; the word alone says it all
	AllRows bool // every row, not only those at whole fusee turns
	Width   int  // columns to wrap sentences at; 0 for 96
}

// Write writes the run: for every train the verdict, its reasons, the faults,
// the figures and the rows; then what was assumed and the cautions.
func (t Text) Write(w io.Writer, r *Run) error {
	if t.Width == 0 {
		t.Width = 96
	}
	out := bufio.NewWriter(w)
	p := page{out: out, Text: t}
	p.line(r.Title)
	if r.Note != "" {
		p.wrap("", r.Note)
	}
	for i := range r.Trains {
		p.line("")
		p.train(&r.Trains[i])
	}
	p.order(r)
	p.closing(r)
	return out.Flush()
}

// page writes lines; what goes wrong shows when the buffer is flushed.
type page struct {
	out *bufio.Writer
	Text
}

func (p *page) line(s string) {
	p.out.WriteString(strings.TrimRight(s, " "))
	p.out.WriteByte('\n')
}

// wrap writes a text with its first line after mark and the others indented
// as far.
func (p *page) wrap(mark, text string) { p.wrapWords(mark, strings.Fields(text)) }

// wrapWords is wrap for pieces that are to stay whole.
func (p *page) wrapWords(mark string, words []string) {
	indent := strings.Repeat(" ", utf8.RuneCountInString(mark))
	at, room := mark, p.Width-len(indent)
	var cur []string
	n := 0
	for _, word := range words {
		size := utf8.RuneCountInString(word) + 1
		if n > 0 && n+size > room {
			p.line(at + strings.Join(cur, " "))
			at, cur, n = indent, cur[:0], 0
		}
		cur = append(cur, word)
		n += size
	}
	p.line(at + strings.Join(cur, " "))
}

func (p *page) train(r *sim.Result) {
	p.line(fmt.Sprintf("%s train: %s", r.Train.Name, p.verdict(r.Verdict.Code)))
	for _, why := range r.Reasons() {
		p.wrap("  - ", why)
	}
	for _, fault := range r.Faults() {
		p.wrap("  ! fault: ", fault)
	}
	for _, note := range r.Notes() {
		p.wrap("  * note: ", note)
	}
	p.line("")
	p.figures(r)
	p.line("")
	p.arbors(r)
	p.rows(r)
}

// colours of the verdicts as ANSI SGR codes; bold in any case.
var verdictColour = map[sim.Code]string{
	sim.Stops: "1;31", sim.Thin: "1;33", sim.Suits: "1;32", sim.Strong: "1;33", sim.Overdriven: "1;31", sim.Unjudged: "1",
}

func (p *page) verdict(c sim.Code) string {
	word := strings.ToUpper(c.String())
	if c == sim.Unjudged {
		word = "NOT JUDGED"
	}
	if !p.Colour {
		return word
	}
	return "\x1b[" + verdictColour[c] + "m" + word + "\x1b[0m"
}

func (p *page) arbors(r *sim.Result) {
	if len(r.Train.Arbors) < 2 {
		return
	}
	var g grid
	g.row("  arbor", "turns a fusee turn", "mean", "least", "greatest mN·m")
	for i := range r.Train.Arbors {
		a := ArborOf(r, i)
		g.row("  "+a.Name, sim.Figure(a.Speed), milli(a.Mean), milli(a.Min), milli(a.Max))
	}
	g.right(1, 2, 3, 4)
	g.write(p)
	p.line("")
}

func milli(v float64) string { return sim.Figure(v * 1e3) }

func (p *page) rows(r *sim.Result) {
	var g grid
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
	g.row(head...)
	g.row(unit...)
	for i := range r.Rows {
		row := &r.Rows[i]
		if !p.AllRows && i > 0 && i < len(r.Rows)-1 && row.FuseeTurn != math.Round(row.FuseeTurn) {
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
		g.row(cells...)
	}
	g.right(0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10)
	g.write(p)
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

func (p *page) closing(r *Run) {
	p.assumed(r.Assumed)
	for _, c := range cautions(r) {
		p.line("")
		p.wrap("Caution: ", c)
	}
}

// assumed lists what the scenario left out, the items of one train together.
func (p *page) assumed(list []string) {
	if len(list) == 0 {
		return
	}
	p.line("")
	p.line("Assumed, since the scenario does not say:")
	var owner string
	var items []string
	flush := func() {
		if len(items) > 0 {
			p.wrapWords("  - ", append(strings.Fields(owner), items...))
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
