// Package study gathers all that the program knows of a clock into one document
// to keep, and writes it as a page or for an editor.
package study

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"math"
	"strings"

	"evenpull/fusee"
	"evenpull/sim"
	"evenpull/sim/chart"
	"evenpull/sim/drawing"
	"evenpull/sim/internal/page"
	"evenpull/sim/outcome"
	"evenpull/sim/rank"
	"evenpull/sim/report"
	"evenpull/sim/scenario"
	"evenpull/sim/sweep"
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
	run             *report.Run
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
func tableOf(g page.Grid, heads int, caption string) Table {
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
	return Picture{ID: id, Caption: caption, Alt: alt, SVG: b.Bytes()}, nil
}

// newClock runs a scenario and gathers its figures and pictures. The number sets
// its ids apart from those of other clocks.
func newClock(ctx context.Context, s *scenario.Scenario, number int) (*Clock, error) {
	trains, err := sim.Compile(s, "")
	if err != nil {
		return nil, err
	}
	c := &Clock{ID: fmt.Sprintf("clock-%d", number+1), Title: s.Title, Note: s.Note}
	c.run = &report.Run{Title: s.Title, Note: s.Note, Trains: make([]sim.Result, len(trains))}
	for _, a := range s.Assumed {
		c.Assumed = append(c.Assumed, a.String())
		c.run.Assumed = append(c.run.Assumed, a.String())
	}
	c.Assumed = append(c.Assumed, "a spring to order: a mean reserve of 1.3 aimed at where nothing else is wanted, 1 mm of end shake (common practice, no source)")
	for i := range trains {
		if err := trains[i].Run(sim.Options{}, &c.run.Trains[i]); err != nil {
			return nil, sim.Blame(s, i, err)
		}
	}
	for i := range trains {
		p, err := newPart(ctx, s, i, &c.run.Trains[i], fmt.Sprintf("%s-train-%d", c.ID, i+1))
		if err != nil {
			return nil, err
		}
		c.Parts = append(c.Parts, *p)
	}
	if order := report.Order(c.run); differ(order.Rows()) {
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

// present is the spring that a train has and the barrel around it, in words.
func present(d *fusee.Drive) string {
	const mm = 1e3
	return fmt.Sprintf("width × thickness × length %.4g × %.4g × %.5g mm, in a barrel %.4g mm wide and %.4g mm high inside, on an arbor of %.4g mm",
		d.Spring.Width*mm, d.Spring.Thickness*mm, d.Spring.Length*mm, 2*d.Housing.Inside*mm, d.Barrel.Height*mm, 2*d.Housing.Arbor*mm)
}

func newPart(ctx context.Context, s *scenario.Scenario, number int, r *sim.Result, id string) (*Part, error) {
	p := &Part{
		ID: id, Name: r.Train.Name, Kind: r.Train.Kind.String(), Verdict: word(r.Verdict.Code), Code: strings.ToLower(strings.ReplaceAll(word(r.Verdict.Code), " ", "-")), Has: present(&r.Train.Drive),
		Reasons: r.Reasons(), Faults: r.Faults(), Notes: r.Notes(),
		Figures: tableOf(report.Figures(r), 0, "Figures of the whole run"),
		Arbors:  tableOf(report.Arbors(r), 1, "Torque at every arbor"),
		Rows:    tableOf(report.Rows(r, false), 2, "The run-down, turn by turn; turn 0 is fully wound"),
	}
	one := []sim.Result{*r}
	var err error
	if p.Drawing, err = draw(id+"-drawing", "The "+p.Name+" train to scale", alt("Drawing to scale of the barrel with its coils run down and wound, the fusee with its grooves, and the wheels, of the", p.Name),
		func(w io.Writer, format string) error { return drawing.Write(w, format, one) }); err != nil {
		return nil, err
	}
	if p.Torque, err = p.torque(r); err != nil {
		return nil, err
	}
	if err := p.thickness(ctx, s, number); err != nil {
		return nil, err
	}
	if err := p.setUp(ctx, s, number); err != nil {
		return nil, err
	}
	if err := p.ordering(s, number); err != nil {
		return nil, err
	}
	return p, p.ranking(s, number)
}

func alt(what, train string) string { return what + " " + train + " train" }

// torque draws the run at steps too fine to see.
func (p *Part) torque(r *sim.Result) (Picture, error) {
	fine := make([]sim.Result, 1)
	if err := r.Train.Run(sim.Options{Step: min(sim.QuarterTurn, r.Train.Drive.Cone.Turns/240)}, &fine[0]); err != nil {
		return Picture{}, err
	}
	what := fmt.Sprintf("Torque at the fusee over the run: mean %s, least %s, greatest %s N·m; verdict %s.", sim.Figure(r.Torque.Mean), sim.Figure(r.Torque.Min), sim.Figure(r.Torque.Max), p.Verdict)
	return draw(p.ID+"-torque", "Torque over the run, with the need and the bands of the verdict", what,
		func(w io.Writer, format string) error { return chart.Write(w, format, fine) })
}

// thickness sweeps the thickness of the mainspring.
func (p *Part) thickness(ctx context.Context, s *scenario.Scenario, number int) error {
	o := sweep.Options{Over: sweep.Axis{Key: p.Name + ".mainspring.thickness_mm", From: math.NaN(), To: math.NaN(), Steps: 41}}
	st, err := sweep.Run(ctx, s, number, o)
	if err != nil {
		return err
	}
	p.Sensitivity = st.Says()
	p.Sweep, err = draw(p.ID+"-thickness", "What another thickness of the spring would do, its length the same", "Torque, reserve and evenness against the thickness of the mainspring: "+strings.Join(p.Sensitivity, "; "),
		func(w io.Writer, format string) error { return sweep.Plot(w, format, st) })
	return err
}

// ranking ranks the inputs by the mean torque and the least reserve.
func (p *Part) ranking(s *scenario.Scenario, number int) error {
	of, err := outcome.Several([]string{outcome.MeanTorque, outcome.LeastReserve})
	if err != nil {
		return err
	}
	if math.IsNaN(s.Trains[number].Demand.LeastTorqueNM) && s.Trains[number].Escapement == nil && s.Trains[number].Strike == nil {
		of = of[:1] // no need is known
	}
	st, err := rank.Run(s, number, rank.Options{Of: of, Change: 0.01})
	if err != nil {
		return err
	}
	p.Inputs = Table{Caption: "The inputs that the mean torque hangs on most; elasticity: how many % it changes for 1 % more", Heads: 1,
		Rows: [][]string{{"input", "value", "unit", "elasticity"}}, Right: []bool{false, true, false, true}}
	for i, in := range st.Rankings[0].Inputs {
		if i < 10 && st.Rankings[0].Moves(&in) {
			p.Inputs.Rows = append(p.Inputs.Rows, []string{strings.TrimPrefix(in.Key, p.Name+"."), fmt.Sprintf("%.6g", in.Value), in.Unit, page.Minus(fmt.Sprintf("%+.3f", in.Elasticity.Value))})
		}
	}
	p.Rank, err = draw(p.ID+"-rank", "What moving each input by 1 %, or by its own tolerance, does", "Bars showing the effect of each input, the greatest at the top",
		func(w io.Writer, format string) error { return rank.Plot(w, format, st) })
	return err
}

func word(c sim.Code) string {
	if c == sim.Unjudged {
		return "NOT JUDGED"
	}
	return strings.ToUpper(c.String())
}
