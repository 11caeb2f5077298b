package escapement

import "math"

// DeadBeat holds the tooth, between two impulses, on a face about the pallets'
// centre: the wheel stands still.
type DeadBeat struct{}

// String is the trade's name.
func (DeadBeat) String() string { return "dead beat" }

func (DeadBeat) latest(gamma float64) float64 { return gamma }

func (DeadBeat) costliest() float64 { return 0 }

func (DeadBeat) push(x float64, i impulse) float64 {
	if x > i.release() || x < i.start() {
		return 0
	}
	return 1
}

// rate is Airy's integral over the impulse, closed: (τ/(πAK)) (cos ψ2 − cos ψ1)
// with A sin ψ = −γ+late and γ+late at its start and end and τ/K = πA²/(4γQ); 0
// when it is centred. The damping is −bracket/(4Q²).
func (DeadBeat) rate(a float64, i impulse) (couple, damping float64) {
	if i.late != 0 {
		couple = (legOf(a, i.release()) - legOf(a, i.start())) * i.cot / 2
	}
	return couple, -i.perQ * i.perQ * bracket(a, i.gamma) / 4
}

// lag is [cos ψ1 − cos ψ2 + ψ1 sin ψ1 − ψ2 sin ψ2]/(4Q sin α) with sin α = γ/A,
// from ψ1 to ψ2 the impulse; 0 when that is centred.
func (DeadBeat) lag(a float64, i impulse) float64 {
	if i.late == 0 {
		return 0
	}
	start, end := i.start(), i.release()
	k := legOf(a, start) - legOf(a, end) + start*phaseOf(start, a) - end*phaseOf(end, a)
	return k / i.gamma * i.perQ / 4
}

func (DeadBeat) legs(rest float64, i impulse) ([3]stretch, int) {
	return [3]stretch{{target: i.start()}, {rest: rest, target: i.release()}, {turns: true}}, 3
}

// bracket is the dead beat's second order, of the impulse over ±γ and the
// damping together:
//
//	Δω/ω = −(1/(4Q²)) [3/2 − α cot α − (π/2−α) tan α],  sin α = γ/A
//
// It falls out of the same average as Airy's integral taken one order further:
// in r, ψ with x = r sin ψ, the first order of r(ψ) shifts the ends of the
// impulse and weighs the couple anew. At both ends, a short impulse and one
// over the whole swing, it is ½, that of a free pendulum: −1/(8Q²).
func bracket(a, gamma float64) float64 {
	leg := legOf(a, gamma)
	if leg < 1e-9*a {
		return 0.5
	}
	alpha := math.Atan(gamma / leg)
	return 1.5 - alpha*leg/gamma - (math.Pi/2-alpha)*gamma/leg
}
