package coils

import (
	"errors"
	"fmt"
	"math"

	"evenpull/fusee/numeric"
)

// ErrEnergy: equations were solved, but not by the shape that the strip takes.
var ErrEnergy = errors.New("the shape that was found is not that of the least energy")

// clamped is the bending energy, and the couple over stiffness, of a strip wound to an angle of
// which each element bends by itself, between the curvatures of coils packed on wall and
// arbor; ok tells whether there is such a strip.
func (s *strip) clamped(angle float64) (energy, couple float64, ok bool) {
	const parts = 512
	var low, high, own [parts]float64
	ds := s.length / parts
	home, slack := 0.0, 0.0
	for i := range parts {
		at := (float64(i) + 0.5) * ds
		low[i] = 1 / math.Sqrt(s.outer*s.outer-s.h*(s.length-at)/math.Pi)
		high[i] = 1 / math.Sqrt(s.inner*s.inner+s.h*at/math.Pi)
		own[i] = s.natural(at).curvature
		home, slack = home+high[i]*ds, slack+low[i]*ds
	}
	if !(angle > slack && angle < home) {
		return 0, 0, false
	}
	bent := func(m float64) (turned, energy float64) {
		for i := range parts {
			k := min(max(own[i]+m, low[i]), high[i])
			turned += k * ds
			energy += (k - own[i]) * (k - own[i]) / 2 * ds
		}
		return turned, energy
	}
	most := 1/s.inner + 1
	for i := range parts {
		most = max(most, high[i]-own[i], own[i]-low[i])
	}
	_, couple = numeric.Root(-most, most, 1e-9*most, func(m float64) float64 {
		turned, _ := bent(m)
		return turned - angle
	})
	_, energy = bent(couple)
	return energy, couple, true
}

// far is the share by which the energy of a shape may differ from that of a strip whose
// elements bend each by themselves before it is found again from elsewhere; same the share by
// which it may then differ from itself.
const far, same = 0.01, 1e-6

// sure tells whether x has the least energy: by that of elements that bend by themselves,
// from which a strip that set hardly differs, or else by another way to it.
func (p *problem) sure(x *state) error {
	energy, _, _ := p.value(x)
	least, _, ok := p.clamped(p.whole())
	if ok && math.Abs(energy-least) <= far*least {
		return nil
	}
	y, err := p.least(p.spiral(many), start)
	if err != nil {
		return err
	}
	if other, _, _ := p.value(y); math.Abs(energy-other) > same*energy {
		return fmt.Errorf("%w: from elsewhere another is found, of %.3g times its energy", ErrEnergy, other/energy)
	}
	return nil
}
