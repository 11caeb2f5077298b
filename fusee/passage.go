package fusee

import (
	"math"

	"evenpull/fusee/mainspring"
)

// passage is the work of a spring that passes the fusee's pivots along its even
// profiles, of which they let the share S(M/C) through: ∫S dE by two points on each
// of many panels between run down and home. The panels are equal in y, E being
// home − span cos²(πy/2): towards rest and home the couple grows steeply along E, but
// not along y. What they lack, up to 1e-7 of the turns, moves the turn that a radius
// stands at and not the torque. The nil passage is that of pivots that lose nothing,
// S = 1.
type passage struct {
	home, span float64                    // J, energy at home, and what run down lacks of it
	couple     [passagePanels][2]float64  // N·m at the points of each
	c          float64                    // N·m
	kept       [passagePanels + 1]float64 // ∫S dE up to each panel with this C
}

const (
	passagePanels = 64
	mostSteps     = 20 // of Newton's, of which two or three are enough
)

// newPassage is the passage of a spring with its set-up.
func newPassage(c *mainspring.Curve, setUp float64) *passage {
	p := &passage{home: c.Energy(c.Turns())}
	p.span = p.home - c.Energy(setUp)
	for i := range p.couple {
		for j, at := range &pair {
			e, _ := p.energy((float64(i) + at) / passagePanels)
			_, p.couple[i][j] = c.WoundBy(e)
		}
	}
	return p
}

// energy is E at y, and its slope.
func (p *passage) energy(y float64) (e, slope float64) {
	sin, cos := math.Sincos(math.Pi / 2 * y)
	return p.home - p.span*cos*cos, math.Pi * p.span * sin * cos
}

// share is S where the spring gives a couple, along the even profile of a C.
func (w *Wound) share(c, couple float64) float64 {
	return w.fusee.share(couple * w.perRb / (c * w.drive.Line.Efficiency))
}

// set is for the even profile of a C.
func (p *passage) set(w *Wound, c float64) {
	p.c = c
	for i := range p.couple {
		sum := 0.0
		for j, at := range &pair {
			_, slope := p.energy((float64(i) + at) / passagePanels)
			sum += w.share(c, p.couple[i][j]) * slope
		}
		p.kept[i+1] = p.kept[i] + sum/(2*passagePanels)
	}
}

// work is ∫S dE from the energy of the spring run down to another.
func (p *passage) work(w *Wound, from, to float64) float64 {
	if p == nil {
		return to - from
	}
	y := 2 / math.Pi * math.Acos(math.Min(math.Sqrt(math.Max(p.home-to, 0)/p.span), 1))
	i := min(max(int(y*passagePanels), 0), passagePanels-1)
	start := float64(i) / passagePanels
	sum := 0.0
	for _, at := range &pair {
		e, slope := p.energy(start + at*(y-start))
		_, m := w.curve.WoundBy(e)
		sum += w.share(p.c, m) * slope
	}
	return p.kept[i] + sum*(y-start)/2 + math.Max(to-p.home, 0)*w.share(p.c, w.curve.MaxCouple())
}

// woundBy is the spring, its turns and couple, with so much of ∫S dE above run down.
func (p *passage) woundBy(w *Wound, from, work float64) (turns, couple float64) {
	if p == nil {
		return w.curve.WoundBy(from + work)
	}
	energy := from + work
	for range mostSteps {
		_, couple = w.curve.WoundBy(energy)
		by := (work - p.work(w, from, energy)) / w.share(p.c, couple)
		if energy += by; !(math.Abs(by) > 1e-8*work) { // what is left is its square
			break
		}
	}
	return w.curve.WoundBy(energy)
}
