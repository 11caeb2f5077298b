package escapement

// Kind is how the pallets meet the teeth: Recoil, Verge or DeadBeat. There are no
// others, and a nil Kind is none of them: New refuses it.
type Kind interface {
	// String is the trade's name.
	String() string
	// latest is how far the middle of the impulse may be from the dead point,
	// for half an arc γ.
	latest(gamma float64) float64
	// costs is what the swing beyond the impulse takes over what it gives back, over
	// the couple of the impulse, going out and coming in together.
	costs(e Escapement) float64
	// most is the greatest ratio of recoil and the greatest friction of dead faces.
	most() (ratio, friction float64)
	// push is the couple on the pendulum at x in a swing to the right, as a share
	// of that of the impulse.
	push(x float64, i impulse) float64
	// rate is the share by which the couple, and then the loss and its making
	// good, hasten a swing kept up to the semi-arc a.
	rate(a float64, i impulse) (couple, damping float64)
	// lag is the share of the semi-arc a by which the turning point falls short
	// of the average, for a swing that reaches the escape.
	lag(a float64, i impulse) float64
	// legs are those of a swing to the right and their number; rest is where the
	// couple would hold the pendulum.
	legs(rest float64, i impulse) ([3]stretch, int)
}

// known tells whether a Kind is one of them: a pointer to one is not, nor is nil.
func known(k Kind) bool {
	switch k.(type) {
	case Recoil, Verge, DeadBeat:
		return true
	}
	return false
}

// impulse is where in the swing to the right the pallet pushes, from −γ+late to
// γ+late, with the loss that it makes good.
type impulse struct {
	gamma float64 // γ
	late  float64
	perQ  float64 // 1/Q
	cot   float64 // 1/(2γQ)
	extra float64 // what costs tells: f − 1, or twice the friction of dead faces over τ
}

// passes is the share of 4γτ, the work of a period, that is left after what a swing of
// semi-arc a beyond the impulse takes: 1 − extra (A−γ)/(2γ).
func (i *impulse) passes(a float64) float64 {
	if i.extra == 0 {
		return 1
	}
	return 1 - i.extra*max(a-i.gamma, 0)/(2*i.gamma)
}

// jump is by how much the couple changes at the ends of the impulse, over what it would
// with nothing lost beyond, for a swing kept up to the semi-arc a: (1 + extra/2)/passes.
func (i *impulse) jump(a float64) float64 {
	if i.extra == 0 {
		return 1
	}
	return (1 + i.extra/2) / i.passes(a)
}

// start and release are where the impulse begins and ends.
func (i *impulse) start() float64   { return i.late - i.gamma }
func (i *impulse) release() float64 { return i.late + i.gamma }
