package sim

import (
	"errors"
	"fmt"
	"math"

	"evenpull/escapement"
	"evenpull/fusee"
	"evenpull/fusee/mainspring"

	"github.com/golang/geo/s1"
)

// Summary is a quantity over the run.
type Summary struct {
	Mean, Min, Max float64 // in time, least and greatest, in the unit of the quantity
	MinAt, MaxAt   float64 // fusee turns
	Unevenness     float64 // (max − min)/mean
	CV             float64 // standard deviation over mean
}

// Spring is the mainspring's side of a result. SI.
type Spring struct {
	Available, Used, SetUp float64 // turns
	Ideal                  float64 // turns from rest that ideal packing makes available
	Strip                  mainspring.Strip
	Housing                mainspring.Housing
	Packing                float64 // what a coil takes up over its thickness
	Slack                  float64 // turns between packed on the wall and rest
	FreeCoils              float64 // coils that it shows lying free
	Fill                   float64 // share of the free area of the barrel
	PeakStress             float64 // Pa
	Overstrain             float64 // times the yield strain; NaN unless a yield stress is known
	Stored                 float64 // J, at the start of the run
	Searle                 float64 // a pure number: see mainspring.Curve.Searle
	Flat                   float64 // how far the strip is held flat across its width, 0 to 1
	EndFloat               float64 // m
	OffTable               bool    // coil friction is not sure: see package rub
}

// Line is the line's side of a result. SI.
type Line struct {
	OnFusee           float64  // m
	BarrelTurns       float64  // turns that the line takes on the barrel over the run
	Room              float64  // m of barrel needed at the least
	Spread            float64  // m of barrel over which the line lies
	Lay               float64  // m along the barrel a turn
	MaxTension        float64  // N, running down
	MaxWindingTension float64  // N, while it is wound
	MaxFleet          s1.Angle // the greatest fleet angle of the run
	FleetKnown        bool     // the distance of the arbors is known
}

// Need is the least torque at the fusee arbor (N·m), NaN where not known.
type Need struct {
	Predicted float64 // from escapement, pendulum and train, with every load on
	Measured  float64 // at the bench, with weights
	Loads     float64 // what drags and loads alone take: below it the train stands
	Used      float64 // the measured one, else the predicted; never below Loads
	LoadsOff  float64 // Used less what the loads take at the fusee
	Beyond    bool    // no torque swings the pendulum to its arc with the margin
}

// Result is a run-down: its digest and its rows. It can be used again for the next
// run, which then allocates nothing.
type Result struct {
	Digest
	Train *Train
	Rows  []Row // from wound to run down
}

// Run runs a train down. It fails with the errors of fusee.Drive.Wind or an
// escapement.Fault.
func (t *Train) Run(o Options) (*Result, error) {
	res := new(Result)
	if err := t.RunInto(res, o); err != nil {
		return nil, err
	}
	return res, nil
}

