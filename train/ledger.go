package train

import "math"

// BlowWork is where the work of a blow goes in steady striking (J, a mean over
// the pins). Spring is the sum of the others, each of which is worked out by
// itself. It is all 0 for a train that does not strike.
type BlowWork struct {
	Status  StrikeStatus // as Steady's
	Spring  float64      // J, given by the fusee
	Hammers float64      // J, lifts hammers, their springs included
	Tails   float64      // J, lost in friction of the hammer tails
	Fly     float64      // J, spent by the fly on the air
	Wheels  float64      // J, lost in meshes and drags
	Loads   float64      // J, taken by standing loads
}

// Losses is what neither hammers nor fly get (J): tails, wheels and loads.
func (b BlowWork) Losses() float64 { return b.Tails + b.Wheels + b.Loads }

// Power is the ledger of a blow in steady striking with a torque (N·m) at the
// fusee; divide by the Interval of Steady for watts.
func (s *Strike) Power(torque float64) BlowWork {
	pin, free, status := s.freeCouple(torque)
	if status != Strikes {
		return BlowWork{Status: status}
	}
	u, least := s.cycle(pin, free)
	if !(least > 0) {
		return BlowWork{Status: Stalls}
	}
	var b BlowWork
	fly := 0.0
	for i := range s.nSets {
		p, n := &s.sets[i], float64(s.sets[i].count)
		b.Hammers += n * p.work
		b.Tails += n * p.tail
		var spent float64
		spent, u = s.flyWork(u, free, s.atFly(pin-p.couple), p)
		fly += spent
		s.wheelWork(&b, torque, p.couple, n*s.design.LiftShare)
	}
	pins := float64(s.pins)
	s.wheelWork(&b, torque, 0, pins*(1-s.design.LiftShare))
	return BlowWork{Spring: torque * s.fuseeAngle(), Hammers: b.Hammers / pins, Tails: b.Tails / pins,
		Fly: fly / pins, Wheels: b.Wheels / pins, Loads: b.Loads / pins}
}

// fuseeAngle is how far the fusee turns a blow (rad).
func (s *Strike) fuseeAngle() float64 { return 2 * math.Pi / s.BlowsPerTurn() }

// flyWork is the drag's work (J) over the blows of a set, and u after them.
func (s *Strike) flyWork(u, free, lift float64, p *pinSet) (work, after float64) {
	for range p.count {
		u1 := s.free.after(u, free)
		work += s.free.loss(u, free) + s.lift.loss(u1, lift)
		u = s.lift.after(u1, lift)
	}
	return work, u
}

// wheelWork adds what wheels and loads take (J) over a number of pitches, with a
// couple at the pins.
func (s *Strike) wheelWork(b *BlowWork, torque, couple, pitches float64) {
	t, angle := &s.train, pitches*s.fuseeAngle()
	left := torque - t.arbors[0].loss
	b.Loads += t.arbors[0].loss * angle
	for i := range t.Last() {
		if i == s.design.PinArbor {
			left -= couple
		}
		p, ratio := &s.steps[i], t.Speed(i+1)/t.Speed(i)
		share := p.on * ratio // the efficiency; driven back, its inverse
		if left < 0 {
			share = p.back * ratio
		}
		b.Wheels += (left*(1-share)*t.Speed(i) + (p.take-p.load)*t.Speed(i+1)) * angle
		b.Loads += p.load * t.Speed(i+1) * angle
		left = left*share/ratio - p.take
	}
}
