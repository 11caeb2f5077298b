package vary

import (
	"math"
	"slices"

	"evenpull/fusee/mainspring"
	"evenpull/sim/scenario"
)

// strip is what the mainspring was before anything was changed.
type strip struct {
	thickness, length float64 // mm
	area              float64 // of the barrel between wall and arbor, mm² over π/4
}

func stripOf(m *Model) strip {
	t := &m.s.Trains[m.number]
	return strip{thickness: t.Mainspring.ThicknessMM, length: t.Mainspring.LengthMM, area: freeArea(&t.Barrel)}
}

// infer puts what the spring's free coils tell of its steel, and its turns from rest to
// solid of its packing, and a timed strike of its fly, in their place, but for what varies itself: another spring is one
// of the same steel, wound as well.
func infer(m *Model) {
	in, spring := &m.s.Trains[m.number].Mainspring, &m.train.Drive.Spring
	if scenario.Given(in.FreeCoils) && in.NaturalForm == scenario.BySet && !m.varies(&in.FreeCoils) {
		in.FreeCoils, in.YieldMPa = math.NaN(), spring.Yield/mpa
		if spring.Form == mainspring.Straight {
			in.NaturalForm, in.YieldMPa = scenario.AsStraight, math.NaN()
		}
	}
	if scenario.Given(in.SolidTurns) && !m.varies(&in.SolidTurns) {
		in.SolidTurns, in.Packing = math.NaN(), spring.Packing
	}
	t := &m.s.Trains[m.number]
	if t.Strike != nil && t.Strike.Timed != nil && t.Fly != nil && m.train.Strikes && !m.variesTiming(t.Strike.Timed) {
		t.Strike.Timed, t.Fly.DragCoefficient = nil, m.train.Striker.DragCoefficient()
	}
}

// variesTiming tells whether a timed strike is among what varies.
func (m *Model) variesTiming(t *scenario.Timed) bool {
	return m.varies(&t.TorqueNM) || m.varies(&t.BlowIntervalS) || m.varies(&t.TwelveS)
}

const mpa = 1e6

// varies tells whether a value of the scenario is among those that vary.
func (m *Model) varies(v *float64) bool { return slices.Contains(m.at, v) }

func freeArea(b *scenario.Barrel) float64 {
	return b.InsideDiameterMM*b.InsideDiameterMM - b.ArborDiameterMM*b.ArborDiameterMM
}

// cut gives the strip the length at which it fills the barrel as before, if that
// is to be held. A length that varies itself varies about that one.
func (p *strip) cut(m *Model) {
	if m.hold != Fill {
		return
	}
	t := &m.s.Trains[m.number]
	length := p.length
	if m.varies(&t.Mainspring.LengthMM) {
		length = t.Mainspring.LengthMM
	}
	t.Mainspring.LengthMM = length * p.thickness / t.Mainspring.ThicknessMM * freeArea(&t.Barrel) / p.area
}
