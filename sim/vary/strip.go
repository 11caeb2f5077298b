package vary

import (
	"math"

	"evenpull/fusee/mainspring"
	"evenpull/sim"
	"evenpull/sim/scenario"
)

// strip is what the mainspring was before anything was changed.
type strip struct {
	thickness, length float64 // mm
	area              float64 // of the barrel between wall and arbor, mm² over π/4

	coils float64            // that it shows lying free; 0: nothing to follow
	steel float64            // Pa, at which it must have set to show them
	in    mainspring.Housing // where it set
}

func stripOf(m *Model) strip {
	t := &m.s.Trains[m.number]
	p := strip{thickness: t.Mainspring.ThicknessMM, length: t.Mainspring.LengthMM, area: freeArea(&t.Barrel)}
	spring := &m.train.Drive.Spring
	if spring.Form != mainspring.Coils || spring.FreeCoils == 0 || m.parts&sim.DrivePart == 0 {
		return p
	}
	steel, err := mainspring.YieldForCoils(*spring, m.train.Drive.Housing, spring.FreeCoils)
	if err != nil {
		return p // coils that no set of its own can have made: they stay
	}
	p.coils, p.steel, p.in = spring.FreeCoils, steel, m.train.Drive.Housing
	return p
}

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
	for _, at := range m.at {
		if at == &t.Mainspring.LengthMM {
			length = *at
		}
	}
	t.Mainspring.LengthMM = length * p.thickness / t.Mainspring.ThicknessMM * freeArea(&t.Barrel) / p.area
}

// coil gives a strip whose set is known by its coils those that its steel shows
// at its present thickness and length.
func (p *strip) coil(m *Model) {
	if p.coils == 0 {
		return
	}
	s := m.train.Drive.Spring
	s.Form, s.Yield = mainspring.Set, p.steel
	c, err := mainspring.New(s, p.in)
	if err != nil {
		return // the run will tell
	}
	if ratio := c.FreeTurns() / p.coils; math.Abs(ratio-1) > 1e-9 {
		m.train.Drive.Spring.FreeCoils *= ratio
	}
}
