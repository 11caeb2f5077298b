package escapement

// Kind is how the pallets meet the teeth: Recoil, Verge or DeadBeat. There are no
// others, and a nil Kind is none of them: New refuses it.
type Kind interface {
	// String is the trade's name.
	String() string
	// latest is how far the middle of the impulse may be from the dead point,
	// for half an arc γ.
	latest(gamma float64) float64
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
}

// start and release are where the impulse begins and ends.
func (i *impulse) start() float64   { return i.late - i.gamma }
func (i *impulse) release() float64 { return i.late + i.gamma }
