package escapement

import (
	"math"

	"evenpull/fusee/numeric"
)

// airyPoints is a Gauss–Legendre rule: a constant table.
var airyPoints = numeric.NewGauss(32)

// AiryRate is the share by which a small couple F (N·m) that comes back every
// period hastens a pendulum of stiffness K (N·m/rad) and amplitude A:
//
//	Δω/ω = −(1/(2πAK)) ∮ F(ψ) sin ψ dψ,  x = A sin ψ
//
// (G. B. Airy, "On the disturbances of pendulums and balances", Trans. Camb.
// Phil. Soc. 3, 1826). The corners are the phases at which F jumps, rising
// from the first to the last, which is a turn (2π) further; between them F is
// taken to be smooth and Gauss's rule of 32 points is used. It is 0 where
// fewer than two corners leave nothing to integrate.
func AiryRate(couple func(phase float64) float64, corners []float64, a SemiArc, stiffness float64) float64 {
	sum := 0.0
	f := func(psi float64) float64 { return couple(psi) * math.Sin(psi) }
	for i := 1; i < len(corners); i++ {
		sum += airyPoints.Over(corners[i-1], corners[i], f)
	}
	return -sum / (2 * math.Pi * float64(a) * stiffness)
}

// CoupleAt is the couple (N·m) on a pendulum that swings as x = A sin ψ, at the
// phase ψ, for a torque (N·m) at the escape wheel. The swing is to reach the
// escape.
func (c *Clock) CoupleAt(phase float64, a SemiArc, torque float64) float64 {
	if c.escapement.Kind == nil {
		return 0
	}
	tau, x := c.couple*torque, float64(a)*math.Sin(phase)
	if math.Cos(phase) < 0 { // the swing to the left is the mirror of the other
		x, tau = -x, -tau
	}
	return tau * c.escapement.Kind.push(x, c.impulse)
}

// corners are the phases at which CoupleAt jumps, from one end of the swing to
// the same end a period later.
func (c *Clock) corners(a float64) []float64 {
	start, end := phaseOf(c.start(), a), phaseOf(c.release(), a)
	return []float64{-math.Pi / 2, start, end, math.Pi / 2, math.Pi + start, math.Pi + end, 3 * math.Pi / 2}
}

// EscapementRate is the Escapement part of Rate (a pure number) for a torque (N·m) at the
// escape wheel, by quadrature of Airy's integral over CoupleAt rather than in closed form.
// It is 0 for a clock that does not go.
func (c *Clock) EscapementRate(torque float64) float64 {
	a, s := c.Amplitude(torque)
	if !s.Goes() {
		return 0
	}
	f := func(psi float64) float64 { return c.CoupleAt(psi, a, torque) }
	return AiryRate(f, c.corners(float64(a)), a, c.stiff)
}
