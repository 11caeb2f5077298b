package mainspring

import "math"

// Bending is how the strip bends across its width.
type Bending uint8

const (
	Wide   Bending = iota // as its width, thickness and curvature have it
	Narrow                // curls freely across its width: EI
	Plate                 // held flat across its width: EI/(1−ν²)
)

// Flatness is how far the strip, bent to the curvature (1/m), is held flat across its
// width: 0 for a narrow one that curls freely, 1 for a plate.
//
// With z its deflection across the width, D = E h³/(12(1−ν²)) and ν Poisson's ratio, the hoop
// stretch that curling costs bends the strip back by D z⁗ + E h κ² z = 0 with free edges,
// z″ = −νκ and z‴ = 0. Closed, with w the width (G. F. C. Searle, Experimental Elasticity,
// 1908; D. G. Ashwell, J. R. Aeronaut. Soc. 54, 1950):
//
//	M = EI Ψ κ    Ψ = (1 − ν²(F + θF'/4))/(1 − ν²) = 1 + p ν²/(1 − ν²)
//	F = (2/θ)(cosh θ − cos θ)/(sinh θ + sin θ)    θ = (3(1−ν²))^¼ √(w²κ/h)
//
// with p = 1 − F − θF'/4, which this is. θ of clock springs is 10 to 30.
func (s *Strip) Flatness(curvature float64) float64 {
	switch s.Bending {
	case Narrow:
		return 0
	case Plate:
		return 1
	}
	theta := math.Sqrt(math.Sqrt(3*(1-s.Poisson*s.Poisson)) * s.Width * s.Width * curvature / s.Thickness)
	if theta < 0.1 { // the difference from 1 has no figures left
		return theta * theta * theta * theta / 90
	}
	// Over e^θ/2, which overflows where this does not.
	sin, cos := math.Sincos(theta)
	fall := math.Exp(-theta)
	cosh, sinh := 1+fall*fall, 1-fall*fall
	sin, cos = 2*fall*sin, 2*fall*cos
	f := 2 / theta * (cosh - cos) / (sinh + sin)
	return 0.5 - 0.75*f + (cosh-cos)*(cosh+cos)/(2*(sinh+sin)*(sinh+sin))
}

// stiffened is Ψ at a flatness: how much stiffer than EI the strip is.
func (s *Strip) stiffened(flat float64) float64 {
	return 1 + flat*s.Poisson*s.Poisson/(1-s.Poisson*s.Poisson)
}

// planeStrain is the flow stress of steel held from narrowing over that of a narrow
// strip (von Mises; plastic strain keeps the volume, so that ν is ½).
func planeStrain(flat float64) float64 { return 1 + flat*(2/math.Sqrt(3)-1) }
