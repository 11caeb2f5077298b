package fusee

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/interp"
)

// Profile is the radius of the groove bottoms against the turns paid out, as a
// cubic on each interval of equal width. The zero Profile is empty.
type Profile struct {
	width  float64
	per    float64 // 1/width
	pieces []piece
}

// piece is one interval: r + dr x + c2 x² + c3 x³, and the integral of the
// radius from θ = 0 to its start.
type piece struct{ r, dr, c2, c3, area float64 }

// knot is a radius and its slope.
type knot struct{ r, dr float64 }

// ErrProfile tells that a profile has no two positive, finite radii.
var ErrProfile = errors.New("a profile needs at least two radii, all positive and finite")

// Measured is the profile through radii (m) at each whole turn, small end
// first, joined by the monotone cubic of Fritsch and Butland (gonum interp), so
// that it has no bumps that were not measured.
func Measured(radii []float64) (Profile, error) {
	if len(radii) < 2 {
		return Profile{}, ErrProfile
	}
	at := make([]float64, len(radii))
	for i, r := range radii {
		if !(r > 0) || math.IsInf(r, 1) {
			return Profile{}, ErrProfile
		}
		at[i] = float64(i)
	}
	var cubic interp.FritschButland
	if err := cubic.Fit(at, radii); err != nil {
		return Profile{}, err
	}
	knots := make([]knot, len(radii))
	for i, r := range radii {
		knots[i] = knot{r: r, dr: cubic.PredictDerivative(at[i])}
	}
	return newProfile(1, knots), nil
}

// Straight is the profile of a straight cone from the small to the large
// radius (m) in the given turns.
func Straight(small, large, turns float64) (Profile, error) {
	if !(small > 0 && large > 0 && turns > 0) || math.IsInf(small+large+turns, 1) {
		return Profile{}, ErrProfile
	}
	slope := (large - small) / turns
	return newProfile(turns, []knot{{r: small, dr: slope}, {r: large, dr: slope}}), nil
}

func newProfile(width float64, knots []knot) Profile {
	pieces := make([]piece, len(knots)-1)
	area := 0.0
	for i := range pieces {
		a, b := knots[i], knots[i+1]
		d := (b.r - a.r) / width
		pieces[i] = piece{
			r: a.r, dr: a.dr, area: area,
			c2: (3*d - 2*a.dr - b.dr) / width,
			c3: (a.dr + b.dr - 2*d) / (width * width),
		}
		area += width*(a.r+b.r)/2 + width*width*(a.dr-b.dr)/12
	}
	return Profile{width: width, per: 1 / width, pieces: pieces}
}

// Turns is the length of the profile in fusee turns.
func (p *Profile) Turns() float64 { return p.width * float64(len(p.pieces)) }

// At gives radius (m), slope (m a turn) and the integral of the radius from
// θ = 0 (m·turn). Beyond its ends the profile stays at their values; an empty one
// is 0 everywhere.
func (p *Profile) At(theta float64) (r, dr, area float64) {
	i := int(theta * p.per)
	if i >= len(p.pieces) {
		i = len(p.pieces) - 1
	}
	if i < 0 { // NaN comes here too
		if len(p.pieces) == 0 {
			return 0, 0, 0
		}
		i = 0
	}
	q := &p.pieces[i]
	x := theta - float64(i)*p.width
	if x < 0 {
		x = 0
	} else if x > p.width {
		x = p.width
	}
	r = q.r + x*(q.dr+x*(q.c2+x*q.c3))
	dr = q.dr + x*(2*q.c2+x*3*q.c3)
	area = q.area + x*(q.r+x*(q.dr/2+x*(q.c2*(1.0/3)+x*q.c3/4)))
	return r, dr, area
}
