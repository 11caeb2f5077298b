package escapement

import "math"

// Beats swings a pendulum beat by beat, from turning point to turning point.
// It is a value; it is not for two goroutines at once.
type Beats struct {
	swinger
	legs   [3]stretch // of a swing to the right; one to the left is its mirror
	n      int        // legs in use
	arc    float64    // semi-arc of the last turning point
	wanted float64
	limit  float64
	unit   float64 // s in a unit of time: 1/ω0
	status Status
	left   bool // the pendulum stands on the left
	watch  Recorder
	scale  scale
}

// Beat is a swing from one turning point to the next.
type Beat struct {
	Status  Status  // Runs, or Stops or Trips: then the swing was the last
	Seconds float64 // s that it took; 0 once the clock has stopped
	Arc     SemiArc // at its end; 0 once the clock has stopped
}

// Beats starts a pendulum from rest at a semi-arc on the left, with a torque
// (N·m) at the escape wheel. It fails with a Fault when the torque is below 0
// or not finite, or the arc not above 0 or beyond the limit.
func (c *Clock) Beats(torque float64, start SemiArc) (Beats, error) {
	err := firstFault(
		span{"torque", torque, 0, math.MaxFloat64, "N·m, 0 or more"},
		span{"start", float64(start), tiny, c.limit, "a semi-arc above 0 to the limit, in radians"},
	)
	rest := c.couple * torque / c.stiff
	if err == nil {
		err = firstFault(span{"torque", rest, 0, 1e6, "a couple on the pendulum of at most 1e6 K (this is couple/K)"})
	}
	if err != nil {
		return Beats{}, err
	}
	p := &c.pendulum
	b := Beats{swinger: newSwinger(p.Quality), arc: float64(start),
		wanted: c.wanted, limit: c.limit, unit: 1 / p.Pulse(), status: Runs, left: true}
	b.scale = scale{pulse: p.Pulse(), stiffness: c.stiff, zeta: b.zeta}
	b.legs, b.n = c.escapement.Kind.legs(rest, c.impulse)
	for i := range b.n {
		b.legs[i].propagator = b.over(0)
	}
	return b, nil
}

// Watch hands every leg and beat from now on to a recorder; nil ends that.
func (b *Beats) Watch(r Recorder) { b.watch = r }

// Arc is the semi-arc of the last turning point.
func (b *Beats) Arc() SemiArc { return SemiArc(b.arc) }

// Step swings the pendulum to the next turning point. After a swing that does
// not pass the release the escapement never moves again, since the pallet that
// holds the tooth only takes from the swing: the clock has stopped. One that
// has tripped is not followed any further either.
func (b *Beats) Step() Beat {
	if b.status != Runs {
		return Beat{Status: b.status}
	}
	x, v, t := -b.arc, 0.0, 0.0
	for i := range b.n {
		l := &b.legs[i]
		x1, v1, dt, ok := b.run(l, x, v)
		if !ok {
			return b.stop()
		}
		if b.watch != nil {
			b.watch.Leg(b.leg(i, x, v, dt))
		}
		x, v, t = x1, v1, t+dt
	}
	return b.land(x, t)
}

// land ends a swing at the turning point x.
func (b *Beats) land(x, t float64) Beat {
	b.arc, b.left = x, !b.left
	if x > b.limit {
		b.status = Trips
	}
	beat := Beat{b.status, t * b.unit, SemiArc(x)}
	if b.watch != nil {
		b.watch.Beat(beat)
	}
	return beat
}

func (b *Beats) stop() Beat {
	b.status, b.arc = Stops, 0
	beat := Beat{Status: Stops}
	if b.watch != nil {
		b.watch.Beat(beat)
	}
	return beat
}

// Settled is what a run of beats came to.
type Settled struct {
	Status    Status  // Runs, Short, Stops, Trips or Changing
	Amplitude SemiArc // of the last turning points; 0 for a clock that stopped
	Period    float64 // s, of the last two beats; 0 for one that stopped
	Rate      float64 // pure number, gained on the small undamped swing: T0/T − 1; 0 likewise
	Periods   int     // swung
}

// steady is the share of the amplitude within which it counts as settled;
// blur is what a period's change may owe to rounding.
const (
	steady = 1e-10
	blur   = 4e-16
)

// Settle swings for at most the given periods, and ends when the amplitude is
// within 1e-10 of where it goes (1e-16 Q for a Q above 1e6). It nears that by a
// factor of e every Q/2π periods, so the change of one period tells how far it
// has to go.
func (b *Beats) Settle(periods int) Settled {
	out := Settled{Status: Changing, Amplitude: b.Arc()}
	left := max(1/(4*math.Pi*b.zeta), 1) // Q/2π
	for out.Periods < periods {
		before := b.arc
		first, second := b.Step(), b.Step()
		if second.Status != Runs {
			return Settled{Status: second.Status, Amplitude: SemiArc(min(b.arc, b.limit)), Periods: out.Periods}
		}
		out.Periods++
		out.Amplitude = (first.Arc + second.Arc) / 2
		out.Period = first.Seconds + second.Seconds
		if math.Abs(b.arc-before)*left < max(steady, left*blur)*b.arc {
			out.Status = Runs
			break
		}
	}
	if out.Period > 0 {
		out.Rate = 2*math.Pi*b.unit/out.Period - 1
	}
	if out.Status == Runs && b.arc < b.wanted {
		out.Status = Short
	}
	return out
}
