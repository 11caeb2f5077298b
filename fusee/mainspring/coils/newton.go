package coils

import (
	"errors"
	"fmt"
	"math"
)

// ErrDiverged: the equations could not be solved.
var ErrDiverged = errors.New("the shape of the coils was not found")

const (
	// complete is what is left of gap times pressing, over inside radius and stiffness.
	complete = 1e-9
	// solved is the most that is left of any equation, likewise.
	solved = 1e-8
	// most is the number of steps after which a search ends.
	most = 250
	// into is the share of the way to touching that a step goes at most.
	into = 0.99
)

// step is a step of Newton's method.
type step struct {
	by         []float64 // of the unknowns
	gap, press []float64 // of the contacts
	open, hold float64   // shares of it that leave gaps and pressings above 0
}

func (p *problem) newStep() *step {
	n := len(p.contacts)
	return &step{by: make([]float64, p.unknowns()), gap: make([]float64, n), press: make([]float64, n)}
}

// left is the greatest of what is left of the equations: of forces, of lengths and gaps, and
// of gap times pressing, which is to be the barrier.
func (p *problem) left(x *state, barrier float64) (forces, lengths, touching float64) {
	g := p.forces(x)
	for j := range p.last {
		lengths = max(lengths, math.Abs(g[p.pull(j)]))
		g[p.pull(j)] = 0
	}
	for i := range p.contacts {
		lengths = max(lengths, math.Abs(p.off[i]))
		touching = max(touching, math.Abs(x.press[i]*x.gap[i]-barrier))
	}
	for _, v := range g {
		forces = max(forces, math.Abs(v))
	}
	return forces, lengths, touching
}

// forces is the gradient with what presses.
func (p *problem) forces(x *state) []float64 {
	g := append([]float64(nil), p.grad...)
	for i := range p.contacts {
		c := &p.contacts[i]
		for k, w := range c.weight {
			if n := c.node[k]; w != 0 && p.free(n) {
				g[p.radius(n)] -= w * x.press[i]
			}
		}
	}
	return g
}

// lower is the next barrier, as low as what is left allows; done tells whether all is solved.
func (p *problem) lower(x *state, barrier float64) (next float64, done bool) {
	for {
		forces, lengths, touching := p.left(x, barrier)
		switch {
		case barrier <= complete:
			return barrier, max(forces, lengths) < solved && touching < complete
		case max(forces, lengths, touching) >= 10*barrier:
			return barrier, false
		}
		barrier = max(complete, min(barrier/5, math.Pow(barrier, 1.3)))
	}
}

// addPressing adds what presses to the matrix and makes the right-hand side.
func (p *problem) addPressing(x *state, barrier float64, right []float64) {
	for i, v := range p.grad {
		right[i] = -v
	}
	for i := range p.contacts {
		c := &p.contacts[i]
		stiff := x.press[i] / x.gap[i]
		push := barrier/x.gap[i] - stiff*p.off[i]
		for k, w := range c.weight {
			if n := c.node[k]; w != 0 && p.free(n) {
				right[p.radius(n)] += w * push
				for l := 0; l <= k; l++ {
					if m := c.node[l]; c.weight[l] != 0 && p.free(m) {
						p.matrix.add(p.radius(n), p.radius(m), stiff*w*c.weight[l])
					}
				}
			}
		}
	}
}

// finish works out what gaps and pressings do in a step, and how much of it may be taken.
func (p *problem) finish(x *state, barrier float64, st *step) {
	st.open, st.hold = 1, 1
	for i := range p.contacts {
		c := &p.contacts[i]
		d := p.off[i]
		for k, w := range c.weight {
			if n := c.node[k]; w != 0 && p.free(n) {
				d += w * st.by[p.radius(n)]
			}
		}
		st.gap[i], st.press[i] = d, (barrier-x.press[i]*(x.gap[i]+d))/x.gap[i]
		if d < 0 {
			st.open = min(st.open, -into*x.gap[i]/d)
		}
		if st.press[i] < 0 {
			st.hold = min(st.hold, -into*x.press[i]/st.press[i])
		}
	}
}

// move is x moved by a share of a step, the pressing by another.
func (p *problem) move(x *state, st *step, share, hold float64) *state {
	t := x.clone()
	for i := 1; i < p.last; i++ {
		t.r[i] += share * st.by[p.radius(i)]
		t.s[i] += share * st.by[p.place(i)]
	}
	for j := range t.pull {
		t.pull[j] += share * st.by[p.pull(j)]
	}
	for i := range t.gap {
		t.gap[i] += share * st.gap[i]
		t.press[i] += hold * st.press[i]
	}
	return t
}

func (p *problem) diverged(x *state) error {
	forces, lengths, _ := p.left(x, 0)
	return fmt.Errorf("%w in %d steps: of the forces %.1g is left, of the lengths %.1g", ErrDiverged, x.steps, forces, lengths)
}
