// Package fusee computes the drive of a clock: mainspring, barrel, line and
// fusee together.
//
// θ counts the fusee turns paid out: 0 fully wound, with the line at the small
// end, n run down. ρ is the radius of the line's middle on the fusee, Rb that
// on the barrel, φ the turns of the spring. The line is shared, so
//
//	φ(θ)  = φs + (1/Rb) ∫θ..n ρ dθ
//	Tf(θ) = η M(φ(θ)) · ηl · ρ(θ)/Rb
//
// with φs the set-up turns, η the coil friction, ηl the line's losses.
//
// The line runs at a fleet angle β to the plane of rotation, the same at both
// ends since the arbors are parallel: F cos β · Rb = η M and Tf = F cos β · ρ.
// The angle raises the tension and does not change the torque: ∫Tf dθ = ∫M dφ
// without losses.
//
// Where the pivots are known the barrel turns on its arbor and the fusee on its pivots
// under the pull of the line, μ their friction, rb and rp their radii:
//
//	F  = η M/(Rb + μ rb)
//	Tf = ηl F ρ − μ rp |F + W|,  W = Tf/rg
//
// with W the push of the pinion on the great wheel, of radius rg, at an angle to the
// line. Winding frees the great wheel, W = 0, and turns every loss round.
//
// What is left out: stretch of the line, its stiffness in bending beyond ηl,
// friction in the flanks of the groove, and the dead turn at the barrel hook.
package fusee
