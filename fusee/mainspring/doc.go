// Package mainspring computes the couple of a spiral spring in its barrel.
//
// # Model
//
// A strip of width w, thickness h and length L, of Young's modulus E, lies between an
// arbor of radius r and the wall of a barrel of inside radius R. I = w h³/12 is the second
// moment of its section and EI its bending stiffness. Packed coils take up k h each, k = 1
// being ideal, so that the element at s (m along the strip, from the arbor outwards) has
// the curvature (1/m)
//
//	κa(s) = 1/√(r² + k h s/π)          packed on the arbor
//	κw(s) = 1/√(R² − k h (L−s)/π)      packed on the wall
//
// Between the two every element carries the same couple M (N·m):
//
//	κ(s) = clamp(κ0(s) + M/EI, κw(s), κa(s))
//
// and the turns wound up are φ = (1/2π) ∫ (κ − κw) ds, less those at M = 0. κ0 is the
// natural curvature: zero for a strip that never set, 2πn/L for one made in n even coils,
// or what is left after the strip was first wound home and yielded (S. Timoshenko,
// Strength of Materials, from memory: elastic, perfectly plastic rectangular section):
//
//	κ0 = κa − 1.5 κy (1 − (κy/κa)²/3)   where κa > κy = 2σ/(E h), else 0
//
// with σ the stress (Pa) at which the steel flows. There κa is that of k = 1: it was wound
// home tighter than it ever lies again. A strip is wide for its thickness, so that E
// stands for EΨ and the stress σ at which it flows is up to 2/√3 of that of its steel: see
// Strip.Flatness.
//
// The turns available, from all packed on the wall to all packed on the arbor, are
//
//	N = (rw − r − R + ru)/(k h)   rw = √(r² + k h L/π)   ru = √(R² − k h L/π)
//
// less SlackTurns.
//
// Written in x = k h s/π all integrals have closed forms, and the couple at a given turn
// needs no quadrature. Each is exact for the model to 1e-9 of itself or better.
//
// # Where turns are counted from
//
// A strip that set deeply curls, let down, away from the wall at its inner end: some κ0
// exceed κw. Turns are counted from that state of rest, M = 0, because a clockmaker counts
// them from there too. Counting from "all packed on the wall" would make the first turns
// pull backwards. SlackTurns is the difference; it is zero for straight strips.
//
// # Limits
//
// What is left out: friction between coils (given as an efficiency by the caller), the
// stiffness of hooks and the bridle, and the end conditions of the strip. The couple is
// thus the even middle of what a real barrel gives. Against our own solution of one strip
// as a curve, coil by coil, without friction, it is within 3 % from the first turn to half
// a turn before the last, and its rest is some 0.1 turn further wound than here.
//
// Everything is SI, turns are whole revolutions, and angles do not occur.
//
// A wound mainspring holds tens of joules and lets them go at once: whoever fits, winds or
// lets down what was computed here does so with a winder and a let-down key, eyes and
// hands protected.
package mainspring
