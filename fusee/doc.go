// Package fusee computes the drive of a clock: mainspring, barrel, line and fusee
// together.
//
// # Model
//
// θ counts the fusee turns paid out: 0 fully wound, with the line at the small end, n run
// down. ρ (m) is the radius of the line's middle on the fusee, Rb (m) that on the barrel,
// φ the turns of the spring and M(φ) its couple (N·m), of package mainspring. The line is
// shared, so
//
//	φ(θ)  = φs + (1/Rb) ∫θ..n ρ dθ
//	Tf(θ) = η M(φ(θ)) · ηl · ρ(θ)/Rb
//
// with Tf the torque at the fusee (N·m), φs the set-up turns, η the share of the couple
// that coil friction leaves and ηl that of the work that the line passes on. To wind takes
// M/η · 1/ηl · ρ/Rb. Where φ(0) would be more than the turns of the spring it binds
// before the fusee is wound, and the run starts at the θ where it does (Wound.Start).
//
// The line runs at a fleet angle β to the plane of rotation, the same at both ends since
// the arbors are parallel: with the tension F (N), F cos β · Rb = η M and
// Tf = F cos β · ρ. The angle raises the tension and does not change the torque:
// ∫Tf dθ = ∫M dφ without losses.
//
// Where the pivots are known the barrel turns on its arbor and the fusee on its pivots
// under the pull of the line, μ their friction, rb and rp their radii (m):
//
//	F  = η M/(Rb + μ rb)            in the plane of rotation
//	Tf = ηl F ρ − μ rp |F + W|,     W = Tf/rg
//
// with W (N) the push of the pinion on the great wheel, of radius rg (m), at an angle to
// the line. Winding frees the great wheel, W = 0, and turns every loss round.
//
// # Shape of the fusee
//
// A cone has a measured profile, is straight, or is even: the one that makes Tf constant.
// Without pivots that is ρ = C Rb/M with C = ∫M dφ/n (N·m), since dφ/dθ = −C/M along it:
// no differential equation is solved.
//
// # Limits
//
// What is left out: stretch of the line, its stiffness in bending beyond ηl, friction in
// the flanks of the groove, and the dead turn at the barrel hook. Lengths, angles and
// torques follow from elementary statics and geometry; what rests on common practice or
// on trials of our own says so at its name.
//
// Everything is SI, turns are whole revolutions.
package fusee
