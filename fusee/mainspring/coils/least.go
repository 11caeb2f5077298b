package coils

import "math"

// least leads x to the least energy without friction, by an interior-point method: what
// presses is the slope of a barrier, −barrier ln gap, that becomes ever lower (A. Forsgren,
// P. E. Gill, M. H. Wright, SIAM Review 44, 2002; from memory). The signs of the pivots tell
// at every step, and at the end, that it is a minimum and no saddle: else the diagonal is
// raised. It counts its steps.
func (p *problem) least(x *state, barrier float64) (*state, error) {
	st := p.newStep()
	var m merit
	raised := 0.0
	for range most {
		x.steps++
		p.assemble(x)
		p.addFriction(x)
		m.held = x.press
		var done bool
		barrier, done = p.lower(x, barrier)
		p.addPressing(x, barrier, st.by)
		raise, ok := p.factorRaised(raised)
		if !ok {
			return x, p.diverged(x)
		}
		if done && raise == 0 {
			return x, nil
		}
		if raise > 0 {
			raised = raise
		}
		p.matrix.solve(st.by)
		p.finish(x, barrier, st)
		next := m.search(p, x, st, barrier)
		if next == nil || math.Abs(x.pull[0]) > 1e3 { // there is no room for the strip
			return x, p.diverged(x)
		}
		x = next
	}
	return x, p.diverged(x)
}

// wanted is the number of pivots above 0 at a minimum: those of radii and places.
func (p *problem) wanted() int { return 2 * (p.last - 1) }

// factorRaised factors the matrix, its diagonal raised as far as it needs for a minimum:
// by more than the last time's third.
func (p *problem) factorRaised(last float64) (raise float64, ok bool) {
	kept := append([]float64(nil), p.matrix.low...)
	for range 30 {
		if positive, ok := p.matrix.factor(); ok && positive == p.wanted() {
			return raise, true
		}
		switch {
		case raise > 0:
			raise *= 8
		case last > 0:
			raise = max(1e-8, last/3)
		default:
			raise = 1e-2
		}
		copy(p.matrix.low, kept)
		for i := 1; i < p.last; i++ {
			p.matrix.add(p.radius(i), p.radius(i), raise)
			p.matrix.add(p.place(i), p.place(i), raise*1e-3)
		}
	}
	return raise, false
}

// merit is what a step has to lower: the energy with the barrier, and what lengths and gaps
// are off times more than any force that holds them.
type merit struct {
	pull, press float64
	held        []float64 // what presses where friction holds
}

func (m *merit) of(p *problem, x *state, barrier float64) float64 {
	energy, lengths, gaps := p.value(x)
	energy += p.held(x, m.held)
	for _, g := range x.gap {
		energy -= barrier * math.Log(g)
	}
	return energy + m.pull*lengths + m.press*gaps
}

// search shortens a step until it lowers the merit; nil if it does not.
func (m *merit) search(p *problem, x *state, st *step, barrier float64) *state {
	for j := range p.last {
		m.pull = max(m.pull, 1.2*math.Abs(x.pull[j]+st.by[p.pull(j)]))
	}
	m.press = m.pull
	for i := range st.press {
		m.press = max(m.press, 1.2*(x.press[i]+st.press[i]))
	}
	now, slope := m.of(p, x, barrier), m.slope(p, x, st, barrier)
	share := st.open
	lower := func(t *state) bool {
		return m.of(p, t, barrier) <= now+1e-4*share*slope+1e-13*math.Abs(now)
	}
	for try := range 26 {
		t := p.move(x, st, share, st.hold)
		if lower(t) || try == 0 && p.correct(x, t, share) && lower(t) {
			return t
		}
		share /= 2
	}
	return nil
}

// slope of the merit along a step.
func (m *merit) slope(p *problem, x *state, st *step, barrier float64) (slope float64) {
	for i, v := range p.grad {
		slope += v * st.by[i]
	}
	for j := range p.last { // the gradient is less pull times length, and has the lengths
		at := p.pull(j)
		slope -= p.grad[at]*st.by[at] - x.pull[j]*p.grad[at]
		slope -= m.pull * math.Abs(p.grad[at])
	}
	for i, d := range st.gap {
		slope -= barrier*d/x.gap[i] + m.press*math.Abs(p.off[i])
	}
	return slope
}

// correct takes off a trial what the lengths of its cells lack, which a straight step leaves:
// else the merit refuses good steps (N. Maratos, 1978; from memory).
func (p *problem) correct(x, trial *state, share float64) bool {
	d := make([]float64, p.unknowns())
	for j := range p.last {
		d[p.pull(j)] = (1-share)*p.grad[p.pull(j)] - p.lacking(trial, j)
	}
	p.matrix.solve(d)
	for i := range p.contacts {
		c := &p.contacts[i]
		for k, w := range c.weight {
			if n := c.node[k]; w != 0 && p.free(n) {
				trial.gap[i] += w * d[p.radius(n)]
			}
		}
		if trial.gap[i] < (1-into)*x.gap[i] {
			return false
		}
	}
	for i := 1; i < p.last; i++ {
		trial.r[i] += d[p.radius(i)]
		trial.s[i] += d[p.place(i)]
	}
	return true
}