// RunInto is Run into a result of the caller's, whose rows are used again.
func (t *Train) RunInto(res *Result, o Options) error {
	w, err := t.Drive.Wind()
	if err != nil {
		return err
	}
	hours := t.HoursPerTurn()
	rows := res.Rows[:0]
	*res = Result{}
	res.Train, res.TurnsLost, res.HoursPerTurn, res.Runtime = t, w.Start(), hours, hours*(w.Turns()-w.Start())
	clock, err := t.clock()
	if err != nil {
		return err
	}
	res.Need = t.need(&clock)
	res.set(t, res.Need.Used)
	at := stopsOf(&w, o.step())
	if o.Recorder != nil {
		o.Recorder.Begin(t, at.n)
	}
	res.Rows = t.walk(&w, &clock, at, &o, hours, rows)
	quarters := res.Rows
	if at.step != QuarterTurn {
		quarters = t.walk(&w, &clock, stopsOf(&w, QuarterTurn), &Options{TorqueOnly: o.TorqueOnly}, hours, nil)
	}
	res.gather(quarters, w.MeanTorque(), res.Need.Used*t.Bands.Stops)
	if t.Escapes && !o.TorqueOnly {
		res.halt(&clock, quarters, at.step != QuarterTurn)
	}
	res.Swing = swingOf(quarters, hours*3600)
	res.Cadence = noCadence
	if t.Strikes && !o.TorqueOnly {
		res.Cadence = cadenceOf(quarters)
	}
	t.figures(&w, &res.Digest)
	if t.Escapes && !o.TorqueOnly {
		t.letOff(&clock, &res.Digest)
	}
	res.judge()
	res.look()
	if o.Recorder != nil {
		for i := range res.Rows {
			o.Recorder.Row(res.Rows[i])
		}
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

// walk steps through the stops of a run and gives their rows, in the memory of
// the ones handed in when they are enough.
func (t *Train) walk(w *fusee.Wound, clock *escapement.Clock, at stops, o *Options, hours float64, rows []Row) []Row {
	if cap(rows) < at.n {
		rows = make([]Row, at.n)
	}
	rows = rows[:at.n]
	more := !o.TorqueOnly && (t.Escapes || t.Strikes)
	var near mainspring.Near
	for i := range rows {
		t.torque(w, &near, at.at(i), hours, &rows[i])
		if more {
			t.motion(clock, &rows[i])
		}
	}
	return rows
}

// torque fills in the torques of the row at θ, a fusee turn taking the hours.
func (t *Train) torque(w *fusee.Wound, near *mainspring.Near, theta, hours float64, row *Row) {
	var s fusee.State
	w.Look(theta, &s, near)
	row.FuseeTurn = theta
	row.Hours = (theta - w.Start()) * hours
	row.SpringTurns, row.SpringTorque = s.SpringTurns, s.Couple
	row.LineTension, row.Fleet = s.Tension, s.Fleet
	row.FuseeTorque, row.WindingTorque = s.Torque, s.Winding
	row.LastTorque = t.Wheels.Torque(t.Wheels.Last(), s.Torque)
	row.Status, row.Amplitude, row.Rate = escapement.Stops, math.NaN(), math.NaN()
	row.BlowInterval, row.FlySpeed, row.Twelve = math.NaN(), math.NaN(), math.NaN()
}

// motion fills in what the torque makes of pendulum or fly.
func (t *Train) motion(clock *escapement.Clock, row *Row) {
	if t.Escapes {
		row.swing(clock)
	}
	if t.Strikes {
		t.Striker.blows(row)
	}
}

// figures fills in what does not come from the rows.
func (t *Train) figures(w *fusee.Wound, res *Digest) {
	c := w.Curve()
	res.Spring = Spring{
		Available: c.Counted(), Used: w.SpringTurns(), SetUp: t.Drive.Barrel.SetUp,
		Ideal: t.turnsPacked(&c, 1), Strip: t.Drive.Spring, Housing: t.Drive.Housing, Packing: t.Drive.Spring.Packing,
		Slack: c.SlackTurns(), FreeCoils: c.FreeTurns(), Fill: c.Fill(),
		PeakStress: c.PeakStress(), Overstrain: c.Overstrain(), Stored: w.Stored(),
		Searle: c.Searle(), Flat: c.Flatness(), EndFloat: c.EndFloat(t.Drive.Barrel.Height), OffTable: w.OffTable(),
	}
	l := &res.Line
	l.OnFusee, l.BarrelTurns = w.OnFusee(), w.SpringTurns()
	l.Room, l.Spread, l.Lay = w.LineRoom(), w.LineSpread(), w.Lay()
	l.MaxWindingTension = l.MaxTension * w.Harder()
}

// Handbook are the turns from rest that the packing of handbooks makes available; NaN where
// the strip does not fit so. They are computed when asked for, since few ask.
func (s *Spring) Handbook() float64 {
	return s.Strip.TurnsPacked(s.Housing, mainspring.HandbookPacking)
}

// turnsPacked are the turns that the spring would make available with another packing.
func (t *Train) turnsPacked(c *mainspring.Curve, packing float64) float64 {
	if t.Drive.Spring.Packing == packing {
		return c.Counted()
	}
	return t.Drive.Spring.TurnsPacked(t.Drive.Housing, packing)
}

// At is the row at one turn, with θ from the start of the run to its end. It
// fails as Run does, and with ErrTurn outside the run.
func (t *Train) At(theta float64) (Row, error) {
	w, err := t.Drive.Wind()
	if err != nil {
		return Row{}, err
	}
	if !(theta >= w.Start() && theta <= w.Turns()) {
		return Row{}, fmt.Errorf("fusee turn %.4g: %w, which goes from %.4g to %.4g", theta, ErrTurn, w.Start(), w.Turns())
	}
	clock, err := t.clock()
	if err != nil {
		return Row{}, err
	}
	var row Row
	t.torque(&w, nil, theta, t.HoursPerTurn(), &row)
	t.motion(&clock, &row)
	return row, nil
}

// ErrTurn tells of a fusee turn that the run does not have.
var ErrTurn = errors.New("outside the run")
