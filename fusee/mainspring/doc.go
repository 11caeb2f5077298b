// Package mainspring computes the couple of a spiral spring in its barrel.
//
// # Model
//
// A strip of length L and thickness h lies between an arbor of radius r and
// the wall of a barrel of inside radius R. Packed coils take up k h each, k = 1 being
// ideal, so that the element at s (from the arbor outwards) has the curvature
//
//	κa(s) = 1/√(r² + k h s/π)          packed on the arbor
//	κw(s) = 1/√(R² − k h (L−s)/π)      packed on the wall
//
// Between the two every element carries the same couple M:
//
//	κ(s) = clamp(κ0(s) + M/EI, κw(s), κa(s))
//
// with κ0 the natural curvature: zero for a strip that never set, even coils,
// or what is left after the strip was first wound home and yielded
// (S. Timoshenko, Strength of Materials: elastic, perfectly plastic
// rectangular section):
//
//	κ0 = κa − 1.5 κy (1 − (κy/κa)²/3)   where κa > κy = 2σ/(E h)
//
// There κa is that of k = 1: it was wound home tighter than it ever lies again. A strip
// is wide for its thickness, so that E stands for EΨ and the stress σ at which it flows
// is up to 2/√3 of that of its steel: see Strip.Flatness.
//
// Written in x = k h s/π all integrals have closed forms, and the couple at a given turn
// needs no quadrature.
//
// # Where turns are counted from
//
// A strip that set deeply curls, let down, away from the wall at its inner
// end: some κ0 exceed κw. Turns are counted from that state of rest, M = 0,
// because a clockmaker counts them from there too. Counting from "all packed
// on the wall" would make the first turns pull backwards. SlackTurns is the
// difference; it is zero for straight strips.
//
// What is left out: friction between coils (given as an efficiency by the
// caller), the stiffness of hooks and the bridle, and the end conditions of the strip.
// The couple is thus the even middle of what a real barrel gives.
package mainspring
