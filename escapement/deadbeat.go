package escapement

import "math"

// DeadBeat holds the tooth, between two impulses, on a face about the pallets'
// centre: the wheel stands still, and the face may rub.
type DeadBeat struct{}

// String is the trade's name.
func (DeadBeat) String() string { return "dead beat" }

func (DeadBeat) latest(gamma float64) float64 { return gamma }

func (DeadBeat) most() (ratio, friction float64) { return 1, 2 }

func (DeadBeat) push(x float64, i impulse) float64 {
	if x > i.release() || x < i.start() {
		return -i.extra() / 2
	}
	return 1
}

// rate is Airy's integral, closed: (τ+D)(cos ψ2 − cos ψ1)/(πAK) with A sin ψ = −γ+late
// and γ+late at start and end of the impulse, D the couple of the dead faces' friction
// and τ/K = πA²/(4γQ p) of a swing that is kept up, p being what passes; 0 when it is
// centred. The damping is −bracket/(4Q²).
func (DeadBeat) rate(a float64, i impulse) (couple, damping float64) {
	if i.late != 0 {
		couple = (legOf(a, i.release()) - legOf(a, i.start())) * i.perQ / (4 * i.gamma * i.short(a))
	}
	return couple, -i.perQ * i.perQ * bracket(a, i.gamma, i.far) / 4
}

// lag is [cos ψ1 − cos ψ2 + ψ1 sin ψ1 − ψ2 sin ψ2]/(4Q sin α) with sin α = γ/A,
// from ψ1 to ψ2 the impulse, times the jump and over 1 + extra/(4p sin α), since a swing
// that falls short rubs less far; 0 when the impulse is centred.
func (DeadBeat) lag(a float64, i impulse) float64 {
	if i.late == 0 {
		return 0
	}
	start, end := i.start(), i.release()
	k := legOf(a, start) - legOf(a, end) + start*phaseOf(start, a) - end*phaseOf(end, a)
	return k / i.gamma * i.perQ / (4 * i.short(a)) / (1 + i.extra()*a/(4*i.passes(a)*i.gamma))
}

func (DeadBeat) legs(rest float64, i impulse) ([3]stretch, int) {
	rubs := -rest * i.extra() / 2
	return [3]stretch{{rest: rubs, target: i.start()}, {rest: rest, target: i.release()}, {rest: rubs, turns: true}}, 3
}

// bracket is the dead beat's second order, of the impulse over ±γ and the
// damping together:
//
//	Δω/ω = −(1/(4Q²)) [½ + q (1 − α cot α − (π/2−α) tan α) + (π/2) q(q−1) cos α/(1 + sin α)]
//
// with sin α = γ/A and q the jump, 1 where dead faces do not rub. It falls
// out of the same average as Airy's integral taken one order further: in r, ψ with
// x = r sin ψ, the first order of r(ψ) shifts the ends of the impulse and weighs the couple
// anew. With q = 1 it is at both ends, a short impulse and one over the whole swing, ½,
// that of a free pendulum: −1/(8Q²).
func bracket(a, gamma, far float64) float64 {
	leg := legOf(a, gamma)
	if leg < 1e-9*a {
		return 0.5
	}
	tan, cot := gamma/leg, leg/gamma
	alpha := math.Atan(tan)
	less := alpha*cot + (math.Pi/2-alpha)*tan
	if far == 0 {
		return 1.5 - less
	}
	q := 1 / (1 - a*far)
	return 0.5 + q*(1-less+math.Pi/2*(q-1)*leg/(a+gamma))
}
