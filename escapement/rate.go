package escapement

import "math"

// SecondsPerDay turns a rate into seconds gained in a day.
const SecondsPerDay = 86400

// Rate is what a clock gains on its pendulum's own beat, T0/T − 1 with T0 the
// small undamped swing, part by part. The parts are small, so they add; each is
// 0 for a clock that does not go.
type Rate struct {
	Circular   float64 // pure number, of the wide swing, exact: 0 or less
	Escapement float64 // pure number, of the couple's place in the swing: of the order of 1/Q
	Damping    float64 // pure number, of the loss and its making good: of the order of 1/Q²
}

// Total is the sum of the parts, as a fraction.
func (r Rate) Total() float64 { return r.Circular + r.Escapement + r.Damping }

// PerDay is the total in seconds gained in a day.
func (r Rate) PerDay() float64 { return SecondsPerDay * r.Total() }

// Linear is the total without the circular error, a pure number: the rate of Beats.
func (r Rate) Linear() float64 { return r.Escapement + r.Damping }

// Going is how a clock goes at one torque.
type Going struct {
	Status    Status  // Stops, Short, Runs or Trips
	Amplitude SemiArc // 0 for a clock that stops, the limit for one that trips
	Rate      Rate    // all 0 for a clock that does not go
}

// Going is the steady swing, status and rate for a torque (N·m) at the escape
// wheel.
func (c *Clock) Going(torque float64) Going {
	a := c.arc(torque)
	s := c.judge(a)
	if !s.Goes() {
		return Going{Status: s, Amplitude: c.shown(a, s)}
	}
	return Going{s, SemiArc(a), c.rateAt(a)}
}

// Swing is Going with the parts of the rate summed (a pure number): what a run-down asks
// for at every row. The rate is 0 for a clock that does not go.
func (c *Clock) Swing(torque float64) (a SemiArc, rate float64, s Status) {
	arc := c.arc(torque)
	if s = c.judge(arc); s.Goes() {
		return SemiArc(arc), c.rateAt(arc).Total(), s
	}
	return c.shown(arc, s), 0, s
}

// Rate is that of a steady swing kept up by a torque (N·m) at the escape wheel;
// all parts are 0 for a clock that stops or trips.
func (c *Clock) Rate(torque float64) Rate { return c.Going(torque).Rate }

// rateAt is the rate of a swing that is kept up.
func (c *Clock) rateAt(a float64) Rate {
	couple, damping := c.escapement.Kind.rate(a, c.impulse)
	return Rate{CircularRate(SemiArc(a)), couple, damping}
}

// legOf is √(a²−b²), 0 where a rounding puts b past a.
func legOf(a, b float64) float64 { return math.Sqrt(max((a-b)*(a+b), 0)) }
