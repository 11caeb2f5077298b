package text

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"evenpull/escapement"
	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/show/words"
)

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
		p.train(&c.Trains[i])
	}
	if g := DownFirst(c); len(g.Rows()) > 2 {
		p.Line("")
		p.table(g)
	}
	p.assumed(c.Assumed)
	for _, s := range words.Cautions(c) {
		p.Line("")
		p.Wrap("Caution: ", s)
	}
	return p.Flush()
}

func (p *Page) train(r *sim.Result) {
	p.judged(&r.Digest)
	p.list("  - ", words.Reasons(&r.Digest))
	p.list("  ! fault: ", words.Faults(&r.Digest))
	p.list("  * note: ", words.Notes(&r.Digest))
	p.Line("")
	var figures Grid
	for _, l := range words.Summary(r) {
		figures.Row(strings.TrimRight("  "+l[0], " "), l[1])
	}
	p.table(figures)
	p.Line("")
	if len(r.Train.Arbors) > 1 {
		p.table(Arbors(r))
		p.Line("")
	}
	p.table(Rows(r, p.AllRows))
}

// judged is the verdict on a train, how sure it is, and what decides.
func (p *Page) judged(d *sim.Digest) {
	p.Wrap("", d.Name+" train: "+words.Judged(d, p.Verdict))
	if decides := words.Decides(d); decides != "" {
		p.Wrap("  ? ", decides)
	}
}

// Arbors are the torques at every arbor, below a row of headings.
func Arbors(r *sim.Result) Grid {
	return table(r.Arbors(), []column[sim.Arbor]{
		{"  arbor", "", left, func(a *sim.Arbor) string { return "  " + a.Name }},
		{"turns a fusee turn", "", right, func(a *sim.Arbor) string { return words.Figure(a.Speed) }},
		{"mean", "", right, func(a *sim.Arbor) string { return milli(a.Torque.Mean) }},
		{"least", "", right, func(a *sim.Arbor) string { return milli(a.Torque.Min) }},
		{"greatest mN·m", "", right, func(a *sim.Arbor) string { return milli(a.Torque.Max) }},
	})
}

func milli(v float64) string { return words.Figure(v * 1e3) }

// Rows are the rows of a run, at whole fusee turns or all of them, below two rows
// of headings and units.
func Rows(r *sim.Result, all bool) Grid {
	var columns []column[sim.Row]
	add := func(name, head, unit string, show func(float64) string) {
		list := outcome.Columns()
		c := list[slices.IndexFunc(list, func(c outcome.Column) bool { return c.Name == name })]
		columns = append(columns, column[sim.Row]{head, unit, right, func(row *sim.Row) string { return show(c.Of(&r.Digest, row)) }})
	}
	add("fusee_turn", "  fusee", "  turn", func(v float64) string { return fmt.Sprintf("  %.4g", v) })
	add("hours", "hours", "", words.Figure)
	add("spring_turns", "spring", "turns", words.Two)
	add("spring_torque_nm", "spring", "N·m", words.Figure)
	add("line_tension_n", "line", "N", words.Figure)
	add("fusee_torque_nm", "fusee", "N·m", words.Figure)
	add("winding_torque_nm", "winding", "N·m", words.Figure)
	if !math.IsNaN(r.Need.Used) {
		add("reserve", "reserve", "", words.Two)
	}
	if r.Escapes {
		add("escape_torque_nm", "escape", "mN·m", milli)
		columns = append(columns, column[sim.Row]{"semi-arc", "°", right, semiArc},
			column[sim.Row]{"rate off", "mean, s/d", right, func(row *sim.Row) string { return offMean(r, row) }})
	}
	if r.Strikes {
		add("blow_interval_s", "blow", "s", orStalls)
		add("strike_twelve_s", "twelve", "s", orStalls)
		add("fly_rev_per_s", "fly", "turns/s", words.Figure)
	}
	var rows []sim.Row
	for i, row := range r.Rows {
		if all || i == 0 || i == len(r.Rows)-1 || row.FuseeTurn == math.Round(row.FuseeTurn) {
			rows = append(rows, row)
		}
	}
	return table(rows, columns)
}

func orStalls(seconds float64) string {
	if math.IsNaN(seconds) {
		return "stalls"
	}
	return words.Figure(seconds)
}

// semiArc is that of a row, or why it has none.
func semiArc(row *sim.Row) string {
	switch row.Status {
	case escapement.Stops:
		return "stopped"
	case escapement.Trips:
		return "trips"
	}
	return words.Two(words.Degrees(row.Amplitude))
}

// offMean is the rate of a row off the mean of the run in seconds a day, which
// is what shows on a clock that is regulated.
func offMean(r *sim.Result, row *sim.Row) string {
	if math.IsNaN(row.Rate) {
		return none
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
	list := c.DownFirst()
	return table(list, []column[sim.Digest]{
		{"Which train runs down first", "", left, func(d *sim.Digest) string { return "  " + d.Name }},
		{"hours", "", right, func(d *sim.Digest) string { return words.Figure(d.HoursGoing()) }},
		{"days", "", right, func(d *sim.Digest) string { return words.Figure(d.HoursGoing() / 24) }},
		{"after the first", "", right, func(d *sim.Digest) string {
			if late := d.HoursGoing() - list[0].HoursGoing(); late > 0.05 {
				return words.Figure(late) + " h"
			}
			return none
		}},
	})
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
