package sim

import (
	"math"

	"evenpull/escapement"
)

// Swing is what the drive does to the pendulum over the run. Angles are
// semi-arcs in rad, rates are fractions gained; all NaN without an escapement.
type Swing struct {
	Amplitude Spread // rad
	Rate      Spread // pure number, T0/T − 1
	// Wander is the greatest error (s) that a clock regulated to its mean rate
	// of the run shows against true time anywhere in it, to either side. It is
	// summed over quarter turns: where the torque falls steeply within the last
	// one it comes out small, at worst by a fifth.
	Wander float64
	// LetOff is the semi-arc in the worst minutes of the run, with the loads on
	// that come and go; NaN when there are none. 0: the clock stops then.
	LetOff float64
	Trips  bool // somewhere the arc reaches what trips the escapement
}

// Spread is a quantity over the run, in the unit of its field: its Mean in time, Min the
// least and Max the greatest.
type Spread struct{ Mean, Min, Max float64 }

var (
	noSpread = Spread{math.NaN(), math.NaN(), math.NaN()}
	noSwing  = Swing{Amplitude: noSpread, Rate: noSpread, Wander: math.NaN(), LetOff: math.NaN()}
)

// halt stops the clock in the rows at quarter turns and, when they are others, in those of
// the result.
func (r *Result) halt(c *escapement.Clock, quarters []Row, others bool) {
	stop, from := r.benchStop(), math.NaN()
	if _, weakest := c.Amplitude(r.Over.LastTorque.Min); weakest == escapement.Stops || !math.IsNaN(stop) {
		from = halt(quarters, stop)
	}
	if others {
		halt(r.Rows, stop) // between two quarters it may stop by its arc
		halt(r.Rows, from)
	}
}

// halt makes every row one of a clock that has stopped, from the first on at which its
// arc does not escape or which is at the given turn or past it. It gives that row's turn;
// NaN where there is none.
func halt(rows []Row, turn float64) float64 {
	for i := range rows {
		if rows[i].Status != escapement.Stops && !(rows[i].FuseeTurn >= turn) {
			continue
		}
		for k := i; k < len(rows); k++ {
			rows[k].Status, rows[k].Amplitude, rows[k].Rate = escapement.Stops, math.NaN(), math.NaN()
		}
		return rows[i].FuseeTurn
	}
	return math.NaN()
}

// swingOf gathers amplitude and rate from the rows at quarter turns at which it goes. A
// turn takes the given seconds.
func swingOf(rows []Row, seconds float64) Swing {
	s := noSwing
	s.average(rows)
	if math.IsNaN(s.Rate.Mean) {
		return s
	}
	s.Wander = 0
	gained := 0.0
	for i := 1; i < len(rows); i++ {
		if a, b := &rows[i-1], &rows[i]; goes(a, b) {
			gained += ((b.Rate+a.Rate)/2 - s.Rate.Mean) * (b.FuseeTurn - a.FuseeTurn) * seconds
			if off := math.Abs(gained); off > s.Wander {
				s.Wander = off
			}
		}
	}
	return s
}

// goes tells whether the clock goes from one row to the next.
func goes(a, b *Row) bool { return a.Rate == a.Rate && b.Rate == b.Rate } // false for NaN

// average sets means, by trapezia since time goes as the fusee turns, and ends
// of both spreads.
func (s *Swing) average(rows []Row) {
	arcs, rates := noSpread, noSpread
	var amplitude, rate, span float64
	for i := range rows {
		b := &rows[i]
		if math.IsNaN(b.Rate) {
			continue
		}
		arcs.reach(b.Amplitude)
		rates.reach(b.Rate)
		if i == 0 || !goes(&rows[i-1], b) {
			continue
		}
		a := &rows[i-1]
		half := (b.FuseeTurn - a.FuseeTurn) / 2
		span += half
		amplitude += half * (a.Amplitude + b.Amplitude)
		rate += half * (a.Rate + b.Rate)
	}
	if span > 0 {
		arcs.Mean, rates.Mean = amplitude/(2*span), rate/(2*span)
	}
	s.Amplitude, s.Rate = arcs, rates
}

// reach widens the spread to a value.
func (s *Spread) reach(v float64) {
	if !(v >= s.Min) { // also the first one, over NaN
		s.Min = v
	}
	if !(v <= s.Max) {
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

// swing fills in what the torque at the escape wheel makes of the pendulum.
func (r *Row) swing(c *escapement.Clock) {
	a, rate, status := c.Swing(r.LastTorque)
	if r.Status = status; status.Goes() {
		r.Amplitude, r.Rate = a.Radians(), rate
	}
}

// need finds the least torque at the fusee. The measured one stands for itself:
// the weights drove whatever loads there are. Less than drags and loads alone
// take cannot be: then those are the need. Where no torque reaches the arc with its
// margin, none is predicted, and what reaches the escape is used.
func (t *Train) need(c *escapement.Clock) Need {
	n := Need{Predicted: math.NaN(), Measured: t.Demand.Least}
	last := t.Wheels.Last()
	switch {
	case t.Escapes:
		least := c.LeastTorque()
		if n.Beyond = math.IsInf(least, 1); n.Beyond {
			least = c.TorqueFor(t.Escapement.Reach())
		}
		n.Predicted = t.Wheels.Worst.Needs(last, least)
	case t.Strikes:
		n.Predicted = t.Striker.least
	}
	n.Loads = t.Wheels.Worst.Needs(last, 0)
	switch n.Used = n.Measured; {
	case math.IsNaN(n.Used):
		n.Used = n.Predicted
	case n.Used < n.Loads:
		n.Used = n.Loads
	}
	n.LoadsOff = n.Used - (n.Loads - t.Wheels.Free.Needs(last, 0))
	if n.Beyond {
		n.Predicted = math.NaN()
	}
	return n
}

// benchStop is the turn at which the clock stops by the need measured; NaN when
// it does not, or when the need is only predicted: then the arc itself tells.
func (d *Digest) benchStop() float64 {
	if math.IsNaN(d.Need.Measured) {
		return math.NaN()
	}
	return d.StopsAt
}

// letOff is the arc in the worst minutes.
func (t *Train) letOff(c *escapement.Clock, res *Digest) {
	last := t.Wheels.Last()
	res.Swing.LetOff = math.NaN()
	if t.Wheels.Worst.Needs(last, 0) > t.Wheels.Needs(last, 0) {
		if a, status := c.Amplitude(t.Wheels.Worst.Torque(last, res.Torque.Min)); status != escapement.Trips {
			res.Swing.LetOff = a.Radians()
		}
	}
	_, status := c.Amplitude(t.Wheels.Torque(last, res.Torque.Max))
	res.Swing.Trips = status == escapement.Trips
}
