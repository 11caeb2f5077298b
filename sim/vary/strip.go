package vary

import (
	"slices"

	"evenpull/sim/scenario"
)

// Strip is a mainspring in its barrel, by what tells how far it fills that.
type Strip struct {
	thickness, length float64 // mm
	area              float64 // of the barrel between wall and arbor, mm² over π/4
}

// StripOf is that of a train.
func StripOf(t *scenario.Train) Strip {
	return Strip{thickness: t.Mainspring.ThicknessMM, length: t.Mainspring.LengthMM, area: freeArea(&t.Barrel)}
}

// Filling is the length (mm) at which a strip of another thickness (mm) fills another barrel
// as this one does its own.
func (p *Strip) Filling(thickness float64, b *scenario.Barrel) float64 {
	return p.length * p.thickness / thickness * freeArea(b) / p.area
}

func freeArea(b *scenario.Barrel) float64 {
	return b.InsideDiameterMM*b.InsideDiameterMM - b.ArborDiameterMM*b.ArborDiameterMM
}

// varies tells whether a value of the scenario is among those that vary.
func (m *Model) varies(v *float64) bool { return slices.Contains(m.at, v) }

// cutToFill gives the strip the length at which it fills the barrel as before, if that is to
// be held. A length that varies itself varies about that one.
func (m *Model) cutToFill() {
	if m.hold != Fill {
		return
	}
	t, was := &m.s.Trains[m.number], m.strip
	if m.varies(&t.Mainspring.LengthMM) {
		was.length = t.Mainspring.LengthMM
	}
	t.Mainspring.LengthMM = was.Filling(t.Mainspring.ThicknessMM, &t.Barrel)
}
