// Package escapement computes the going of a clock's pendulum: the swing that
// an escapement keeps up, the least torque that does so, and the rate.
//
// There are two ways to it, each a check on the other.
//
// Clock averages over a period. With K = mgl the stiffness of the pendulum, Q
// its quality, γ half the escaping arc and τ the couple that the pallets give,
// the work of a period is 4τγ and the loss πKA²/Q, so that
//
//	A = √(4τγQ/(πK))
//
// unless driving the wheel back costs more than comes back (Escapement.Ratio), f τ for
// τ, or dead faces rub (Escapement.DeadFriction): then 4τγ − 2(f−1)τ(A − γ) = πKA²/Q,
// with 4μ(Te/rw)Rp(A − γ) for a dead beat, a quadratic.
//
// The rate follows from G. B. Airy's integral (Trans. Camb. Phil. Soc. 3, 1826) for the
// couple F at the phase ψ of x = A sin ψ:
//
//	Δω/ω = −(1/(2πAK)) ∮ F(ψ) sin ψ dψ
//
// Beats goes from beat to beat: between two events (drop, start of the impulse,
// turning point) the couple is constant, and I ẍ + c ẋ + K x = F is solved
// exactly; the moments of the events are the roots of that solution.
//
// The pallets. One pallet pushes to the right until the pendulum passes the
// release at +γ on its way out; then a tooth drops on the other pallet, which
// pushes to the left until −γ is passed. In a recoil escapement (anchor, and
// verge with a pendulum) the couple is always there: beyond ±γ the pendulum
// drives the wheel back. In a dead beat a tooth is held on the locking face, with
// no couple but its friction, until the pendulum comes back to where the impulse
// starts.
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
