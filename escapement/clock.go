package escapement

import "math"

// Clock is an escapement with its pendulum, averaged over a period; what does
// not depend on the torque is worked out once. It is a value; New makes one, and
// the zero Clock stops at every torque.
type Clock struct {
	escapement Escapement
	pendulum   Pendulum

	impulse
	square float64 // A² for a torque of 1 N·m, but for the share short: see arc
	reach  float64 // γ and the impulse's distance from the dead point
	wanted float64 // reach with the margin
	limit  float64
	stiff  float64 // K
	couple float64 // τ for a torque of 1 N·m
}

// New puts an escapement to a pendulum. It fails with a Fault.
func New(e Escapement, p Pendulum) (c Clock, err error) {
	if err := e.Check(); err != nil {
		return Clock{}, err
	}
	if err := p.Check(); err != nil {
		return Clock{}, err
	}
	c.escapement, c.pendulum = e, p
	gamma, costs := float64(e.HalfArc()), e.costs()
	c.impulse = impulse{gamma: gamma, late: float64(e.Late), perQ: 1 / p.Quality, far: costs / (gamma * (costs + 2))}
	c.reach, c.limit = float64(e.Reach()), float64(e.Allows())
	c.stiff, c.couple = p.Stiffness(), e.Couple(1)
	c.wanted = c.reach + float64(e.Margin)
	c.square = 4 * c.couple * c.gamma * p.Quality / (math.Pi * c.stiff) * (1 + costs/2)
	return c, nil
}

// Escapement is that of the clock.
func (c *Clock) Escapement() Escapement { return c.escapement }

// Pendulum is that of the clock.
func (c *Clock) Pendulum() Pendulum { return c.pendulum }

// Status is how a clock goes, or how a run of beats ended.
type Status uint8

const (
	Stops    Status = iota // the swing does not reach the escape: no beat
	Short                  // it escapes, with less than the margin asked for
	Runs                   // it escapes with the margin
	Trips                  // the swing passes what the pallets can hold
	Changing               // the beats had not settled when the count was out
)

var statusNames = [...]string{"stops", "short of its margin", "runs", "trips", "still changing"}

// String is the status in words.
func (s Status) String() string {
	if int(s) < len(statusNames) {
		return statusNames[s]
	}
	return "unknown"
}

// Goes tells whether there is a steady swing: Short or Runs.
func (s Status) Goes() bool { return s == Short || s == Runs }

// Amplitude is the steady semi-arc for a torque (N·m) at the escape wheel: 0
// for a clock that stops, the limit for one that trips. A torque that is not a
// number stops it.
//
// It leaves out what goes with 1/Q, which Turning adds. For a recoil escapement
// A comes out too large by about 0.29 (A/γ)/Q of itself at most: below 0.5/Q up
// to four times the least torque without a margin. For a centred dead beat the
// first order is nil.
func (c *Clock) Amplitude(torque float64) (SemiArc, Status) {
	a := c.arc(torque)
	s := c.judge(a)
	return c.shown(a, s), s
}

// shown is a steady semi-arc as Amplitude tells it.
func (c *Clock) shown(a float64, s Status) SemiArc {
	switch s {
	case Stops:
		a = 0
	case Trips:
		a = c.limit
	}
	return SemiArc(a)
}

// arc is the semi-arc kept up by a torque, the root of A² = square × torque × short; one
// below γ, where nothing is lost beyond, comes out below γ too.
func (c *Clock) arc(torque float64) float64 {
	s := c.square * torque
	if c.far == 0 {
		return math.Sqrt(s)
	}
	b := s * c.far / 2
	root := math.Sqrt(b*b + s)
	if 2*b < root { // mostly, and sooner worked out
		return root - b
	}
	return s / (b + root) // for a great torque the root less b has no figures left
}

// judge says how a clock of the semi-arc a goes. A torque worked out to reach
// an arc exactly must not fail by a rounding.
func (c *Clock) judge(a float64) Status {
	const rounding = 1 + 8e-16
	switch {
	case !(a*rounding >= c.reach && a > 0):
		return Stops
	case a > c.limit*rounding:
		return Trips
	case a*rounding >= c.wanted:
		return Runs
	}
	return Short
}

// TorqueFor is the torque (N·m) at the escape wheel that keeps up a semi-arc; +Inf from
// Widest on.
func (c *Clock) TorqueFor(a SemiArc) float64 {
	short := c.short(max(float64(a), c.gamma))
	if !(short > 0) {
		return math.Inf(1)
	}
	return float64(a) * float64(a) / (c.square * short)
}

// LeastTorque is the torque (N·m) at the escape wheel whose amplitude is just
// the escaping half-arc with its margin; +Inf where no torque reaches that.
func (c *Clock) LeastTorque() float64 { return c.TorqueFor(SemiArc(c.wanted)) }

// Work is what the escapement gives the pendulum in a period, what is lost beyond the
// impulse left out (J): 4τγ = (2π/z)(1−δ) ηp Te.
func (c *Clock) Work(torque float64) float64 { return 4 * c.couple * torque * c.gamma }

// Loss is what the pendulum loses in a period of a semi-arc (J): πKA²/Q.
func (c *Clock) Loss(a SemiArc) float64 {
	return math.Pi * c.stiff * float64(a) * float64(a) * c.perQ
}
