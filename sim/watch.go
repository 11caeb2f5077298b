package sim

import (
	"math"

	"github.com/golang/geo/s1"
)

// level is how much less or more than the least or greatest a torque must be to be
// taken for it: one that is even but for rounding is least and greatest at its start.
const level = 1e-12

// gather sets the figures of the whole run from its quarter turns: torque, what the
// rows hold over the run, tension, fleet angle, and where the torque falls below the
// need. It is one loop with its values at hand, since it is a tenth of a run.
func (d *Digest) gather(rows []Row, mean, need float64) {
	a := &rows[0]
	t := Summary{Mean: mean, Min: a.FuseeTorque, Max: a.FuseeTorque, MinAt: a.FuseeTurn, MaxAt: a.FuseeTurn}
	below, above := t.Min*(1-level), t.Max*(1+level)
	o := Over{flat(a.SpringTorque), flat(a.LineTension), flat(a.WindingTorque), flat(a.LastTorque)}
	spring, line, winding, last := o.SpringTorque, o.LineTension, o.WindingTorque, o.LastTorque
	spring.Mean, line.Mean, winding.Mean, last.Mean = 0, 0, 0, 0 // areas by trapezia
	squares, fleet, off := 0.0, math.Abs(a.Fleet), a.FuseeTorque-mean
	d.StopsAt = math.NaN()
	if a.FuseeTorque < need {
		d.StopsAt = a.FuseeTurn
	}
	for i := 1; i < len(rows); i++ {
		b := &rows[i]
		half := (b.FuseeTurn - a.FuseeTurn) / 2
		torque := b.FuseeTorque
		switch {
		case torque < below:
			t.Min, t.MinAt, below = torque, b.FuseeTurn, torque*(1-level)
		case torque > above:
			t.Max, t.MaxAt, above = torque, b.FuseeTurn, torque*(1+level)
		}
		if torque < need && !(a.FuseeTorque < need) && math.IsNaN(d.StopsAt) {
			d.StopsAt = crossing(a, b, need)
		}
		next := torque - mean
		squares += half * (off*off + next*next)
		off = next
		spring.Mean += (a.SpringTorque + b.SpringTorque) * half
		line.Mean += (a.LineTension + b.LineTension) * half
		winding.Mean += (a.WindingTorque + b.WindingTorque) * half
		last.Mean += (a.LastTorque + b.LastTorque) * half
		spring.hold(b.SpringTorque)
		line.hold(b.LineTension)
		winding.hold(b.WindingTorque)
		last.hold(b.LastTorque)
		if f := math.Abs(b.Fleet); !(f <= fleet) { // NaN comes in and stays
			fleet = f
		}
		a = b
	}
	turns := a.FuseeTurn - rows[0].FuseeTurn
	t.Unevenness, t.CV = (t.Max-t.Min)/t.Mean, math.Sqrt(squares/turns)/t.Mean
	for _, s := range []*Spread{&spring, &line, &winding, &last} {
		s.Mean /= turns
	}
	d.Torque, d.Over, d.Line.MaxTension = t, Over{spring, line, winding, last}, line.Max
	if d.Line.FleetKnown = !math.IsNaN(fleet); d.Line.FleetKnown {
		d.Line.MaxFleet = s1.Angle(math.Atan(fleet))
	}
}

// flat is the spread of one value.
func flat(v float64) Spread { return Spread{v, v, v} }

// hold widens the spread to a number.
func (s *Spread) hold(v float64) {
	if v < s.Min {
		s.Min = v
	} else if v > s.Max {
		s.Max = v
	}
}

// crossing is the turn between two rows at which the torque fell below the need.
func crossing(a, b *Row, need float64) float64 {
	u := (a.FuseeTorque - need) / (a.FuseeTorque - b.FuseeTorque)
	return a.FuseeTurn + u*(b.FuseeTurn-a.FuseeTurn)
}
