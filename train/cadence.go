package train

import "math"

// StrikeStatus is how a striking train does.
type StrikeStatus int

// What a striking train can do.
const (
	Strikes    StrikeStatus = iota
	NeedsRunUp              // keeps striking once it goes, but stalls from rest
	Stalls                  // stops while lifting: the hammers are too heavy for the torque
	Stands                  // no torque arrives at the fly even with the pins free
)

// String says it in words.
func (s StrikeStatus) String() string {
	switch s {
	case Strikes:
		return "strikes"
	case NeedsRunUp:
		return "strikes only with a run-up"
	case Stalls:
		return "stalls while lifting"
	case Stands:
		return "stands: no torque at the fly"
	}
	return "no such status"
}

// mostTorque is the greatest torque (N·m) that makes sense at a fusee.
const mostTorque = 1e9

// Cadence is steady striking: what repeats each turn of the pin wheel, as means
// over its pins. Without status Strikes the rest is 0.
type Cadence struct {
	Status         StrikeStatus // Strikes, Stalls or Stands
	Interval       float64      // s from blow to blow
	FreeSeconds    float64      // s of that with the pin free
	LiftSeconds    float64      // s of that lifting
	FlySpeed       float64      // rad/s, mean in time
	Least          float64      // rad/s, of the fly
	Greatest       float64      // rad/s, likewise
	KineticLeast   float64      // J, of the fly at its slowest
	KineticMost    float64      // J, at its fastest
	BlowsPerSecond float64      // 1/s, one over Interval
}

// Steady is the striking that a torque (N·m, above 0 to 1e9) at the fusee keeps
// up. It is exact for the equation of Strike. A torque out of range stands.
func (s *Strike) Steady(torque float64) Cadence {
	pin, free, status := s.freeCouple(torque)
	if status != Strikes {
		return Cadence{Status: status}
	}
	start, least := s.cycle(pin, free)
	if !(least > 0) {
		return Cadence{Status: Stalls}
	}
	w := walk{u: start, w: math.Sqrt(start), least: math.MaxFloat64, freely: s.free.tally(free)}
	if s.nSets == 1 { // every blow is the same
		w.blows(s, s.atFly(pin-s.sets[0].couple), free, 1)
		return w.mean(s, 1)
	}
	for i := range s.nSets {
		p := &s.sets[i]
		w.blows(s, s.atFly(pin-p.couple), free, p.count)
	}
	return w.mean(s, float64(s.pins))
}

// freeCouple is the torque at the pins and the couple at the fly when free, and
// whether the latter moves it.
func (s *Strike) freeCouple(torque float64) (pin, free float64, status StrikeStatus) {
	if !(torque > 0 && torque <= mostTorque) {
		return 0, 0, Stands
	}
	pin = s.atPins(torque)
	if free = s.atFly(pin); !(free > 1e-30) {
		status = Stands
	}
	return pin, free, status
}

// cycle is u = ω² at the start of the steady turn of the pin wheel, and the
// least that it is at the end of any lift: 0 or below where that lift stalls.
//
// A blow takes u to a u + b, with the same a for every pin; blows alike compose
// to aⁿ u + b (1 − aⁿ)/(1 − a), and so does the turn, whose fixed point it is.
// Among blows alike u goes one way, so that the least of a turn is at the end of
// some set.
func (s *Strike) cycle(pin, free float64) (start, least float64) {
	run := s.lift.decay * s.free.gain(free)
	if s.nSets == 1 {
		p := &s.sets[0]
		start = (run + s.lift.gain(s.atFly(pin-p.couple))) * p.series / s.turn
		return start, start
	}
	sum := 0.0
	for i := range s.nSets {
		p := &s.sets[i]
		sum = p.decay*sum + (run+s.lift.gain(s.atFly(pin-p.couple)))*p.series
	}
	start = sum / s.turn
	return start, s.lowest(start, pin, run)
}

// lowest is the least u at the end of a lift in a turn of the pin wheel from the
// given u; run is what the free leg leaves of its gain.
func (s *Strike) lowest(u, pin, run float64) float64 {
	least := math.MaxFloat64
	for i := range s.nSets {
		p := &s.sets[i]
		add := run + s.lift.gain(s.atFly(pin-p.couple))
		u = p.decay*u + add*p.series
		least = min(least, u)
	}
	return least
}

// tiniest keeps a time finite where rounding takes u to 0.
const tiniest = 1e-200

// walk goes through the blows of a steady turn.
type walk struct {
	u, w        float64 // ω² and ω
	freely      tally
	lifting     float64 // s
	least, most float64 // rad/s
}

func (w *walk) blows(s *Strike, lift, free float64, n int) {
	lifting := s.lift.tally(lift)
	for range n {
		u1 := s.free.after(w.u, free)
		w1 := math.Sqrt(u1)
		u2 := max(s.lift.after(u1, lift), tiniest) // rounding at the edge of stalling
		w2 := math.Sqrt(u2)
		w.freely.add(w.w, w1)
		lifting.add(w1, w2)
		// The first speed is also the last.
		w.least, w.most = min(w.least, w1, w2), max(w.most, w1, w2)
		w.u, w.w = u2, w2
	}
	w.lifting += lifting.seconds()
}

func (w *walk) mean(s *Strike, n float64) Cadence {
	c := Cadence{FreeSeconds: w.freely.seconds() / n, LiftSeconds: w.lifting / n, Least: w.least, Greatest: w.most}
	c.Interval = c.FreeSeconds + c.LiftSeconds
	c.BlowsPerSecond = 1 / c.Interval
	c.FlySpeed = s.pitch * c.BlowsPerSecond
	c.KineticLeast, c.KineticMost = s.KineticEnergy(c.Least), s.KineticEnergy(c.Greatest)
	return c
}
