package sim

import (
	"math"

	"github.com/golang/geo/s1"
)

// watch gathers the figures of the whole run from its quarter turns.
type watch struct {
	torque   Summary
	squares  float64 // ∫(T − mean)² dθ by trapezia
	last     *Row    // at to
	from, to float64
	begun    bool
	tension  float64
	fleet    float64 // greatest tangent; NaN when not known
	over     Over    // means are still areas
	need     float64
	stopsAt  float64
}

// anything is a spread that any value widens.
var anything = Spread{0, math.Inf(1), math.Inf(-1)}

func newWatch(mean, need float64) watch {
	return watch{
		torque: Summary{Mean: mean, Min: math.Inf(1), Max: math.Inf(-1)},
		need:   need, stopsAt: math.NaN(), over: Over{anything, anything, anything, anything},
	}
}

func (w *watch) see(r *Row) {
	// A torque that is even but for rounding is least and greatest at its start.
	if r.FuseeTorque < w.torque.Min*(1-1e-12) {
		w.torque.Min, w.torque.MinAt = r.FuseeTorque, r.FuseeTurn
	}
	if r.FuseeTorque > w.torque.Max*(1+1e-12) {
		w.torque.Max, w.torque.MaxAt = r.FuseeTorque, r.FuseeTurn
	}
	if r.LineTension > w.tension {
		w.tension = r.LineTension
	}
	if f := math.Abs(r.Fleet); !(f <= w.fleet) { // NaN comes in and stays
		w.fleet = f
	}
	if r.FuseeTorque < w.need && math.IsNaN(w.stopsAt) {
		w.stopsAt = w.crossing(r)
	}
	step := 0.0
	if w.begun {
		step = r.FuseeTurn - w.to
		a, b := w.last.FuseeTorque-w.torque.Mean, r.FuseeTorque-w.torque.Mean
		w.squares += step * (a*a + b*b) / 2
	} else {
		w.from, w.begun, w.last = r.FuseeTurn, true, r
	}
	o := &w.over
	o.SpringTorque.add(w.last.SpringTorque, r.SpringTorque, step)
	o.LineTension.add(w.last.LineTension, r.LineTension, step)
	o.WindingTorque.add(w.last.WindingTorque, r.WindingTorque, step)
	o.LastTorque.add(w.last.LastTorque, r.LastTorque, step)
	w.to, w.last = r.FuseeTurn, r
}

// add widens the spread to v and adds the area of a step to its mean, by the
// trapezium.
func (s *Spread) add(last, v, step float64) {
	s.Mean += (v + last) / 2 * step
	s.Min, s.Max = min(s.Min, v), max(s.Max, v)
}

// crossing is the turn between the last row and r at which the torque fell
// below the need.
func (w *watch) crossing(r *Row) float64 {
	if !w.begun {
		return r.FuseeTurn
	}
	last := w.last.FuseeTorque
	u := (last - w.need) / (last - r.FuseeTorque)
	return w.to + u*(r.FuseeTurn-w.to)
}

func (w *watch) close(res *Digest) {
	t := &w.torque
	t.Unevenness = (t.Max - t.Min) / t.Mean
	t.CV = math.Sqrt(w.squares/(w.to-w.from)) / t.Mean
	res.Torque = *t
	res.StopsAt = w.stopsAt
	res.Over = w.over
	for _, s := range []*Spread{&res.Over.SpringTorque, &res.Over.LineTension, &res.Over.WindingTorque, &res.Over.LastTorque} {
		s.Mean /= w.to - w.from
	}
	res.Line.MaxTension = w.tension
	if res.Line.FleetKnown = !math.IsNaN(w.fleet); res.Line.FleetKnown {
		res.Line.MaxFleet = s1.Angle(math.Atan(w.fleet))
	}
}
