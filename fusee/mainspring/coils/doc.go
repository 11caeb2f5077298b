// Package coils computes a spiral spring in its barrel coil by coil: the strip as one curve
// that lies against arbor, wall and itself, without friction or with its history. It checks the
// closed form of package mainspring, in which every element of the strip bends by itself, and
// tells where that errs.
//
// # Model
//
// The middle of a strip of length L and pitch h, what a coil takes up, lies at the radius r(φ)
// and the place s(φ) along the strip, φ (rad) being the angle from its inner end. It does not
// stretch, s' = √(r² + r'²), and has the curvature
//
//	κ = (r² + 2r'² − r r'')/(r² + r'²)^{3/2}
//
// Its bending energy (J), with the stiffness EI (N·m²) and the natural curvature κ0(s) (1/m),
//
//	U = ½ EI ∫ (κ − κ0(s))² ds
//
// is least under
//
//	r(φ+2π) − r(φ) ≥ h    r ≥ arbor + h/2    r ≤ inside − h/2
//
// The inner end lies along the arbor (r' = 0). The outer end lies on the wall, turned from the
// inner one by the angle Φ: Braced along it (r' = 0), Hooked free to turn (κ = κ0). The couple
// at the arbor is M = dU/dΦ (N·m).
//
// # Friction
//
// Where faces press with P (N for each m of strip) they bear up to μP along the strip, against
// their slide (C. A. Coulomb, 1785). Seen from the hook, the strip at an angle has moved by
// −Δs between two windings; its outer face by 1 + h/2r as much, its inner one by 1 − h/2r. So
// coils that turn as one body do not slide. From winding to winding the forces are those at the
// end, μP u/√(u² + ε²) at a slide u, where ε is 3·10⁻⁴ of the inside radius for each radian
// wound: it stands for the dry friction of which it is the limit (a tenth of it changes the
// couple by some 0.1 %). Where nothing slides friction takes no work, however hard it is
// pressed: coils packed on the wall stay there, coils packed on the arbor turn with it.
//
// # Discretisation
//
// Nodes lie n to a turn (Usual is 48), so that a node and the one a turn on touch at one
// angle and contact is a bound on a difference of two unknowns; the nodes of the first turn are
// stretched or pressed together by half a step in all, to meet any Φ. r' and r” are central
// differences, U a sum over nodes, each cell keeps its length √(m² + q²)Δφ (m the mean of its
// radii, q their difference over Δφ) with a multiplier, its pull. At an end held along arbor or
// wall the radius is mirrored. All is of second order in the step, which closed forms in the
// tests show. M is the derivative of this same sum.
//
// # Solution
//
// Unknowns are radius and place of each node and pull of each cell. Without friction an
// interior-point method leads a barrier −b Σ ln gap to b = 10⁻⁹ (of EI over the inside radius):
// Newton steps, of which an exact merit function takes as much as lowers it, with a correction
// of the second order. The matrix is factored as L D Lᵀ in its envelope, ordered along the
// strip: 48 nodes a turn and twenty turns take some 10 million operations. The signs of D tell
// that what was found is a minimum; the diagonal is raised until they do. Where the energy is
// more than 1 % off that of elements which bend by themselves the shape is found again from
// another start, and must be the same.
//
// With friction, forces hang on what presses: the equations, no longer those of a minimum, are
// solved together by Newton's method with an unsymmetric matrix of the same envelope, and the
// signs of D tell that it is the minimum under the forces that press. Where that fails the
// interior-point method comes near first, with forces of friction that follow what presses from
// step to step; then with ε of 10⁻²; then the stride is halved. What is not found is told as
// ErrDiverged.
//
// # Verified
//
// Against closed forms, with their order: a strip free of contact (a circle), the elastica
// clamped at one end and hinged at the other (elliptic integrals), coils packed on the arbor,
// the capstan e^{μα}; the couple against the slope of the energy (10⁻⁵); friction's work
// against the area of a loop (1 %); another solver of our own (0.5 % at 96 nodes a turn, 1 %
// at 48). Tests hold all of it.
//
// # What it shows
//
// Of a strip that set, without friction, the closed form is within 3 % from one turn to half a
// turn before the last; rest lies 0.06 turn further wound and solid 0.1 turn sooner. Of
// straight strips and evenly coiled ones its couple errs by up to a third. A hooked strip loses 3
// to 7 in 100 with μ = 0.1, and its couple rises in waves of a turn, as the last coil swings
// about its hook; one that is braced loses next to nothing until its coils pile on the arbor.
//
// # Limits
//
// The strip is plane and narrow or stiffened as a whole, without camber, and bends elastically
// from κ0. Coils touch in the direction of the radius. There is no film of oil: friction has one
// coefficient, at rest and sliding. Hook, brace and the step at the arbor's own hook are
// points. Some strips with much friction find no shape at some windings and are refused.
//
// Everything is SI, but for turns, whole revolutions of the arbor.
//
// A wound mainspring holds tens of joules and lets them go at once: whoever winds or lets down
// what was computed here does so with a winder and a let-down key, eyes and hands protected.
package coils
