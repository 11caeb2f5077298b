package coils

import (
	"errors"
	"math"

	"evenpull/fusee/mainspring"
)

// Spring is a strip in its barrel. All in SI.
type Spring struct {
	Pitch     float64 // m, what a coil takes up
	Length    float64 // m
	Arbor     float64 // m, radius of the arbor
	Inside    float64 // m, inside radius of the barrel
	Stiffness float64 // N·m², bending stiffness
	// Natural is the natural curvature (1/m) at s (m) from the arbor, with its first and
	// second derivative along the strip (1/m², 1/m³).
	Natural  func(s float64) (curvature, slope, second float64)
	End      mainspring.End
	Friction float64 // coefficient between coils, arbor and wall, 0 to MostFriction
}

// MostFriction is the highest coefficient of friction that is taken.
const MostFriction = 0.5

// Errors for a spring that cannot be computed.
var (
	ErrSpring = errors.New("every dimension must be a positive, finite number, the arbor and a coil on it smaller than the barrel, and the coefficient of friction 0 to 0.5")
	ErrFew    = errors.New("the strip has too few coils: it must turn three times at least from arbor to wall")
)

// Of is the spring of a curve, held as told and with the given coefficient of friction.
func Of(c *mainspring.Curve, end mainspring.End, friction float64) Spring {
	in, s := c.Housing(), c.Strip()
	return Spring{
		Pitch: c.Pitch(), Length: s.Length, Arbor: in.Arbor, Inside: in.Inside,
		Stiffness: c.Stiffness(), Natural: c.Natural, End: end, Friction: friction,
	}
}

func (s *Spring) check() error {
	least := min(s.Pitch, s.Length, s.Arbor, s.Stiffness, s.Inside-s.Arbor-2*s.Pitch)
	most := max(s.Inside, s.Length, s.Stiffness)
	if !(least > 0) || math.IsInf(most, 1) || !(s.Friction >= 0 && s.Friction <= MostFriction) || s.Natural == nil {
		return ErrSpring
	}
	return nil
}

// strip is a spring with its lengths over the inside radius of the barrel and a stiffness of 1.
type strip struct {
	h, length    float64
	inner, outer float64 // radii of the middle of the strip on the arbor and on the wall
	natural      func(s float64) natural
	end          mainspring.End
	friction     float64
}

// natural is a natural curvature with its derivatives along the strip.
type natural struct{ curvature, slope, second float64 }

func (s *Spring) scaled() strip {
	u := s.Inside
	h := s.Pitch / u
	return strip{
		h: h, length: s.Length / u, inner: s.Arbor/u + h/2, outer: 1 - h/2, end: s.End, friction: s.Friction,
		natural: func(x float64) natural {
			k, slope, second := s.Natural(x * u)
			return natural{k * u, slope * u * u, second * u * u * u}
		},
	}
}
