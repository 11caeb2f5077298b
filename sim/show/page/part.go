package page

import (
	"context"
	"fmt"
	"io"
	"math"
	"strings"

	"evenpull/fusee"
	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/scenario"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/drawing"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
	"evenpull/sim/study/rank"
	"evenpull/sim/study/sweep"
)

// present is the spring that a train has and the barrel around it, in words.
func present(d *fusee.Drive) string {
	const mm = 1e3
	return fmt.Sprintf("width × thickness × length %.4g × %.4g × %.5g mm, in a barrel %.4g mm wide and %.4g mm high inside, on an arbor of %.4g mm",
		d.Spring.Width*mm, d.Spring.Thickness*mm, d.Spring.Length*mm, 2*d.Housing.Inside*mm, d.Barrel.Height*mm, 2*d.Housing.Arbor*mm)
}

func newPart(ctx context.Context, s *scenario.Scenario, number int, r *sim.Result, id string) (*Part, error) {
	p := &Part{
		ID: id, Name: r.Train.Name, Kind: r.Train.Kind.String(), Verdict: word(r.Verdict.Code), Code: strings.ToLower(strings.ReplaceAll(word(r.Verdict.Code), " ", "-")), Has: present(&r.Train.Drive),
		Reasons: words.Reasons(&r.Digest), Faults: words.Faults(&r.Digest), Notes: words.Notes(&r.Digest),
		Figures: figuresOf(r),
		Arbors:  tableOf(text.Arbors(r), 1, "Torque at every arbor"),
		Rows:    tableOf(text.Rows(r, false), 2, "The run-down, turn by turn; turn 0 is fully wound"),
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

// figuresOf is the run in words.
func figuresOf(r *sim.Result) Table {
	t := Table{Caption: "Figures of the whole run", Right: []bool{false, false}}
	for _, l := range words.Summary(r) {
		t.Rows = append(t.Rows, l[:])
	}
	return t
}

func alt(what, train string) string { return what + " " + train + " train" }

// torque draws the run at steps too fine to see.
func (p *Part) torque(r *sim.Result) (Picture, error) {
	fine := make([]sim.Result, 1)
	if err := r.Train.Run(sim.Options{Step: min(sim.QuarterTurn, r.Train.Drive.Cone.Turns/240)}, &fine[0]); err != nil {
		return Picture{}, err
	}
	what := fmt.Sprintf("Torque at the fusee over the run: mean %s, least %s, greatest %s N·m; verdict %s.", words.Figure(r.Torque.Mean), words.Figure(r.Torque.Min), words.Figure(r.Torque.Max), p.Verdict)
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
	p.Sweep, err = draw(p.ID+"-thickness", "What another thickness of the spring would do, its length the same", "Torque, reserve and unevenness against the thickness of the mainspring: "+strings.Join(p.Sensitivity, "; "),
		func(w io.Writer, format string) error { return sweep.Plot(w, format, st) })
	return err
}

// ranking ranks the inputs by the mean torque and the least reserve.
func (p *Part) ranking(s *scenario.Scenario, number int) error {
	of, err := outcome.Several(outcome.MeanTorque, outcome.LeastReserve)
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
			p.Inputs.Rows = append(p.Inputs.Rows, []string{strings.TrimPrefix(in.Key, p.Name+"."), fmt.Sprintf("%.6g", in.Value), in.Unit, words.Minus(fmt.Sprintf("%+.3f", in.Elasticity.Value))})
		}
	}
	p.Rank, err = draw(p.ID+"-rank", "What moving each input by 1 %, or by its own tolerance, does", "Bars showing the effect of each input, the greatest at the top",
		func(w io.Writer, format string) error { return rank.Plot(w, format, st) })
	return err
}
