package sim

import (
	"math"

	"evenpull/escapement"
)

// Swing is what the drive does to the pendulum over the run. Angles are
// semi-arcs in rad, rates are fractions gained; all NaN without an escapement.
type Swing struct {
	Amplitude Spread
	Rate      Spread
	// Wander is the greatest error (s) that a clock regulated to its mean rate
	// of the run shows against true time anywhere in it, to either side; from
	// quarter turns, good to some 2 %.
	Wander float64
	// LetOff is the semi-arc in the worst minutes of the run, with the loads on
	// that come and go; NaN when there are none. 0: the clock stops then.
	LetOff float64
	Trips  bool // somewhere the arc reaches what trips the escapement
}

// Spread is a quantity over the run: its mean in time, least and greatest.
type Spread struct{ Mean, Min, Max float64 }

var noSwing = Swing{
	Amplitude: Spread{math.NaN(), math.NaN(), math.NaN()},
	Rate:      Spread{math.NaN(), math.NaN(), math.NaN()},
	Wander:    math.NaN(), LetOff: math.NaN(),
}

// swingOf gathers amplitude and rate from the rows at quarter turns, up to where
// the clock stops. A turn takes the given seconds.
func swingOf(rows []Row, seconds float64) Swing {
	n := 0
	for n < len(rows) && !math.IsNaN(rows[n].Rate) {
		n++
	}
	if n == 0 {
		return noSwing
	}
	first := &rows[0]
	s := Swing{
		Amplitude: Spread{first.Amplitude, first.Amplitude, first.Amplitude},
		Rate:      Spread{first.Rate, first.Rate, first.Rate},
		LetOff:    math.NaN(),
	}
	s.average(rows[:n])
	gained := 0.0
	for i := 1; i < n; i++ {
		a, b := &rows[i-1], &rows[i]
		gained += ((b.Rate+a.Rate)/2 - s.Rate.Mean) * (b.FuseeTurn - a.FuseeTurn) * seconds
		s.Wander = max(s.Wander, math.Abs(gained))
	}
	return s
}

// average sets means, by trapezia since time goes as the fusee turns, and ends
// of both spreads.
func (s *Swing) average(rows []Row) {
	var amplitude, rate float64
	for i := 1; i < len(rows); i++ {
		a, b := &rows[i-1], &rows[i]
		half := (b.FuseeTurn - a.FuseeTurn) / 2
		amplitude += half * (a.Amplitude + b.Amplitude)
		rate += half * (a.Rate + b.Rate)
		s.Amplitude.reach(b.Amplitude)
		s.Rate.reach(b.Rate)
	}
	if span := rows[len(rows)-1].FuseeTurn - rows[0].FuseeTurn; span > 0 {
		s.Amplitude.Mean, s.Rate.Mean = amplitude/span, rate/span
	}
}

// reach widens the spread to a value.
func (s *Spread) reach(v float64) {
	if v < s.Min {
		s.Min = v
	} else if v > s.Max {
		s.Max = v
	}
}

// clock puts escapement and pendulum together; the zero Clock without them.
func (t *Train) clock() (escapement.Clock, error) {
	if !t.Escapes {
		return escapement.Clock{}, nil
	}
	return escapement.New(t.Escapement, t.Pendulum)
}

// swingAt is the semi-arc (rad) and the rate for a torque at the escape wheel.
func swingAt(c *escapement.Clock, torque float64) (amplitude, rate float64) {
	a, rate, status := c.Swing(torque)
	if !status.Goes() {
		rate = math.NaN()
	}
	return a.Radians(), rate // 0 for a pendulum that stops
}

// need finds the least torque at the fusee. The measured one stands for itself:
// the weights drove whatever loads there are. Less than drags and loads alone
// take cannot be: then those are the need.
func (t *Train) need(c *escapement.Clock) Need {
	n := Need{Predicted: math.NaN(), Measured: t.Demand.Least}
	last := t.Wheels.Last()
	if t.Escapes {
		n.Predicted = t.Wheels.Worst.Needs(last, c.LeastTorque())
	}
	n.Loads = t.Wheels.Worst.Needs(last, 0)
	switch n.Used = n.Measured; {
	case math.IsNaN(n.Used):
		n.Used = n.Predicted
	case n.Used < n.Loads:
		n.Used = n.Loads
	}
	n.LoadsOff = n.Used - (n.Loads - t.Wheels.Free.Needs(last, 0))
	return n
}

// letOff is the arc in the worst minutes.
func (t *Train) letOff(c *escapement.Clock, res *Result) {
	last := t.Wheels.Last()
	res.Swing.LetOff = math.NaN()
	if t.Wheels.Worst.Needs(last, 0) > t.Wheels.Needs(last, 0) {
		res.Swing.LetOff, _ = swingAt(c, t.Wheels.Worst.Torque(last, res.Torque.Min))
	}
	_, status := c.Amplitude(t.Wheels.Torque(last, res.Torque.Max))
	res.Swing.Trips = status == escapement.Trips
}
