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
	Even                 // made so: lies free in evenly curved coils
	Set                  // set by yielding when it was first wound home
)

// Strip is a mainspring. All in SI.
type Strip struct {
	Width     float64 // m, along the arbor
	Thickness float64 // m
	Length    float64 // m, between arbor and barrel wall
	Modulus   float64 // Pa, Young's modulus
	Bending   Bending // how it bends across its width
	Poisson   float64 // Poisson's ratio, 0 to below 0.5; not used by Narrow
	Form      Form    // its shape lying free
	FreeCoils float64 // coils that it shows lying free; used by Even
	Yield     float64 // Pa, the flow stress at 2 to 3 % of strain; used by Set
	Packing   float64 // ratio of the thickness that a coil takes up in its barrel to its own; 0 stands for 1, ideal
	Couple    float64 // ratio of the couple that it gives to the computed one; 0 stands for 1
	Uncounted float64 // turns from rest to solid that it has here beyond those that a hand counts
}

// coupleRatio is Couple with what stands for it.
func (s *Strip) coupleRatio() float64 {
	if s.Couple == 0 {
		return 1
	}
	return s.Couple
}

// pitch is what a coil takes up (m).
func (s *Strip) pitch() float64 {
	if s.Packing == 0 {
		return s.Thickness
	}
	return s.Packing * s.Thickness
}

// Housing is the room the strip works in. Both in metres.
type Housing struct {
	Arbor  float64 // m, r, radius of the arbor where the strip lies on it
	Inside float64 // m, R, inside radius of the barrel
}

// Errors that New returns for a strip that cannot be.
var (
	ErrGeometry     = errors.New("every dimension must be a positive, finite number, the arbor smaller than the barrel, the packing 1 or more, the ratio of the couple not below 0 and Poisson's ratio below 1")
	ErrTooLong      = errors.New("the strip is too long for the barrel")
	ErrLoose        = errors.New("so loosely packed, a strip of so soft a steel does not come to the arbor from its outer end inwards")
	ErrTooManyCoils = errors.New("the strip lies free in more coils than it has outside when wound home: it has no couple to give")
)

// Fill is the share of the free area of the barrel that the strip takes up.
// The turns are greatest at one half.
func (s *Strip) Fill(in Housing) float64 {
	return s.pitch() * s.Length / freeArea(in)
}

// LongestFor is the length (m) at which a strip of this thickness would fill
// the barrel completely.
func (s *Strip) LongestFor(in Housing) float64 { return freeArea(in) / s.pitch() }

// HalfAreaTurns are the turns that a strip filling half the free area makes
// available, the most that the barrel can give:
// (√(2(R²+r²)) − R − r)/h (SAE Spring Design Manual and other texts on power
// springs print the same), h being what a coil takes up.
func HalfAreaTurns(in Housing, pitch float64) float64 {
	r, R := in.Arbor, in.Inside
	return (math.Sqrt(2*(R*R+r*r)) - R - r) / pitch
}

func freeArea(in Housing) float64 {
	return math.Pi * (in.Inside - in.Arbor) * (in.Inside + in.Arbor)
}

// check tells why strip and housing cannot make a spring, nil if they can.
func (s *Strip) check(in Housing) error {
	least := min(s.Width, s.Thickness, s.Length, s.Modulus, in.Arbor, in.Inside-in.Arbor)
	most := max(s.Width, s.Thickness, s.Length, s.Modulus, in.Inside)
	if !(least > 0) || math.IsInf(most, 1) { // of NaN either is NaN
		return ErrGeometry
	}
	if !(s.Couple >= 0) || math.IsInf(s.Couple, 1) {
		return ErrGeometry
	}
	if s.Packing != 0 && !(s.Packing >= 1 && s.Packing <= 10) || s.Bending != Narrow && !(s.Poisson*s.Poisson < 1) {
		return ErrGeometry
	}
	if s.Form == Set && (!(s.Yield > 0) || math.IsInf(s.Yield, 1)) {
		return ErrGeometry
	}
	if s.Form == Even && !(s.FreeCoils >= 0) {
		return ErrGeometry
	}
	if longest := s.LongestFor(in); s.Length >= longest {
		return fmt.Errorf("%w: %.4g m of it, and less than %.4g m goes in", ErrTooLong, s.Length, longest)
	}
	return nil
}
