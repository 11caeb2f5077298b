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

func (recoiling) most() (ratio, friction float64) { return 100, 0 }

func (recoiling) push(x float64, i impulse) float64 {
	if x > i.release() {
		return -1 - i.extra()
	}
	return 1
}

// rate, with τ/K = πA²/(4γQ p) of a swing that is kept up, p being what passes:
// (1+f) τ cos α/(πAK) with sin α = γ/A, which is then (1+f) cot α/(4Q p); and the
// damping of a free pendulum.
func (recoiling) rate(a float64, i impulse) (couple, damping float64) {
	return legOf(a, i.gamma) * i.perQ / (2 * i.gamma * i.short(a)), -i.perQ * i.perQ / 8
}

// lag is [π/2 (1 − p sin α) − (1+f)/2 (cos α − (π/2 − α) sin α)]/(2Q p sin α) with
// sin α = γ/A and p what passes, over 1 + (f−1)/(4p sin α): a swing that falls short
// drives the wheel back less far.
func (recoiling) lag(a float64, i impulse) float64 {
	alpha, p := phaseOf(i.gamma, a), i.passes(a)
	out := (1 + i.extra()/2) * (legOf(a, i.gamma) - (math.Pi/2-alpha)*i.gamma)
	return (math.Pi/2*(a-p*i.gamma) - out) / (2*p*i.gamma + i.extra()*a/2) * i.perQ
}

func (recoiling) legs(rest float64, i impulse) ([3]stretch, int) {
	return [3]stretch{{rest: rest, target: i.release()}, {rest: -rest * (1 + i.extra()), turns: true}}, 2
}
