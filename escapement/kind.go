package escapement

// Kind is how the pallets meet the teeth: Recoil, Verge or DeadBeat. There are no
// others, and a nil Kind is none of them: New refuses it.
type Kind interface {
	// String is the trade's name.
	String() string
	// latest is how far the middle of the impulse may be from the dead point,
	// for half an arc γ.
	latest(gamma float64) float64
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
// γ+late, with the losses that it makes good. It has no more fields than Go passes in
// registers: a fifth makes a rate take twice as long.
type impulse struct {
	gamma float64 // γ
	late  float64
	perQ  float64 // 1/Q
	far   float64 // 1/Widest, 0 where nothing is lost beyond the impulse
}

// extra is Escapement.costs: f − 1, or twice the friction of dead faces over τ.
func (i *impulse) extra() float64 { return 2 * i.gamma * i.far / (1 - i.gamma*i.far) }

// passes is the share of 4γτ, the work of a period, that is left after what a swing of
// semi-arc a, γ or more, takes beyond the impulse: 1 − extra (a−γ)/(2γ), which is
// (1 + extra/2)(1 − a/Widest).
func (i *impulse) passes(a float64) float64 { return (1 + i.extra()/2) * i.short(a) }

// short is 1 − a/Widest. One over it is the jump: by how much the couple changes at the
// ends of the impulse, over what it would with nothing lost beyond, for a swing kept up. The
// product is rounded, so that it is 0 at the widest where multiplying and adding is one step too.
func (i *impulse) short(a float64) float64 { return 1 - float64(a*i.far) }

// start and release are where the impulse begins and ends.
func (i *impulse) start() float64   { return i.late - i.gamma }
func (i *impulse) release() float64 { return i.late + i.gamma }
