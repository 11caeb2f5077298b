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
	defer func() { p.creep = within }()
	for try := range mostStays {
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
		if done || try == mostStays-1 && p.near(x, barrier) {
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

// approach finds the shape from that with the least energy under forces of friction that follow
// what presses from step to step. It need not get there, but comes near, and past where a
// coil jumps.
func (p *problem) approach(before *state) (*state, error) {
	within := p.creep
	p.creep *= math.Pow(warm/complete, soften)
	x, _ := p.least(p.carried(before), warm)
	p.creep = within
	return p.stay(p.carried(x), warm)
}

// mostStays is the number of steps after which a search with friction ends, nearly what is
// left of any equation that will then do: where friction passes from holding to sliding steps
// may go to and fro about what they seek.
const mostStays, nearly = 80, 1e-5

func (p *problem) near(x *state, barrier float64) bool {
	forces, lengths, touching := p.left(x, 0)
	return barrier <= complete && max(forces, lengths) < nearly && touching < 10*complete
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
