package text

import (
	"cmp"
	"fmt"
	"io"
	"math"

	"evenpull/escapement"
	"evenpull/sim"
	"evenpull/sim/scenario"
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
	if g := DownFirst(c); len(g.Rows) > 2 {
		p.Line("")
		p.table(g)
	}
	p.assumed(c.Assumed)
	return p.end(words.Cautions(c)...)
}

func (p *Page) train(r *sim.Result) {
	p.judged(&r.Digest)
	p.list("  - ", words.Reasons(&r.Digest))
	p.list("  ! fault: ", words.Faults(&r.Digest))
	p.list("  * note: ", words.Notes(&r.Digest))
	p.Line("")
	p.table(table(words.Summary(r), []column[words.Line]{
		{cell: func(l *words.Line) string { return "  " + l[0] }}, {cell: func(l *words.Line) string { return l[1] }},
	}))
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
	add := func(head, unit string, cell func(*sim.Row) string) {
		columns = append(columns, column[sim.Row]{head, unit, right, cell})
	}
	add("  fusee", "  turn", func(row *sim.Row) string { return fmt.Sprintf("  %.4g", row.FuseeTurn) })
	add("hours", "", func(row *sim.Row) string { return words.Figure(row.Hours) })
	add("spring", "turns", func(row *sim.Row) string { return words.Two(row.SpringTurns) })
	add("spring", "N·m", func(row *sim.Row) string { return words.Figure(row.SpringTorque) })
	add("line", "N", func(row *sim.Row) string { return words.Figure(row.LineTension) })
	add("fusee", "N·m", func(row *sim.Row) string { return words.Figure(row.FuseeTorque) })
	add("winding", "N·m", func(row *sim.Row) string { return words.Figure(row.WindingTorque) })
	if !math.IsNaN(r.Need.Used) {
		add("reserve", "", func(row *sim.Row) string { return words.Two(r.Reserve(row.FuseeTorque)) })
	}
	if r.Escapes {
		add("escape", "mN·m", func(row *sim.Row) string { return milli(row.LastTorque) })
		why := map[escapement.Status]string{escapement.Stops: "stopped", escapement.Trips: "trips"}
		add("semi-arc", "°", func(row *sim.Row) string { return cmp.Or(why[row.Status], words.Two(words.Degrees(row.Amplitude))) })
		add("rate off", "mean, s/d", func(row *sim.Row) string { return offMean(r, row) })
	}
	if r.Strikes {
		add("blow", "s", func(row *sim.Row) string { return or(row.BlowInterval, "stalls", words.Figure) })
		add("twelve", "s", func(row *sim.Row) string { return or(row.Twelve, "stalls", words.Figure) })
		add("fly", "turns/s", func(row *sim.Row) string { return words.Figure(row.FlySpeed) })
	}
	var rows []sim.Row
	for i, row := range r.Rows {
		if all || i == 0 || i == len(r.Rows)-1 || row.FuseeTurn == math.Round(row.FuseeTurn) {
			rows = append(rows, row)
		}
	}
	return table(rows, columns)
}

// offMean is the rate of a row off the mean of the run in seconds a day, which
// is what shows on a clock that is regulated.
func offMean(r *sim.Result, row *sim.Row) string {
	decimals := 1
	if swing := (r.Swing.Rate.Max - r.Swing.Rate.Min) * escapement.SecondsPerDay; swing < 1 {
		decimals = 3
	}
	return or((row.Rate-r.Swing.Rate.Mean)*escapement.SecondsPerDay, none, func(v float64) string { return fmt.Sprintf("%+.*f", decimals, v) })
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
			late := d.HoursGoing() - list[0].HoursGoing()
			return words.Either(late > 0.05, words.Figure(late)+" h", none)
		}},
	})
}

// assumed lists what the scenario left out, the items of one train together.
func (p *Page) assumed(list []scenario.Assumption) {
	if len(list) == 0 {
		return
	}
	p.Line("")
	p.Line("Assumed, since the scenario does not say:")
	var items []string
	for i, a := range list {
		if len(items) == 0 && a.Train != "" {
			items = []string{"train", a.Train + ":"}
		}
		if i+1 < len(list) && list[i+1].Train == a.Train {
			items = append(items, a.Says()+";")
			continue
		}
		p.WrapWords("  - ", append(items, a.Says()))
		items = nil
	}
}
