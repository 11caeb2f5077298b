package vary

import (
	"slices"

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
