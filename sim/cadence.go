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
	wanted            r1.Interval // s from blow to blow: fastest to slowest; empty when not
	least, slow, fast float64
	hurries           bool // on any torque it strikes faster than is wanted: fast is least
}

// NewStriker works out the torques for the intervals wanted (s from blow to blow,
// fastest to slowest; empty when none are).
func NewStriker(s train.Strike, wanted r1.Interval) Striker {
	k := Striker{Strike: s, wanted: wanted, least: s.LeastFromRest(), slow: math.NaN(), fast: math.NaN()}
	if wanted.IsEmpty() {
		return k
	}
	k.slow, _ = k.torqueFor(wanted.Hi)
	k.fast, k.hurries = k.torqueFor(wanted.Lo)
	k.fast = math.Max(k.fast, k.slow) // the two meet where the train strikes one way only
	return k
}

// Wanted are the intervals wanted (s), fastest to slowest; empty when none are.
func (k *Striker) Wanted() r1.Interval { return k.wanted }

// Least is the torque from which on the train strikes from rest.
func (k *Striker) Least() float64 { return k.least }

// Slow is the torque from which on it strikes at least as fast as the slowest
// interval wanted; NaN without one.
func (k *Striker) Slow() float64 { return k.slow }

// Fast is the torque up to which it strikes no faster than the fastest interval
// wanted; NaN without one.
func (k *Striker) Fast() float64 { return k.fast }

// torqueFor is the torque that strikes at an interval, from rest; hurries tells
// that the least one that does strikes faster.
func (k *Striker) torqueFor(interval float64) (torque float64, hurries bool) {
	torque, err := k.TorqueFor(interval)
	switch {
	case errors.Is(err, train.ErrTooSlow):
		return k.least, true
	case err != nil:
		return math.Inf(1), false
	case torque < k.least:
		return k.least, true
	}
	return torque, false
}

// Cadence is what the drive does to the blows over the run; NaN where the
// train does not strike or is none that strikes.
type Cadence struct {
	Interval Spread // s from blow to blow
	Twelve   Spread // s for a strike of twelve from rest, from the first blow to the last
	Fly      Spread // turns a second
}

var noCadence = Cadence{noSpread, noSpread, noSpread}

// blows fills in the blows of a row.
func (k *Striker) blows(row *Row) {
	if row.FuseeTorque < k.least {
		return // it may go on once it goes, but does not start at every pin
	}
	if c := k.Steady(row.FuseeTorque); c.Status == train.Strikes {
		row.BlowInterval, row.FlySpeed = c.Interval, c.FlySpeed/(2*math.Pi)
	}
	if twelve := k.Twelve(row.FuseeTorque); twelve.Status == train.Strikes {
		row.Twelve = twelve.Blown
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

// MiddleFly is the outer radius (m) of the fly, its width the same, at which the
// mean torque of the run strikes in the middle of the intervals wanted; NaN where
// there is none.
func (r *Result) MiddleFly() float64 {
	k := &r.Train.Striker
	if k.wanted.IsEmpty() {
		return math.NaN()
	}
	radius, err := k.OuterRadiusFor(r.Torque.Mean, k.wanted.Center())
	if err != nil {
		return math.NaN()
	}
	return radius
}
