package train

import "math"

// StrikeDesign is what a striking train is made of: the meshes from the great
// wheel to the fly, the last of which drives the fly, and what its pins lift.
type StrikeDesign struct {
	Meshes   []Mesh   // from the great wheel to the fly, 1 to Most
	Loads    []Load   // standing, at any arbor
	PinArbor int      // that carries the pins: from 0, the fusee's, to the one before the fly's
	Pins     []PinSet // in the order in which they come round; AllPins makes the plain case

	LiftShare      float64 // last share of a pin's pitch that lifts, above 0, below 1
	TailEfficiency float64 // share of the work at the pins that lifts hammers, above 0 to 1

	Fly        Fly     // on the last arbor
	AirDensity float64 // kg/m³, about 1.2
	Gravity    float64 // m/s²
}

// Strike is a compiled striking train. What does not depend on the torque is
// worked out once. It is a value.
//
// With u = ω² of the fly, ψ its angle, J its moment of inertia, c ω² its drag
// and T the couple that reaches it,
//
//	du/dψ = (2/J)(T − c u)
//
// T is constant while the pins are free and while they lift, so that u goes to
// T/c by e^(−2cψ/J), without any step of integration. A blow is the free part
// of the pin's pitch and then the lift, at the end of which the hammer drops.
// Where the hammer takes more than the train gives, the fly drives backwards
// through the meshes, and what they lose is added to what it must give. The
// train stalls where u reaches 0 while lifting.
//
// Left out: the inertia of wheels and hammers, against that of the fly which
// turns far faster; the overrun of a fly on a friction spring when the train is
// stopped, since the fly is taken as fast on its arbor; play between tail and
// pin; how the lever of the tail changes over the lift, for which the mean
// couple stands.
type Strike struct {
	design  StrikeDesign // without its slices
	train   Train
	steps   [Most]step
	sets    [MostSets]pinSet
	nSets   int
	pins    int
	pitch   float64 // rad that the fly turns a blow
	drag    float64 // c, N·m·s²
	inertia float64 // J, kg·m²
	free    leg
	lift    leg
	turn    float64 // 1 less that over a turn of the pin wheel
}

// step passes a torque on from an arbor to the next.
type step struct {
	on, back float64 // share passed on when driving, and when driven
	take     float64 // N·m, drag and load at the next
	load     float64 // N·m, the load alone
}

// NewStrike compiles a striking train. It fails with ErrTrain or a Fault.
func NewStrike(d StrikeDesign) (Strike, error) {
	t, err := New(d.Meshes, d.Loads)
	if err != nil {
		return Strike{}, err
	}
	s := Strike{design: d, train: t}
	if s.pins, err = countPins(d.Pins); err != nil {
		return Strike{}, err
	}
	if err := d.check(); err != nil {
		return Strike{}, err
	}
	for i, m := range d.Meshes {
		load := loadAt(d.Loads, i+1)
		s.steps[i] = step{m.Efficiency / m.Ratio(), 1 / (m.Efficiency * m.Ratio()), m.Drag + load, load}
	}
	s.nSets = len(d.Pins)
	for i, p := range d.Pins {
		w, err := blowWork(p, d.Gravity)
		if err != nil {
			return Strike{}, err
		}
		atPin := w / d.TailEfficiency
		s.sets[i] = pinSet{count: p.Count, work: w, tail: atPin - w, couple: atPin * float64(s.pins) / (2 * math.Pi * d.LiftShare)}
	}
	// The value must not change with the slices it was made from.
	s.design.Meshes, s.design.Loads, s.design.Pins = nil, nil, nil
	if err := s.fit(d.Fly); err != nil {
		return Strike{}, err
	}
	return s, nil
}

func (d *StrikeDesign) check() error {
	if err := firstFault(ErrPinArbor, bound{"pin arbor", float64(d.PinArbor), 0, float64(len(d.Meshes)) - 1, "0 to the arbor before the fly's"}); err != nil {
		return err
	}
	if err := firstFault(ErrLiftShare, bound{"lift share", d.LiftShare, tiny, math.Nextafter(1, 0), "above 0 and below 1"}); err != nil {
		return err
	}
	if err := firstFault(ErrEfficiency, bound{"tail efficiency", d.TailEfficiency, tiny, 1, "above 0 to 1"}); err != nil {
		return err
	}
	if err := firstFault(ErrHammer, bound{"gravity", d.Gravity, 0, 1e3, "m/s², 0 or more"}); err != nil {
		return err
	}
	return d.Fly.check(d.AirDensity)
}

// fit puts a fly on the train. All that depends on the fly alone is here.
func (s *Strike) fit(f Fly) error {
	s.design.Fly = f
	s.drag, s.inertia = f.Drag(s.design.AirDensity), f.MomentOfInertia()
	s.pitch = s.train.Speed(s.train.Last()) * s.fuseeAngle()
	pitch, share := s.pitch, s.design.LiftShare
	s.free = newLeg((1-share)*pitch, s.drag, s.inertia)
	s.lift = newLeg(share*pitch, s.drag, s.inertia)
	k := s.free.power + s.lift.power
	s.turn = -math.Expm1(-float64(s.pins) * k)
	for i := range s.nSets {
		p := &s.sets[i]
		p.decay = math.Exp(-float64(p.count) * k)
		p.series = math.Expm1(-float64(p.count)*k) / math.Expm1(-k)
	}
	const least, most = 1e-30, 1e30
	return firstFault(ErrRange,
		bound{"fly drag", s.drag, least, most, "N·m·s², 1e-30 to 1e30"},
		bound{"fly inertia", s.inertia, least, most, "kg·m², 1e-30 to 1e30"},
		bound{"pitch", pitch, least, most, "rad of the fly, 1e-30 to 1e30"},
		bound{"decay of a blow", k, least, most, "2cψ/J, of 1e-30 to 1e30"},
	)
}

// Pitch is the angle (rad) that the fly turns a blow.
func (s *Strike) Pitch() float64 { return s.pitch }

// Drag is the drag couple (N·m) of the fly at 1 rad/s.
func (s *Strike) Drag() float64 { return s.drag }

// Inertia is the moment of inertia (kg·m²) of the fly.
func (s *Strike) Inertia() float64 { return s.inertia }

// KineticEnergy is that (J) of the fly at a speed (rad/s).
func (s *Strike) KineticEnergy(speed float64) float64 { return s.inertia * speed * speed / 2 }

// atPins is the torque (N·m) at the pin arbor, below 0 where drags and loads
// take more than the fusee gives.
func (s *Strike) atPins(fusee float64) float64 {
	return s.down(0, s.design.PinArbor, fusee-s.train.arbors[0].loss)
}

// atFly is the couple (N·m) at the fly for one at the pin arbor.
func (s *Strike) atFly(pin float64) float64 {
	return s.down(s.design.PinArbor, s.train.Last(), pin)
}

// down passes a torque on from one arbor to a later one.
func (s *Strike) down(from, to int, torque float64) float64 {
	for i := from; i < to; i++ {
		p := &s.steps[i]
		if torque >= 0 {
			torque = torque*p.on - p.take
		} else {
			torque = torque*p.back - p.take
		}
	}
	return torque
}

// Couples are those at the fly (N·m) for a torque (N·m) at the fusee: with the
// pin free, and while a pin of the given set lifts. They are below 0 where the
// fly drives back.
func (s *Strike) Couples(torque float64, set int) (free, lifting float64) {
	pin := s.atPins(torque)
	if set < 0 || set >= s.nSets {
		return s.atFly(pin), s.atFly(pin)
	}
	return s.atFly(pin), s.atFly(pin - s.sets[set].couple)
}
