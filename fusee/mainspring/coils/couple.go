package coils

// couple is the slope of the energy to the angle, which is the couple at the arbor: of all
// that changes with the angle while radii, places and forces stay, which is what lies in the
// first turns: by differences of the fourth order, over a hundredth of a step.
func (p *problem) couple(x *state) float64 {
	by := 1e-2 * p.step
	near, far := p.atAngle(x, by)-p.atAngle(x, -by), p.atAngle(x, 2*by)-p.atAngle(x, -2*by)
	return (8*near - far) / (12 * by)
}

// atAngle is what changes with the angle, turned by a little more.
func (p *problem) atAngle(x *state, by float64) (v float64) {
	q := *p
	q.grid = gridOf(p.turn, p.last, p.whole()+by)
	q.stencils, q.weights = q.grid.stencils(p.strip.end)
	var b bend
	for i := range p.turn + 1 {
		if q.bent(&b, x, i) {
			v += b.e
		}
	}
	for j := range p.turn {
		v += x.pull[j] * q.lacking(x, j)
	}
	for i := range p.contacts {
		if c := &p.contacts[i]; c.weight[2] != 0 {
			c := q.above(c.node[0], c.limit)
			v -= x.press[i] * c.room(x.r)
		}
	}
	for i := range p.slides {
		l := q.slideOf(&p.contacts[i])
		v += p.friction * x.press[i] * p.sense(p.slides[i].by(x.s)) * l.by(x.s)
	}
	return v
}
