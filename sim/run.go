package sim

import (
	"math"

	"evenpull/fusee"

	"github.com/golang/geo/s1"
)

// Summary is a quantity over the run.
type Summary struct {
	Mean, Min, Max float64
	MinAt, MaxAt   float64 // fusee turns
	Evenness       float64 // (max − min)/mean
	CV             float64 // standard deviation over mean
}

// Spring is the mainspring's side of a result. SI.
type Spring struct {
	Available, Used, SetUp float64 // turns
	Slack                  float64 // turns between packed on the wall and rest
	FreeCoils              float64
	Fill                   float64
	PeakStress             float64 // Pa
	Overstrain             float64 // times the yield strain; NaN unless a yield stress is known
	Stored                 float64 // J, at the start of the run
	Searle                 float64
	EndFloat               float64 // m
}

// Line is the line's side of a result. SI.
type Line struct {
	OnFusee           float64 // m
	BarrelTurns       float64
	Room              float64 // m of barrel needed at the least
	Lay               float64 // m along the barrel a turn
	MaxTension        float64 // N, running down
	MaxWindingTension float64 // N, while it is wound
	MaxFleet          s1.Angle
	FleetKnown        bool
}

// Result is a run-down. It can be used again for the next run, which then
// allocates nothing.
type Result struct {
	Train        *Train
	Rows         []Row
	TurnsLost    float64 // fusee turns that the binding spring does not let be wound
	Torque       Summary // N·m at the fusee arbor
	Spring       Spring
	Line         Line
	Need         Need
	HoursPerTurn float64
	Runtime      float64 // hours
	Verdict      Verdict
	stopsAt      float64 // first turn at which the torque is below the need; NaN
}

// Need is the least torque at the fusee arbor (N·m), NaN where not known.
type Need struct{ Predicted, Measured, Used float64 }

// Reserve is a torque over the least needed; NaN when that is not known.
func (r *Result) Reserve(torque float64) float64 { return torque / r.Need.Used }

// Run runs a train down into res, whose rows are used again. It fails with the
// errors of fusee.Drive.Wind.
func (t *Train) Run(o Options, res *Result) error {
	w, err := t.Drive.Wind()
	if err != nil {
		return err
	}
	rows := res.Rows[:0]
	*res = Result{Train: t, TurnsLost: w.Start(), HoursPerTurn: t.HoursPerTurn}
	res.Runtime = t.HoursPerTurn * (w.Turns() - w.Start())
	res.Need = Need{Predicted: math.NaN(), Measured: t.Demand.Least, Used: t.Demand.Least}
	at := stopsOf(&w, o.step())
	if cap(rows) < at.n {
		rows = make([]Row, 0, at.n)
	}
	if o.Recorder != nil {
		o.Recorder.Begin(t, at.n)
	}
	res.Rows = t.walk(&w, at, o.Recorder, rows, res)
	t.figures(&w, res)
	res.judge()
	if o.Recorder != nil {
		o.Recorder.End(res)
	}
	return nil
}

// stops are the turns of a run to look at: its start, the whole multiples of a
// step after it, and its end.
type stops struct {
	from, to, step float64
	first          float64 // multiple of the step that comes after the start
	n              int
}

func stopsOf(w *fusee.Wound, step float64) stops {
	s := stops{from: w.Start(), to: w.Turns(), step: step}
	// A multiple less than a millionth of a step off start or end is no stop of its own.
	s.first = math.Floor(s.from/step+1e-6) + 1
	last := math.Ceil(s.to/step-1e-6) - 1
	s.n = 2 + int(max(last-s.first+1, 0))
	return s
}

func (s *stops) at(i int) float64 {
	switch i {
	case 0:
		return s.from
	case s.n - 1:
		return s.to
	}
	return (s.first + float64(i-1)) * s.step
}

// walk steps through the run for the rows and for the figures of the whole.
func (t *Train) walk(w *fusee.Wound, at stops, rec Recorder, rows []Row, res *Result) []Row {
	watch := newWatch(w.MeanTorque(), t.Demand.Least*t.Bands.Stops)
	rows = rows[:at.n]
	for i := range rows {
		row := &rows[i]
		t.row(w, at.at(i), row)
		if rec != nil {
			rec.Row(*row)
		}
		if at.step == QuarterTurn {
			watch.see(row)
		}
	}
	if at.step != QuarterTurn {
		quarters := stopsOf(w, QuarterTurn)
		var row Row
		for i := range quarters.n {
			t.row(w, quarters.at(i), &row)
			watch.see(&row)
		}
	}
	watch.close(res)
	return rows
}

// row fills in the row at θ.
func (t *Train) row(w *fusee.Wound, theta float64, row *Row) {
	var s fusee.State
	w.Look(theta, &s)
	row.FuseeTurn = theta
	row.Hours = (theta - w.Start()) * t.HoursPerTurn
	row.SpringTurns, row.SpringTorque = s.SpringTurns, s.Couple
	row.LineTension, row.Fleet = s.Tension, s.Fleet
	row.FuseeTorque, row.WindingTorque = s.Torque, s.Winding
	row.LastTorque = t.Wheels.Torque(t.Wheels.Last(), s.Torque)
}

// figures fills in what does not come from the rows.
func (t *Train) figures(w *fusee.Wound, res *Result) {
	c := &w.Curve
	res.Spring = Spring{
		Available: c.Turns(), Used: w.SpringTurns(), SetUp: t.Drive.Barrel.SetUp,
		Slack: c.SlackTurns(), FreeCoils: c.FreeTurns(), Fill: c.Fill(),
		PeakStress: c.PeakStress(), Overstrain: c.Overstrain(), Stored: w.Stored(),
		Searle: c.Searle(), EndFloat: c.EndFloat(t.Drive.Barrel.Height),
	}
	l := &res.Line
	l.OnFusee, l.BarrelTurns = w.OnFusee(), w.SpringTurns()
	l.Room, l.Lay = w.LineRoom(), w.Lay()
	l.MaxWindingTension = l.MaxTension / (t.Drive.Efficiency * t.Drive.Efficiency)
}
