package coils

import (
	"fmt"
	"math"
)

// stay leads x to where it stays with friction, by Newton's method on all equations at once,
// each step shortened until it leaves less of them. Under the forces that press at the end
// that is a minimum. It counts its steps.
func (p *problem) stay(x *state, barrier float64) (*state, error) {
	st := p.newStep()
	within := p.creep
	for range most {
		x.steps++
		p.creep = within * math.Pow(barrier/complete, soften)
		p.assemble(x)
		p.addFriction(x)
		next, done := p.lower(x, barrier)
		if next < barrier {
			barrier = next
			continue
		}
		was := p.norm(x, barrier)
		p.addPressing(x, barrier, st.by)
		if done {
			if positive, ok := p.matrix.factor(); !ok || positive != p.wanted() {
				return x, fmt.Errorf("%w: what was found is no minimum", ErrDiverged)
			}
			return x, nil
		}
		p.addUnlike(x, barrier, st.by)
		if !p.matrix.factorUnlike() {
			return x, p.diverged(x)
		}
		p.matrix.solveUnlike(st.by)
		p.finish(x, barrier, st)
		share := min(st.open, st.hold)
		for try := 0; ; try++ {
			t := p.move(x, st, share, share)
			p.assemble(t)
			p.addFriction(t)
			n := p.norm(t, barrier)
			if n < was*(1-1e-4*share) || n < 1e-9 || try == 13 {
				x = t // the shortest also where it does not: from there on it often does
				break
			}
			share /= 2
		}
	}
	return x, p.diverged(x)
}

// approach finds the shape by that without friction, and with ever more of it.
func (p *problem) approach(before *state) (*state, error) {
	slides, all, creep := p.slides, p.friction, p.creep
	p.slides = nil
	x, err := p.least(p.carried(before), warm)
	p.slides = slides
	for share := 1.0; share <= 8 && err == nil; share *= 2 {
		p.friction, p.creep = all*share/8, creep
		x, err = p.stay(p.carried(x), warm)
	}
	return x, err
}

// soften is the power of the barrier with which the slide is made longer within which friction
// builds up: a hundred times as long at first.
const soften = 0.4

// norm is the root of the squares of what is left of the equations.
func (p *problem) norm(x *state, barrier float64) (n float64) {
	for _, v := range p.forces(x) {
		n += v * v
	}
	for i := range p.contacts {
		v := (x.press[i]*x.gap[i] - barrier) / p.h
		n += v*v + p.off[i]*p.off[i]
	}
	return math.Sqrt(n)
}
