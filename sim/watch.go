package sim

import (
	"math"

	"github.com/golang/geo/s1"
)

// watch gathers the figures of the whole run from its quarter turns.
type watch struct {
	torque   Summary
	squares  float64 // ∫(T − mean)² dθ by trapezia
	last     float64 // torque at to
	from, to float64
	begun    bool
	tension  float64
	fleet    float64 // greatest tangent; NaN when not known
	need     float64
	stopsAt  float64
}

func newWatch(mean, need float64) watch {
	return watch{
		torque: Summary{Mean: mean, Min: math.Inf(1), Max: math.Inf(-1)},
		need:   need, stopsAt: math.NaN(),
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
	if w.begun {
		a, b := w.last-w.torque.Mean, r.FuseeTorque-w.torque.Mean
		w.squares += (r.FuseeTurn - w.to) * (a*a + b*b) / 2
	} else {
		w.from, w.begun = r.FuseeTurn, true
	}
	w.to, w.last = r.FuseeTurn, r.FuseeTorque
}

// crossing is the turn between the last row and r at which the torque fell
// below the need.
func (w *watch) crossing(r *Row) float64 {
	if !w.begun {
		return r.FuseeTurn
	}
	u := (w.last - w.need) / (w.last - r.FuseeTorque)
	return w.to + u*(r.FuseeTurn-w.to)
}

func (w *watch) close(res *Result) {
	t := &w.torque
	t.Unevenness = (t.Max - t.Min) / t.Mean
	t.CV = math.Sqrt(w.squares/(w.to-w.from)) / t.Mean
	res.Torque = *t
	res.stopsAt = w.stopsAt
	res.Line.MaxTension = w.tension
	if res.Line.FleetKnown = !math.IsNaN(w.fleet); res.Line.FleetKnown {
		res.Line.MaxFleet = s1.Angle(math.Atan(w.fleet))
	}
}
