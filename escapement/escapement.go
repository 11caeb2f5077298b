package escapement

import (
	"cmp"
	"math"

	"github.com/golang/geo/s1"
)

// Widest is the semi-arc up to which the formulas are offered. The linear law
// is well out by then; no pallets reach so far.
const Widest = SemiArc(math.Pi / 2)

// Escapement is a pair of pallets and a wheel; one tooth passes in a period.
type Escapement struct {
	Kind       Kind     // Recoil, Verge or DeadBeat
	Teeth      int      // of the escape wheel, 2 to 10000
	Arc        WholeArc // 2γ, over which the impulse is given: the escaping arc
	Drop       float64  // δ, share of each half pitch lost in drop, 0 to below 1
	Efficiency float64  // ηp, share of the work that the pallets pass on, above 0 to 1
	Margin     SemiArc  // wanted beyond what the pallets need, 0 or more

	// Late is how far behind the dead point the middle of the impulse is,
	// in the direction of motion, and below 0 how far before it; no more than
	// γ either way. Dead beat only: a lock λ on the pallets makes it λ/2, since
	// the impulse then runs from −γ+λ/2 to γ+λ/2.
	Late s1.Angle

	// Ratio is f, a pure number: the couple against which the pendulum drives pallets and wheel back
	// beyond the release, over the couple that it gets back coming in, 1 or more:
	// 1/(ηp² ηt²) with ηp that of the pallets and ηt of the meshes moved with it. Recoil
	// and verge only; 0 stands for 1, a recoil that costs nothing.
	Ratio float64

	// DeadFriction is the friction coefficient μ of dead faces at the radius PalletRadius
	// (m) about the pallets' centre, pressed by the tooth at WheelRadius (m), 0 to 2: they
	// take 4 μ (Te/rw) Rp (A − γ) a period. Dead beat only; 0: they do not rub.
	DeadFriction, PalletRadius, WheelRadius float64

	// Limit is the semi-arc that trips the escapement: a tooth passes both
	// pallets, or the crutch meets its bank. It depends on the pallets' length,
	// which this model does not have, so it is measured; 0 stands for 4γ, or what
	// the margin wants where that is more (common practice, no source).
	Limit SemiArc
}

// HalfArc is γ, half the arc of the impulse.
func (e *Escapement) HalfArc() SemiArc { return e.Arc.Semi() }

// Reach is the semi-arc that the pallets need to pass a tooth with the whole
// impulse: γ, and more by as much as the middle of the impulse is from the dead point.
func (e *Escapement) Reach() SemiArc { return e.HalfArc() + SemiArc(e.Late.Abs()) }

// Lever is G = (π/z)(1−δ)/(2γ), the turn of the escape wheel for one of the
// pendulum while a pallet pushes.
func (e *Escapement) Lever() float64 {
	return math.Pi / float64(e.Teeth) * (1 - e.Drop) / float64(e.Arc)
}

// Couple is τ (N·m) on the pendulum for a torque (N·m) at the escape wheel.
func (e *Escapement) Couple(torque float64) float64 {
	return torque * e.Lever() * e.Efficiency
}

// Torque is the torque (N·m) at the escape wheel for a couple on the pendulum:
// the inverse of Couple.
func (e *Escapement) Torque(couple float64) float64 {
	return couple / (e.Lever() * e.Efficiency)
}

// costs is what the swing beyond the impulse takes over what it gives back, over the
// couple of the impulse, going out and coming in together: f − 1 of a recoil, of dead
// faces twice μ (Te/rw) Rp over τ.
func (e *Escapement) costs() float64 {
	switch {
	case e.DeadFriction != 0:
		return 2 * e.DeadFriction * e.PalletRadius / (e.WheelRadius * e.Couple(1))
	case e.Ratio != 0:
		return e.Ratio - 1
	}
	return 0
}

// Widest is the semi-arc that no torque passes: there driving the wheel back, or the
// friction of dead faces, takes all that the pendulum is given: γ (f+1)/(f−1), or γ and
// γτ over the friction's couple. +Inf where neither takes anything.
func (e *Escapement) Widest() SemiArc { return e.HalfArc() * SemiArc(1+2/e.costs()) }

// Allows is the semi-arc that trips: Limit, or what stands for it.
func (e *Escapement) Allows() SemiArc {
	if e.Limit == 0 {
		return min(max(4*e.HalfArc(), e.Reach()+e.Margin), Widest)
	}
	return e.Limit
}

// Check tells with a Fault which field is out of its range.
func (e *Escapement) Check() error {
	if !known(e.Kind) {
		return Fault{"Kind", e.Kind, "Recoil, Verge or DeadBeat"}
	}
	needs := float64(e.Reach() + e.Margin)
	late := e.Kind.latest(float64(e.HalfArc()))
	err := firstFault(
		span{"Teeth", float64(e.Teeth), 2, 10000, "a whole number from 2 to 10000"},
		span{"Arc", float64(e.Arc), 1e-6, 2 * float64(Widest), "a whole arc from 1e-6 to π radians"},
		span{"Drop", e.Drop, 0, 1 - 1e-6, "a share from 0 to below 1"},
		span{"Efficiency", e.Efficiency, 1e-6, 1, "a share above 0 to 1"},
		span{"Margin", float64(e.Margin), 0, float64(Widest), "a semi-arc from 0 to π/2 radians"},
		span{"Late", float64(e.Late), -late, late, "0; for a dead beat at most half the arc either way, in radians"},
		span{"Arc with Margin", needs, 0, float64(Widest), "a semi-arc, half the arc with the margin, of at most π/2 radians"},
		span{"Limit", float64(e.Allows()), needs, float64(Widest),
			"0, or a semi-arc from half the arc with the margin to π/2 radians"},
	)
	if err != nil || e.Ratio == 0 && e.DeadFriction == 0 {
		return err
	}
	ratio, friction := e.Kind.most()
	return firstFault(
		span{"Ratio", cmp.Or(e.Ratio, 1), 1, ratio, "0 or 1; for recoil and verge up to 100"},
		span{"DeadFriction", e.DeadFriction, 0, friction, "0; for a dead beat up to 2"},
		span{"DeadFriction of its radii", e.costs(), 0, 99, "a couple of friction below 50 times that on the pendulum, and radii above 0"},
	)
}
