package train

import "math"

// Fly is the air brake at the end of a striking train: flat vanes along the
// arbor, square to their path.
type Fly struct {
	Vanes           int     // 1 or more, all alike
	Width           float64 // m, of a vane along the arbor
	Inner, Outer    float64 // m, from the arbor's axis to where a vane begins and ends
	Thickness       float64 // m, of a vane
	Density         float64 // kg/m³, of the vanes
	DragCoefficient float64 // Cd, a pure number, of a vane across the stream: 1.17 to 1.98 (S. F. Hoerner, Fluid-Dynamic Drag; from memory)
	Inertia         float64 // kg·m², at the fly arbor; 0 to have it computed
}

// Drag is the couple c (N·m) that the air takes at 1 rad/s, for its density ρ
// (kg/m³): at ω it is c ω². Each strip of a vane is taken as a plate across its
// own stream at rω, so that, over the vanes of width w from ri to ro,
//
//	c = ½ ρ Cd Σ w (ro⁴ − ri⁴)/4
//
// The air is taken to be at rest: what one vane drags along for the next, and
// the cage of the clock around it, are left to the coefficient.
func (f Fly) Drag(airDensity float64) float64 {
	ring := (f.Outer - f.Inner) * (f.Outer + f.Inner) * (f.Outer*f.Outer + f.Inner*f.Inner)
	return 0.5 * airDensity * f.DragCoefficient * float64(f.Vanes) * f.Width * ring / 4
}

// MomentOfInertia is that (kg·m²) of the fly about its arbor: the given one, or
// that of the vanes as plates whose middle plane holds the axis, exactly
//
//	J = Σ ρ w t ((ro³ − ri³)/3 + (ro − ri) t²/12)
//
// for r² + y² over a plate of density ρ and width w, from ri to ro, that reaches
// t/2 to either side. The arbor, its pinion and the hub are not in it.
func (f Fly) MomentOfInertia() float64 {
	if f.Inertia != 0 {
		return f.Inertia
	}
	o, i, t := f.Outer, f.Inner, f.Thickness
	return f.Density * float64(f.Vanes) * f.Width * t * (o - i) * ((o*o+o*i+i*i)/3 + t*t/12)
}

// check finds what is wrong with a fly in air of a density.
func (f Fly) check(airDensity float64) error {
	if err := firstFault(ErrNoFly,
		bound{"fly vanes", float64(f.Vanes), 1, 1e6, "1 or more"},
		bound{"fly width", f.Width, tiny, 1e3, "m, above 0"},
		bound{"fly inner radius", f.Inner, 0, 1e3, "m, 0 or more"},
		bound{"fly outer radius", f.Outer, math.Nextafter(f.Inner, 2e3), 1e3, "m, above the inner radius"},
		bound{"fly drag coefficient", f.DragCoefficient, tiny, 1e3, "above 0"},
		bound{"air density", airDensity, tiny, 1e5, "kg/m³, above 0"},
	); err != nil {
		return err
	}
	if err := firstFault(ErrInertia, bound{"fly inertia", f.Inertia, 0, 1e9, "kg·m², above 0, or 0 to have it computed"}); err != nil {
		return err
	}
	if f.Inertia > 0 {
		return nil
	}
	return firstFault(ErrInertia,
		bound{"fly thickness", f.Thickness, tiny, 1e3, "m, above 0, or a fly inertia"},
		bound{"fly density", f.Density, tiny, 1e6, "kg/m³, above 0, or a fly inertia"},
	)
}
