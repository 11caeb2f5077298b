package mainspring

import (
	"errors"
	"fmt"
	"math"
)

// Form is the natural form of the strip: the shape it takes lying free.
type Form uint8

const (
	Straight Form = iota // never set: no curvature when free
	Coils                // lies free in evenly spread coils
	Set                  // set by yielding when it was first wound home
)

// Strip is a mainspring. All in SI.
type Strip struct {
	Width     float64 // m, along the arbor
	Thickness float64 // m
	Length    float64 // m, between arbor and barrel wall
	Modulus   float64 // Pa, Young's modulus
	Plate     bool    // a wide strip held flat across its width bends as a plate
	Poisson   float64 // used by Plate
	Form      Form
	FreeCoils float64 // used by Coils
	Yield     float64 // Pa, used by Set
}

// Housing is the room the strip works in. Both in metres.
type Housing struct {
	Arbor  float64 // radius of the arbor where the strip lies on it
	Inside float64 // inside radius of the barrel
}

// Errors that New returns for a strip that cannot be.
var (
	ErrGeometry     = errors.New("every dimension must be a positive, finite number and the arbor smaller than the barrel")
	ErrTooLong      = errors.New("the strip is too long for the barrel")
	ErrTooManyCoils = errors.New("the strip lies free in more coils than it has outside when wound home: it has no couple to give")
)

// stiffModulus is E as it acts in bending: E, or E/(1−ν²) for a plate.
func (s *Strip) stiffModulus() float64 {
	if s.Plate {
		return s.Modulus / (1 - s.Poisson*s.Poisson)
	}
	return s.Modulus
}

// YieldStress is the stress along the strip at which it yields (Pa): σy, or
// for a plate, in plane strain, σy/√(1−ν+ν²) after von Mises. NaN unless the
// form is Set.
func (s *Strip) YieldStress() float64 {
	if s.Form != Set {
		return math.NaN()
	}
	if s.Plate {
		return s.Yield / math.Sqrt(1-s.Poisson+s.Poisson*s.Poisson)
	}
	return s.Yield
}

// Stiffness is the bending stiffness EI of the strip (N·m²):
// E w h³/12, for a plate E w h³/(12 (1−ν²)).
func (s *Strip) Stiffness() float64 {
	return s.stiffModulus() * s.Width * s.Thickness * s.Thickness * s.Thickness / 12
}

// YieldCurvature is κy = 2σy/(E h) (1/m): bent more sharply the strip sets.
// NaN unless the form is Set.
func (s *Strip) YieldCurvature() float64 {
	return 2 * s.YieldStress() / (s.stiffModulus() * s.Thickness)
}

// Fill is the share of the free area of the barrel that the strip takes up.
// The turns are greatest at one half.
func (s *Strip) Fill(in Housing) float64 {
	return s.Thickness * s.Length / freeArea(in)
}

// LongestFor is the length (m) at which a strip of this thickness would fill
// the barrel completely.
func (s *Strip) LongestFor(in Housing) float64 { return freeArea(in) / s.Thickness }

// HalfAreaTurns are the turns that a strip filling half the free area makes
// available, the most that the barrel can give:
// (√(2(R²+r²)) − R − r)/h (SAE Spring Design Manual and other texts on power
// springs print the same).
func HalfAreaTurns(in Housing, thickness float64) float64 {
	r, R := in.Arbor, in.Inside
	return (math.Sqrt(2*(R*R+r*r)) - R - r) / thickness
}

func freeArea(in Housing) float64 {
	return math.Pi * (in.Inside - in.Arbor) * (in.Inside + in.Arbor)
}

// check tells why strip and housing cannot make a spring, nil if they can.
func (s *Strip) check(in Housing) error {
	least := min(s.Width, s.Thickness, s.Length, s.stiffModulus(), in.Arbor, in.Inside-in.Arbor)
	most := max(s.Width, s.Thickness, s.Length, s.stiffModulus(), in.Inside)
	if !(least > 0) || math.IsInf(most, 1) { // of NaN either is NaN
		return ErrGeometry
	}
	if s.Form == Set && (!(s.Yield > 0) || math.IsInf(s.Yield, 1)) {
		return ErrGeometry
	}
	if s.Form == Coils && !(s.FreeCoils >= 0) {
		return ErrGeometry
	}
	if longest := s.LongestFor(in); s.Length >= longest {
		return fmt.Errorf("%w: %.4g m of it, and less than %.4g m goes in", ErrTooLong, s.Length, longest)
	}
	return nil
}
