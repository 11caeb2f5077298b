// Package train computes how wheels and pinions carry torque and speed from the fusee to
// the last arbor, and how a striking train strikes.
//
// # Wheels
//
// The arbors are numbered from 0, that of the fusee and great wheel. A mesh of a wheel of
// Z teeth driving a pinion of z passes on, of a torque T (N·m),
//
//	T' = T (z/Z) η − d
//
// with η the share of the work passed on and d (N·m) a steady drag on the driven arbor;
// speed goes up by Z/z. A standing load (N·m) at an arbor is taken off there. New makes a
// Train of them. The efficiency is given, or comes from friction (FrictionEfficiency).
//
// # Striking
//
// NewStrike makes a Strike: pins that lift hammers on one arbor, and a fly that brakes on
// the last. Its steady cadence and its strikes from rest are closed forms of one equation,
// which stands with its assumptions and what it leaves out at Strike. The drag of the fly
// rests on a coefficient for which handbooks have that of a plate in a free stream; the
// air near a fly turns with it, so that a cadence predicted from such a coefficient is
// good to 25 % (common practice, no source). One timed strike fixes it (Strike.DragFor).
//
// # Limits
//
// Torque and speed are means over a tooth: what teeth, eccentric wheels and bent pivots do
// within a turn is left out, and so is friction that changes with the load beyond η.
//
// Everything is SI but speeds of arbors, which are turns for one of the fusee.
package train

import (
	"errors"
	"math"
)

// Most is the greatest number of meshes a train may have.
const Most = 64

// Mesh is a wheel driving a pinion.
type Mesh struct {
	Wheel, Pinion int     // teeth
	Efficiency    float64 // share of the work passed on, above 0 to 1
	Drag          float64 // N·m, on the driven arbor
}

// Load is a standing load at an arbor (N·m); 0 is the fusee's.
type Load struct {
	Arbor  int     // from 0, the fusee's
	Torque float64 // N·m, 0 or more
}

// Ratio is the number of turns of the driven arbor for one of the driver.
func (m Mesh) Ratio() float64 { return float64(m.Wheel) / float64(m.Pinion) }

// ToothLoss is the share of the work lost in the friction of a mesh (0 to 1):
//
//	π μ (1/z₁ + 1/z₂) (1 − ε + ε₁² + ε₂²),  ε = ε₁ + ε₂
//
// with ε₁ and ε₂ the contact ratios of approach and recess, of involute teeth and
// those that slide like them (G. Niemann and H. Winter, Maschinenelemente II; from
// memory).
func ToothLoss(mu float64, z1, z2 int, approach, recess float64) float64 {
	e := 1 - (approach + recess) + approach*approach + recess*recess
	return math.Pi * mu * (1/float64(z1) + 1/float64(z2)) * e
}

// FrictionEfficiency is the efficiency of a clock mesh with the coefficient of
// friction μ: ToothLoss with a contact ratio of 1, all of it recess, as cycloidal
// teeth touch when a wheel drives a pinion. Integrated over those, the efficiency comes
// out less by 0.001 at eight leaves to 0.008 at six (our own computation).
// It is below 0 when friction would jam the mesh.
func FrictionEfficiency(mu float64, wheel, pinion int) float64 {
	return 1 - ToothLoss(mu, wheel, pinion, 0, 1)
}

// ErrTrain: a mesh or load is out of range.
var ErrTrain = errors.New("a train needs at most 64 meshes of positive tooth counts, efficiencies above 0 to 1, and loads at its own arbors, none negative")

// Train is a compiled train: for every arbor the speed, and the straight line
// by which its torque depends on that of the fusee. It is a value.
type Train struct {
	arbors [Most + 1]arbor
	n      int
}

type arbor struct {
	speed float64 // turns a fusee turn
	gain  float64 // torque here = gain × fusee torque − loss
	loss  float64
}

// New compiles meshes, in order from the great wheel, and loads. It fails with
// ErrTrain.
func New(meshes []Mesh, loads []Load) (Train, error) {
	var t Train
	if err := t.Make(meshes, loads); err != nil {
		return Train{}, err
	}
	return t, nil
}

// Make is New in place of the train that was. After an error there is none.
func (t *Train) Make(meshes []Mesh, loads []Load) error {
	t.n = 0
	if len(meshes) > Most {
		return ErrTrain
	}
	t.arbors[0] = arbor{speed: 1, gain: 1, loss: loadAt(loads, 0)}
	for i, m := range meshes {
		if m.Wheel < 1 || m.Pinion < 1 || !(m.Efficiency > 0 && m.Efficiency <= 1) || !(m.Drag >= 0) {
			return ErrTrain
		}
		a, ratio := t.arbors[i], m.Ratio()
		pass := m.Efficiency / ratio
		t.arbors[i+1] = arbor{
			speed: a.speed * ratio,
			gain:  a.gain * pass,
			loss:  a.loss*pass + m.Drag + loadAt(loads, i+1),
		}
	}
	for _, l := range loads {
		if l.Arbor < 0 || l.Arbor > len(meshes) || !(l.Torque >= 0) {
			return ErrTrain
		}
	}
	t.n = len(meshes) + 1
	return nil
}

func loadAt(loads []Load, arbor int) float64 {
	sum := 0.0
	for _, l := range loads {
		if l.Arbor == arbor {
			sum += l.Torque
		}
	}
	return sum
}

// Arbors is the number of arbors, the fusee's included.
func (t *Train) Arbors() int { return t.n }

// Last is the number of the last arbor.
func (t *Train) Last() int { return t.n - 1 }

// Speed is the turns of an arbor for one turn of the fusee.
func (t *Train) Speed(arbor int) float64 { return t.arbors[arbor].speed }

// Gain is the share of the fusee's torque that arrives at an arbor, before
// drags and loads.
func (t *Train) Gain(arbor int) float64 { return t.arbors[arbor].gain }

// Torque is the torque (N·m) left at an arbor when the fusee gives the given
// one. It is 0 where drags and loads use up all of it: the train stands.
func (t *Train) Torque(arbor int, fusee float64) float64 {
	a := &t.arbors[arbor]
	left := a.gain*fusee - a.loss
	if left < 0 {
		return 0
	}
	return left
}

// Needs is the torque (N·m) at the fusee that leaves the given one at an
// arbor: the inverse of Torque.
func (t *Train) Needs(arbor int, torque float64) float64 {
	a := &t.arbors[arbor]
	return (torque + a.loss) / a.gain
}
