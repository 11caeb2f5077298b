package coils

import "math"

// slide is how far the faces of a contact have slid on each other since the shape before, + in
// the sense in which the outer one moves outwards along the strip: off − a s(over) + b s(under).
// Where a node lies, seen from the hook, the strip has moved by what its place has changed;
// its faces lie half a thickness from its middle, and move by 1 ± h/2r as much.
type slide struct {
	over, under int // nodes; under is −1 on arbor and wall
	a, b, off   float64
}

// after gives the problem friction: what slides since the shape before, within creep (of the
// inside radius) of which friction builds up.
func (p *problem) after(before *state, creep float64) {
	p.before, p.creep = before, creep
	p.slides = make([]slide, len(p.contacts))
	for i := range p.contacts {
		p.slides[i] = p.slideOf(&p.contacts[i])
	}
}

func (p *problem) slideOf(c *contact) slide {
	turned := p.whole() - p.before.whole()
	face := func(i int, side float64) (moves, before float64) {
		angle := p.angle(i) - turned // where it was, seen from the arbor
		r, s := p.inner, p.inner*angle
		if angle > 0 {
			r, s = p.before.between(angle, p.before.r), p.before.between(angle, p.before.s)
		}
		moves = 1 + side*p.h/(2*r)
		return moves, moves * s
	}
	n := c.node[0]
	switch {
	case c.onWall():
		a, s := face(n, 1)
		return slide{n, -1, a, 0, s}
	case c.onArbor():
		a, s := face(n, -1)
		return slide{n, -1, a, 0, s + (p.inner-p.h/2)*turned}
	}
	a, over := face(n, -1)
	b, under := face(n-p.turn, 1)
	return slide{n, n - p.turn, a, b, over - under}
}

func (l *slide) by(s []float64) float64 {
	u := l.off - l.a*s[l.over]
	if l.under >= 0 {
		u += l.b * s[l.under]
	}
	return u
}

// sense is the share of full friction at a slide, with its sign.
func (p *problem) sense(u float64) float64 { return u / math.Hypot(u, p.creep) }

// rubbed is the work that friction has taken since the shape before, by the means of its forces
// then and now; it leaves those of now in x.
func (p *problem) rubbed(x *state) (work float64) {
	if p.slides == nil {
		return 0
	}
	inner, wall := p.before.byNode(p.before.rubs)
	moved := p.last - p.before.last // nodes are counted from the hook
	x.rubs = make([]float64, len(p.slides))
	for i := range p.slides {
		u := p.slides[i].by(x.s)
		x.rubs[i] = p.friction * x.press[i] * p.sense(u)
		c, was := &p.contacts[i], 0.0
		if n := c.node[0] - moved; n >= 0 && n < len(inner) {
			if was = inner[n]; c.onWall() {
				was = wall[n]
			}
		}
		work += (was + x.rubs[i]) / 2 * u
	}
	return work
}

// held is the work of friction up to where the strip is if what presses stays as it is told: a
// potential, of which the forces of friction are the slopes.
func (p *problem) held(x *state, press []float64) (work float64) {
	for i := range p.slides {
		work += p.friction * press[i] * (math.Hypot(p.slides[i].by(x.s), p.creep) - p.creep)
	}
	return work
}

// addFriction adds the forces of friction as they are, and how they change with what slides.
func (p *problem) addFriction(x *state) {
	for i := range p.slides {
		l := &p.slides[i]
		u := l.by(x.s)
		full := p.friction * x.press[i]
		d := math.Hypot(u, p.creep)
		force, stiff := full*u/d, full*p.creep*p.creep/(d*d*d)
		over, under := p.free(l.over), l.under > 0
		if over {
			k := p.place(l.over)
			p.grad[k] -= l.a * force
			p.matrix.add(k, k, l.a*l.a*stiff)
		}
		if under {
			k := p.place(l.under)
			p.grad[k] += l.b * force
			p.matrix.add(k, k, l.b*l.b*stiff)
			if over {
				p.matrix.add(p.place(l.over), k, -l.a*l.b*stiff)
			}
		}
	}
}

// addUnlike adds how the forces of friction change with what presses, to the matrix and the
// right-hand side: the pressing changes by (barrier − press (gap + off + change of room))/gap.
// So a force hangs on radii that do not hang on it: the matrix is no longer symmetric.
func (p *problem) addUnlike(x *state, barrier float64, right []float64) {
	p.matrix.unlike()
	for i := range p.slides {
		c, l := &p.contacts[i], &p.slides[i]
		stiff := x.press[i] / x.gap[i]
		by := p.friction * p.sense(l.by(x.s))
		put := func(row int, by float64) {
			right[row] -= by * (barrier/x.gap[i] - x.press[i] - stiff*p.off[i])
			for k, w := range c.weight {
				if n := c.node[k]; w != 0 && p.free(n) {
					p.matrix.addAt(row, p.radius(n), -by*stiff*w)
				}
			}
		}
		if p.free(l.over) {
			put(p.place(l.over), -l.a*by)
		}
		if l.under > 0 {
			put(p.place(l.under), l.b*by)
		}
	}
}
