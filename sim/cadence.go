package sim

import (
	"errors"
	"math"

	"evenpull/train"

	"github.com/golang/geo/r1"
)

// Striker is the pin work and fly of a striking train, with the torques at the
// fusee (N·m) that do not depend on the drive. What cannot be is NaN.
type Striker struct {
	train.Strike
	Interval r1.Interval // s from blow to blow, as wanted: fastest to slowest; empty when not
	Least    float64     // from which on the train strikes from rest
	Slow     float64     // that strikes at the slow end of Interval
	Fast     float64     // that strikes at its fast end; +Inf when no torque does
}

// newStriker works the torques out.
func newStriker(s train.Strike, wanted r1.Interval) Striker {
	k := Striker{Strike: s, Interval: wanted, Least: s.LeastFromRest(), Slow: math.NaN(), Fast: math.NaN()}
	if wanted.IsEmpty() {
		return k
	}
	var err error
	if k.Slow, err = s.TorqueFor(wanted.Hi); err != nil && !errors.Is(err, train.ErrTooSlow) {
		k.Slow = math.NaN()
	}
	if k.Fast, err = s.TorqueFor(wanted.Lo); errors.Is(err, train.ErrTooFast) {
		k.Fast = math.Inf(1)
	}
	k.Slow = math.Max(k.Slow, k.Least) // it must start as well
	return k
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

// FlyRadius is the outer radius (m) of the fly, its width the same, at which the
// mean torque of the run strikes in the middle of the intervals wanted. It fails
// with the errors of train.Strike.OuterRadiusFor.
func (r *Result) FlyRadius() (float64, error) {
	k := &r.Train.Striker
	return k.OuterRadiusFor(r.Torque.Mean, k.Interval.Center())
}
