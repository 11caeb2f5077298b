package escapement

import "math"

// Turning is where the pendulum really turns when the average says A: the
// amplitude with the next order in 1/Q, for a swing that is kept up and reaches
// the escape. Amplitude leaves it out; what Turning leaves out goes with 1/Q².
//
// It comes from the work W(x) done from one turning point on, by the couple
// less the drag of the undisturbed swing: that changes the speed, and so the
// drag of the half period, by ∫W dψ, and A by −∫W dψ/(πKA). Closed, with
// sin α = γ/A and the impulse from ψ1 to ψ2,
//
//	recoil:    A (1 − [(π/2 − cos α)/sin α − α]/(2Q))
//	dead beat: A (1 − [cos ψ1 − cos ψ2 + ψ1 sin ψ1 − ψ2 sin ψ2]/(4Q sin α))
//
// the latter A itself when the impulse is centred.
func (c *Clock) Turning(a SemiArc) SemiArc {
	r := float64(a)
	if c.escapement.Kind == nil || !(r >= c.reach) {
		return a
	}
	return a - SemiArc(c.escapement.Kind.lag(r, c.impulse)*r)
}

// phaseOf is the phase at which a swing of amplitude a passes x on its way to
// the right; ±π/2 where a rounding puts x past a.
func phaseOf(x, a float64) float64 { return math.Asin(clamp(x/a, 1)) }
