package fusee

import (
	"fmt"
	"math"

	"evenpull/fusee/mainspring"
	"evenpull/fusee/mainspring/rub"
	"evenpull/fusee/numeric"
)

// Wound is a drive with all that does not depend on the turn worked out. It is
// a value that shares nothing but the profile's pieces, which nothing changes unless a Room
// is used again.
type Wound struct {
	curve mainspring.Curve
	drive Drive
	rub   *rub.Coils // where coil friction is told by its coefficient; nothing changes it

	rb            float64  // radius of the line's middle on the barrel
	perRb         float64  // 1/rb
	pull, push    float64  // tension over couple (1/m) in the plane of rotation, running down and winding
	loss, perLoss float64  // share of the work that passes coils, barrel and line, and the work that winding takes
	fusee         bearing  // what the fusee's pivots lose
	half          float64  // half the line's thickness
	area          float64  // ∫ρ dθ over the whole cone (m·turn), for Cut
	even          float64  // C, ∫M dφ a fusee turn but for the fusee's pivots (N·m), for the even shapes; M past the coils where they are told by their friction
	passage       *passage // for the even shapes where what passes changes along the run; nothing changes it
	full          float64  // spring turns at the start of the run
	work          float64  // energy of the spring run down (J)
	store         float64  // energy of the spring at the start of the run (J)
	start         float64  // θ at the start of the run

	lay float64 // m along the barrel for each barrel turn, in the mean
	mid float64 // m along the axis from the fusee's small end to the hook of a grooved barrel
}

// Wind works out a drive. It fails with the errors of mainspring.New, with
// ErrProfile, ErrSetUp, ErrSlack, ErrEven, ErrThin or ErrCentre.
func (d *Drive) Wind() (w Wound, err error) {
	if w.curve, err = mainspring.New(d.Spring, d.Housing); err != nil {
		return Wound{}, err
	}
	curve := &w.curve
	w.drive, w.half = *d, d.Line.Thickness/2
	w.rb = d.Barrel.Radius + w.half
	if d.Efficiency == 0 {
		w.rub = rub.Of(curve, d.Friction, d.End)
	}
	w.bear()
	if d.Barrel.SetUp >= curve.Turns() {
		return Wound{}, fmt.Errorf("%w (set up by %.4g turns, and it has %.3f)", ErrSetUp, d.Barrel.SetUp, curve.Turns())
	}
	w.work = curve.Energy(d.Barrel.SetUp)
	if d.Cone.Shape == Cut {
		err = w.windCut()
	} else {
		err = w.windEven()
	}
	if err != nil {
		return Wound{}, err
	}
	w.store = curve.Energy(w.full)
	w.place()
	return w, nil
}

// windCut finds where the run of a given cone starts: fully wound, or where
// the spring binds.
func (w *Wound) windCut() error {
	p := &w.drive.Cone.Profile
	if len(p.pieces) == 0 {
		return ErrProfile
	}
	n := w.drive.Cone.Turns
	_, _, a := p.At(n)
	w.area = a + n*w.half
	w.full = w.turnsAt(0)
	if w.full > w.curve.Turns() {
		w.start = w.bindsAt()
		w.full = w.curve.Turns()
	}
	return nil
}

// turnsAt is φ(θ) of a given cone.
func (w *Wound) turnsAt(theta float64) float64 {
	_, _, a := w.drive.Cone.Profile.At(theta)
	return w.drive.Barrel.SetUp + (w.area-a-theta*w.half)*w.perRb
}

// bindsAt is the θ at which the spring is wound home: φ falls along θ with the
// slope −ρ/Rb.
func (w *Wound) bindsAt() float64 {
	home, n := w.curve.Turns(), w.drive.Cone.Turns
	return numeric.Newton(0, n, 0, 1e-13*n, func(theta float64) (lacks, slope float64) {
		r, _, _ := w.drive.Cone.Profile.At(theta)
		return w.turnsAt(theta) - home, (r + w.half) * w.perRb
	})
}

// State is the drive at one turn.
type State struct {
	SpringTurns float64 // φ, turns from rest
	Couple      float64 // N·m, of the spring before coil friction
	Radius      float64 // m, of the line's middle on the fusee
	Tension     float64 // N, in the line, running down
	Torque      float64 // N·m, at the fusee arbor after every loss
	Winding     float64 // N·m, at the winding square to wind here, against every loss
	Fleet       float64 // tangent of the fleet angle, towards the large end; NaN without a centre distance
}

// At gives the drive with θ turns paid out, from Start to the fusee's turns.
func (w *Wound) At(theta float64) State {
	var s State
	w.Look(theta, &s, nil)
	return s
}

// noTurns are turns from rest below which there is rounding only.
const noTurns = 1e-12

// Look is At into a State of the caller's, found faster where near was left by a look at a
// turn close by, or is the zero Near: what the run-down steps with.
func (w *Wound) Look(theta float64, s *State, near *mainspring.Near) {
	var phi, m, rho float64
	if w.drive.Cone.Shape == Cut {
		r, _, a := w.drive.Cone.Profile.At(theta)
		rho = r + w.half
		phi = w.drive.Barrel.SetUp + (w.area-a-theta*w.half)*w.perRb
		m = w.curve.CoupleNear(phi, near)
	} else {
		phi, m, rho = w.evenAt(theta)
	}
	if phi < noTurns {
		phi, m = 0, 0
	}
	given := m
	if w.rub != nil {
		given *= w.rub.Share(phi)
	}
	tension := given * w.pull
	fleet := w.fleet(theta, phi, rho)
	if w.drive.Cone.Centre > 0 {
		tension *= math.Sqrt(1 + fleet*fleet) // 1/cos β
	}
	s.SpringTurns, s.Couple, s.Radius = phi, m, rho
	s.Tension, s.Fleet = tension, fleet
	s.Torque, s.Winding = given*rho*w.perRb*w.loss, m*rho*w.perRb*w.perLoss
	if w.fusee.a > 0 {
		s.Torque = given * w.pull * w.fusee.passes(w.drive.Line.Efficiency*rho)
		s.Winding += m * w.push * w.fusee.a
	}
}

// OffTable tells whether coil friction, told by its coefficient, is beyond what its table is
// sure of: see package rub.
func (w *Wound) OffTable() bool { return w.rub != nil && w.rub.Outside }

// Curve is the spring's, a copy.
func (w *Wound) Curve() mainspring.Curve { return w.curve }

// BarrelRadius is that on which the line lies on the barrel (m), to its middle.
func (w *Wound) BarrelRadius() float64 { return w.rb }

// Start is the θ at which the run starts: 0, or, when the spring binds before
// the fusee is wound, the turns that are lost.
func (w *Wound) Start() float64 { return w.start }

// Turns is the number of fusee turns.
func (w *Wound) Turns() float64 { return w.drive.Cone.Turns }

// SpringTurns are the spring's turns used in the run.
func (w *Wound) SpringTurns() float64 { return w.full - w.drive.Barrel.SetUp }

// Work is what the spring gives up in the run, without friction (J):
// 2π∫M dφ.
func (w *Wound) Work() float64 { return w.store - w.work }

// Stored is the energy (J) in the spring at the start of the run, the set-up
// included: what is let loose when a line breaks.
func (w *Wound) Stored() float64 { return w.store }
