package sim

import (
	"errors"
	"math"

	"evenpull/train"

	"github.com/golang/geo/r1"
)

// Striker is the pin work and fly of a striking train, with the torques at the
// fusee (N·m) that do not depend on the drive. +Inf: no torque does.
type Striker struct {
	train.Strike
	Interval r1.Interval // s from blow to blow, as wanted: fastest to slowest; empty when not
	Least    float64     // from which on the train strikes from rest
	Slow     float64     // from which on it strikes at least as fast as the slow end of Interval; NaN without one
	Fast     float64     // up to which it strikes no faster than its fast end; likewise
	Hurries  bool        // on any torque it strikes faster than that: Fast is Least
}

// newStriker works the torques out.
func newStriker(s train.Strike, wanted r1.Interval) Striker {
	k := Striker{Strike: s, Interval: wanted, Least: s.LeastFromRest(), Slow: math.NaN(), Fast: math.NaN()}
	if wanted.IsEmpty() {
		return k
	}
	k.Slow, _ = k.torqueFor(wanted.Hi)
	k.Fast, k.Hurries = k.torqueFor(wanted.Lo)
	k.Fast = math.Max(k.Fast, k.Slow) // the two meet where the train strikes one way only
	return k
}

// torqueFor is the torque that strikes at an interval, from rest; hurries tells
// that the least one that does strikes faster.
func (k *Striker) torqueFor(interval float64) (torque float64, hurries bool) {
	torque, err := k.TorqueFor(interval)
	switch {
	case errors.Is(err, train.ErrTooSlow):
		return k.Least, true
	case err != nil:
		return math.Inf(1), false
	case torque < k.Least:
		return k.Least, true
	}
	return torque, false
}

// Cadence is what the drive does to the blows over the run; NaN where the
// train does not strike or is none that strikes.
type Cadence struct {
	Interval Spread // s from blow to blow
	Twelve   Spread // s for a strike of twelve, from the release to the last drop
	Fly      Spread // turns a second
}

var noCadence = Cadence{noSpread, noSpread, noSpread}

// blows fills in the blows of a row.
func (k *Striker) blows(row *Row) {
	if row.FuseeTorque < k.Least {
		return // it may go on once it goes, but does not start at every pin
	}
	if c := k.Steady(row.FuseeTorque); c.Status == train.Strikes {
		row.BlowInterval, row.FlySpeed = c.Interval, c.FlySpeed/(2*math.Pi)
	}
	if twelve := k.Twelve(row.FuseeTorque); twelve.Status == train.Strikes {
		row.Twelve = twelve.Seconds
	}
}

// cadenceOf gathers the blows from the rows at quarter turns, where it strikes.
func cadenceOf(rows []Row) Cadence {
	interval, twelve, fly := newMean(), newMean(), newMean()
	last := rows[0].FuseeTurn
	for i := range rows {
		r := &rows[i]
		step := r.FuseeTurn - last
		interval.see(r.BlowInterval, step)
		twelve.see(r.Twelve, step)
		fly.see(r.FlySpeed, step)
		last = r.FuseeTurn
	}
	return Cadence{interval.spread(), twelve.spread(), fly.spread()}
}

// mean gathers the spread of a quantity over the rows at which it is a number,
// its mean by trapezia.
type mean struct {
	Spread
	sum, span, last float64
}

func newMean() mean { return mean{Spread: noSpread, last: math.NaN()} }

// see takes the next value, a step after the last one.
func (m *mean) see(v, step float64) {
	if v == v { // not NaN
		m.reach(v)
	}
	if both := v + m.last; both == both {
		m.span += step
		m.sum += step / 2 * both
	}
	m.last = v
}

func (m *mean) spread() Spread {
	if m.span > 0 {
		m.Mean = m.sum / m.span
	}
	return m.Spread
}

// StruckTurns are the fusee turns of the run that the train goes or strikes: up
// to where it stops first by the need it is judged by.
func (r *Result) StruckTurns() float64 {
	if !math.IsNaN(r.stopsAt) {
		return max(r.stopsAt-r.TurnsLost, 0)
	}
	return r.Train.Drive.Cone.Turns - r.TurnsLost
}

// FlyRadius is the outer radius (m) of the fly, its width the same, at which the
// mean torque of the run strikes in the middle of the intervals wanted. It fails
// with the errors of train.Strike.OuterRadiusFor.
func (r *Result) FlyRadius() (float64, error) {
	k := &r.Train.Striker
	return k.OuterRadiusFor(r.Torque.Mean, k.Interval.Center())
}
