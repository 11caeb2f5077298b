package text

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"

	"evenpull/escapement"
	"evenpull/sim"
	"evenpull/sim/scenario"
	"evenpull/sim/show/words"
)

// Lines that a run may take on a screen, of one train and of several.
const oneTrain, moreTrains = 40, 70

// Run writes a run: for every train the verdict, its reasons, the faults, the figures and
// the rows, as many of them as a screen holds; then what was assumed and the caution. In
// full it writes all figures and notes, every arbor, every turn and all that was assumed.
func Run(w io.Writer, c *sim.Clock, o Options) error {
	if o.Full || o.AllRows {
		return o.page(w).run(c, 1)
	}
	every, most := 1, oneTrain
	if len(c.Trains) > 1 {
		every, most = 2, moreTrains
	}
	for ; ; every++ {
		var b bytes.Buffer
		if err := o.page(&b).run(c, every); err != nil {
			return err
		}
		if bytes.Count(b.Bytes(), []byte("\n")) <= most || !slices.ContainsFunc(c.Trains, func(r sim.Result) bool { return every < int(r.Turns) }) {
			_, err := w.Write(b.Bytes())
			return err
		}
	}
}

// run writes a run, with a row every so many turns.
func (p *Page) run(c *sim.Clock, every int) error {
	p.Wrap("", c.Title)
	if c.Note != "" && p.Full {
		p.Wrap("", c.Note)
	}
	for i := range c.Trains {
		p.Line("")
		p.train(&c.Trains[i], len(c.Trains) == 1, every)
	}
	p.Line("")
	if first := words.DownFirst(c); first != "" {
		p.Wrap("", first)
	}
	if p.Full {
		p.assumed(c.Assumed)
	} else if len(c.Trains) > 0 {
		p.Wrap("Assumed: ", words.AssumedMost(c)+"; --full tells all")
	}
	p.then = words.RunNext(c)
	return p.end(words.Cautions(c)...)
}

func (p *Page) train(r *sim.Result, alone bool, every int) {
	p.judged(&r.Digest)
	p.list("  - ", words.Reasons(&r.Digest))
	p.list("  ! fault: ", words.Faults(&r.Digest))
	notes, figures := words.Minds(&r.Digest), words.Brief(r, alone)
	if p.Full {
		notes, figures = words.Notes(&r.Digest), words.Summary(r)
	}
	p.list("  * note: ", notes)
	if p.Full || alone {
		p.Line("")
	}
	p.table(table(figures, []column[words.Line]{
		{cell: func(l *words.Line) string { return "  " + l[0] }}, {cell: func(l *words.Line) string { return l[1] }},
	}))
	p.Line("")
	if len(r.Train.Arbors) > 1 && p.Full {
		p.table(Arbors(r))
		p.Line("")
	}
	p.table(rows(r, func(at float64) bool { return p.AllRows || at == math.Round(at) && math.Mod(at, float64(every)) == 0 }))
}

// judged is the verdict on a train, how sure it is, and what decides.
func (p *Page) judged(d *sim.Digest) {
	p.Wrap("", d.Name+" train: "+words.Judged(d, p.Verdict))
	if decides := words.Decides(d); decides != "" {
		p.Wrap("  ? ", decides)
	}
	if with := words.DecidesWith(d); with != "" && p.Full {
		p.Wrap("    ", with)
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

// Rows are the rows of a run at whole fusee turns, below two rows of headings and units.
func Rows(r *sim.Result) Grid {
	return rows(r, func(at float64) bool { return at == math.Round(at) })
}

// rows are those of a run at some turns, the first and the last among them.
func rows(r *sim.Result, at func(turn float64) bool) Grid {
	var columns []column[sim.Row]
	add := func(head, unit string, sparing int, cell func(*sim.Row) string) {
		columns = append(columns, column[sim.Row]{head, unit, spare(right, sparing), cell})
	}
	add("  fusee", "  turn", 0, func(row *sim.Row) string { return fmt.Sprintf("  %.4g", row.FuseeTurn) })
	add("hours", "", 0, func(row *sim.Row) string { return words.Figure(row.Hours) })
	add("spring", "turns", 0, func(row *sim.Row) string { return words.Two(row.SpringTurns) })
	add("spring", "N·m", 1, func(row *sim.Row) string { return words.Figure(row.SpringTorque) })
	add("line", "N", 1, func(row *sim.Row) string { return words.Figure(row.LineTension) })
	add("fusee", "N·m", 0, func(row *sim.Row) string { return words.Figure(row.FuseeTorque) })
	add("winding", "N·m", 2, func(row *sim.Row) string { return words.Figure(row.WindingTorque) })
	if !math.IsNaN(r.Need.Used) {
		add("reserve", "", 0, func(row *sim.Row) string { return words.Two(r.Reserve(row.FuseeTorque)) })
	}
	if r.Escapes {
		add("escape", "mN·m", 3, func(row *sim.Row) string { return milli(row.LastTorque) })
		why := map[escapement.Status]string{escapement.Stops: "stopped", escapement.Trips: "trips"}
		add("semi-arc", "°", 0, func(row *sim.Row) string { return cmp.Or(why[row.Status], words.Two(words.Degrees(row.Amplitude))) })
		add("rate off", "mean, s/d", 0, func(row *sim.Row) string { return offMean(r, row) })
	}
	if r.Strikes {
		add("blow", "s", 0, func(row *sim.Row) string { return or(row.BlowInterval, "stalls", words.Figure) })
		add("twelve", "s", 0, func(row *sim.Row) string { return or(row.Twelve, "stalls", words.Figure) })
		add("fly", "turns/s", 3, func(row *sim.Row) string { return words.Figure(row.FlySpeed) })
	}
	var list []sim.Row
	for i, row := range r.Rows {
		if i == 0 || i == len(r.Rows)-1 || at(row.FuseeTurn) {
			list = append(list, row)
		}
	}
	return table(list, columns)
}

// offMean is the rate of a row off the mean of the run in seconds a day, which
// is what shows on a clock that is regulated.
func offMean(r *sim.Result, row *sim.Row) string {
	decimals := 1
	if swing := (r.Swing.Rate.Max - r.Swing.Rate.Min) * escapement.SecondsPerDay; swing < 1 {
		decimals = 3
	}
	return or((row.Rate-r.Swing.Rate.Mean)*escapement.SecondsPerDay, none, func(v float64) string { return words.Signed(v, decimals) })
}

// assumed lists what the scenario left out, the items of one train together.
func (p *Page) assumed(list []scenario.Assumption) {
	if len(list) == 0 {
		return
	}
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
