// Package escapement computes the going of a clock's pendulum: the swing that
// an escapement keeps up, the least torque that does so, and the rate.
//
// There are two ways to it, each a check on the other.
//
// # Averages
//
// Clock averages over a period. A (rad) is the semi-arc of the swing, K = mgl (N·m/rad) the
// stiffness of a pendulum of mass m (kg) and length l (m) under gravity g (m/s²), Q its
// quality, 2π times the energy over the loss of a period. The escape wheel of z teeth
// brings the torque Te (N·m); γ (rad) is half the escaping arc, δ the share of each half
// pitch lost in drop, ηp the efficiency of the pallets. They give the pendulum the couple
//
//	τ = Te G ηp,  G = (π/z)(1−δ)/(2γ)
//
// The work of a period is 4τγ and the loss πKA²/Q, so that
//
//	A = √(4τγQ/(πK))
//
// unless driving the wheel back costs more than comes back (Escapement.Ratio), f τ for
// τ, or dead faces rub (Escapement.DeadFriction): then, a quadratic,
//
//	4τγ − 2(f−1)τ(A − γ) = πKA²/Q
//
// with 4μ(Te/rw)Rp(A − γ) in place of the second term for a dead beat, μ being the
// friction of its faces, at the radius Rp (m) about the pallets' centre and rw (m) on the
// wheel.
//
// The rate follows from G. B. Airy's integral (Trans. Camb. Phil. Soc. 3, 1826) for the
// couple F at the phase ψ of x = A sin ψ:
//
//	Δω/ω = −(1/(2πAK)) ∮ F(ψ) sin ψ dψ
//
// and is told as T0/T − 1, T being the period and T0 that of a small undamped swing.
//
// # Beat by beat
//
// Beats goes from beat to beat: between two events (drop, start of the impulse,
// turning point) the couple F is constant, and I ẍ + c ẋ + K x = F, with I = ml² and the
// drag c = √(KI)/Q (N·m·s/rad), is solved exactly; the moments of the events are the roots
// of that solution.
//
// # The pallets
//
// One pallet pushes to the right until the pendulum passes the
// release at +γ on its way out; then a tooth drops on the other pallet, which
// pushes to the left until −γ is passed. In a recoil escapement (anchor, and
// verge with a pendulum) the couple is always there: beyond ±γ the pendulum
// drives the wheel back. In a dead beat a tooth is held on the locking face, with
// no couple but its friction, until the pendulum comes back to where the impulse
// starts.
//
// # Limits
//
// What Beats leaves out: the circular error (the restoring couple is Kx, not
// K sin x; Clock has it); the inertia of the wheels, so that the drop takes no
// time; air drag that grows faster than the speed; play between crutch and rod.
//
// Clock leaves out the same but the circular error, and the higher powers of
// 1/Q: of the amplitude all but the first, which Turning adds; of the rate what
// goes with 1/Q³, or with 1/Q² where an impulse is late. It takes the work and
// the loss of a swing as those of small arcs.
//
// Every angle is of the pendulum unless it says otherwise. A semi-arc goes from
// the dead point to one side, a whole arc from side to side; SemiArc and
// WholeArc keep them apart. Inside, everything is SI.
package escapement
