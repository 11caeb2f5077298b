package fusee

import (
	"math"
)

// passage is the work of a spring that passes its coils and the fusee's pivots along its
// even profiles, of which these let the share S(M/C) through and those what they do at each
// turn, but for their swing: ∫S dE by two points on each
// of many panels between run down and home. The panels are equal in y, E being
// home − span cos²(πy/2): towards rest and home the couple grows steeply along E, but
// not along y. What they lack, up to 1e-7 of the turns, moves the turn that a radius
// stands at and not the torque. The nil passage is that of pivots that lose nothing,
// and of coils that lose the same all along: S = 1.
type passage struct {
	home, span float64                    // J, energy at home, and what run down lacks of it
	couple     [passagePanels][2]float64  // N·m at the points of each, past the coils
	coils      [passagePanels][2]float64  // the share that passes them there
	c          float64                    // N·m
	kept       [passagePanels + 1]float64 // ∫S dE up to each panel with this C
}

const (
	passagePanels = 64
	mostSteps     = 20 // of Newton's, of which two or three are enough
)

// newPassage is that of the spring with a set-up; nil where it is the same all along.
func (w *Wound) newPassage(setUp float64) *passage {
	if w.fusee.a == 0 && w.rub == nil {
		return nil
	}
	c := &w.curve
	p := &passage{home: c.Energy(c.Turns())}
	p.span = p.home - c.Energy(setUp)
	for i := range p.couple {
		for j, at := range &pair {
			e, _ := p.energy((float64(i) + at) / passagePanels)
			turns, couple := c.WoundBy(e)
			p.coils[i][j] = w.coils(turns)
			p.couple[i][j] = couple * p.coils[i][j]
		}
	}
	return p
}

// energy is E at y, and its slope.
func (p *passage) energy(y float64) (e, slope float64) {
	sin, cos := math.Sincos(math.Pi / 2 * y)
	return p.home - p.span*cos*cos, math.Pi * p.span * sin * cos
}

// coils is the share that they let through, but for their swing, which no cone evens out;
// 1 where that is the same all along.
func (w *Wound) coils(turns float64) float64 {
	if w.rub == nil {
		return 1
	}
	share, _ := w.rub.Smooth(turns)
	return share
}

// share is S where the spring gives a couple past its coils, which let a share of it
// through, along the even profile of a C.
func (w *Wound) share(c, couple, coils float64) float64 {
	return coils * w.fusee.share(couple*w.perRb/(c*w.drive.Line.Efficiency))
}

// shareAt is share of a spring wound some turns, of a couple.
func (w *Wound) shareAt(c, turns, couple float64) float64 {
	coils := w.coils(turns)
	return w.share(c, couple*coils, coils)
}

// set is for the even profile of a C.
func (p *passage) set(w *Wound, c float64) {
	p.c = c
	for i := range p.couple {
		sum := 0.0
		for j, at := range &pair {
			_, slope := p.energy((float64(i) + at) / passagePanels)
			sum += w.share(c, p.couple[i][j], p.coils[i][j]) * slope
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
		turns, m := w.curve.WoundBy(e)
		sum += w.shareAt(p.c, turns, m) * slope
	}
	return p.kept[i] + sum*(y-start)/2 + math.Max(to-p.home, 0)*w.shareAt(p.c, w.curve.Turns(), w.curve.MaxCouple())
}

// woundBy is the spring, its turns and couple, with so much of ∫S dE above run down.
func (p *passage) woundBy(w *Wound, from, work float64) (turns, couple float64) {
	if p == nil {
		return w.curve.WoundBy(from + work)
	}
	energy := from + work
	for range mostSteps {
		turns, couple = w.curve.WoundBy(energy)
		by := (work - p.work(w, from, energy)) / w.shareAt(p.c, turns, couple)
		if energy += by; !(math.Abs(by) > 1e-8*work) { // what is left is its square
			break
		}
	}
	return w.curve.WoundBy(energy)
}
