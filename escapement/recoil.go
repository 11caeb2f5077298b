package escapement

import "math"

// Recoil is the anchor: the wheel is driven back beyond the release.
type Recoil struct{ recoiling }

// Verge is the verge with a pendulum: the same law, wider arcs.
type Verge struct{ recoiling }

// String is the trade's name.
func (Recoil) String() string { return "recoil" }

// String is the trade's name.
func (Verge) String() string { return "verge" }

// recoiling is the law of a couple that is always there: it drives the pendulum
// out to the release and back beyond it.
type recoiling struct{}

func (recoiling) latest(float64) float64 { return 0 }

func (recoiling) push(x float64, i impulse) float64 {
	if x > i.release() {
		return -1
	}
	return 1
}

// rate, with τ/K = πA²/(4γQ) of a swing that is kept up: 2τ cos α/(πAK) with
// sin α = γ/A, which is then cot α/(2Q); and the damping of a free pendulum.
func (recoiling) rate(a float64, i impulse) (couple, damping float64) {
	return legOf(a, i.gamma) * i.cot, -i.perQ * i.perQ / 8
}

// lag is [(π/2 − cos α)/sin α − α]/(2Q) with sin α = γ/A.
func (recoiling) lag(a float64, i impulse) float64 {
	alpha := phaseOf(i.gamma, a)
	return ((math.Pi/2*a-legOf(a, i.gamma))/i.gamma - alpha) * i.perQ / 2
}

func (recoiling) legs(rest float64, i impulse) ([3]stretch, int) {
	return [3]stretch{{rest: rest, target: i.release()}, {rest: -rest, turns: true}}, 2
}
