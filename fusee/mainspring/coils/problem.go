package coils

import "math"

// state is a shape of the strip with the forces in it.
type state struct {
	grid
	contacts []contact
	r, s     []float64 // of the nodes: radius, place along the strip
	pull     []float64 // of the cells: what holds them to their length
	gap      []float64 // of the contacts
	press    []float64 // of the contacts
	rubs     []float64 // of the contacts: forces of friction; nil without
	steps    int       // that it took
}

func (x *state) clone() *state {
	c := *x
	c.r, c.s = append([]float64(nil), x.r...), append([]float64(nil), x.s...)
	c.pull, c.gap, c.press = append([]float64(nil), x.pull...), append([]float64(nil), x.gap...), append([]float64(nil), x.press...)
	return &c
}

// problem is the strip wound to an angle: its bending energy is to be least while every cell
// keeps its length and nothing overlaps, but for what friction holds.
type problem struct {
	strip
	grid
	contacts []contact
	stencils []stencil
	weights  []float64 // angles that the nodes stand for
	slides   []slide   // of the contacts; nil without friction
	before   *state    // that the slides are from
	creep    float64   // slide within which friction builds up

	// What assemble leaves.
	matrix *envelope
	grad   []float64 // of the unknowns: of the energy less pull times length; lacking lengths
	off    []float64 // what the gaps are off
}

func newProblem(s *strip, g grid) *problem {
	p := &problem{strip: *s, grid: g, contacts: contacts(s, &g)}
	p.stencils, p.weights = g.stencils(s.end)
	p.matrix = newEnvelope(p.reach())
	p.grad, p.off = make([]float64, g.unknowns()), make([]float64, len(p.contacts))
	return p
}

// reach is for each unknown the first one that it has to do with.
func (p *problem) reach() []int {
	first := make([]int, p.unknowns())
	for i := range first {
		first[i] = i
	}
	back := func(i, to int) { first[i] = min(first[i], max(to, 0)) }
	for i := 1; i < p.last; i++ {
		back(p.radius(i), p.radius(i-2))
		back(p.place(i), p.radius(i-1))
	}
	for j := range p.last {
		back(p.pull(j), p.radius(j))
	}
	for i := range p.contacts {
		c := &p.contacts[i]
		lowest, highest := p.last, 0
		for k, w := range c.weight {
			if n := c.node[k]; w != 0 && p.free(n) {
				lowest, highest = min(lowest, n), max(highest, n)
			}
		}
		if highest > 0 {
			back(p.radius(highest), p.radius(lowest))
		}
		if p.friction > 0 && p.free(c.node[0]) { // the slide hangs on what presses, and both places
			back(p.place(c.node[0]), p.radius(lowest))
		}
	}
	return first
}

// shape is radius and derivatives to the angle at a node.
func (p *problem) shape(r []float64, i int) (at, first, second float64) {
	w := &p.stencils[i]
	for k := range 3 {
		if j := i - 1 + k; j >= 0 && j <= p.last {
			first += w.p[k] * r[j]
			second += w.q[k] * r[j]
		}
	}
	return r[i], first, second
}

// bent works out the energy of a node; ok tells whether it has any.
func (p *problem) bent(b *bend, x *state, i int) (ok bool) {
	if p.weights[i] == 0 {
		return false
	}
	r, first, second := p.shape(x.r, i)
	b.of(r, first, second, p.weights[i], p.natural(x.s[i]))
	return true
}

// cellLength is the length of a cell, √(m² + q²) times its angle a, m being the mean of the
// radii of its ends and q their difference over a; with first and second derivatives to them.
func (p *problem) cellLength(r []float64, j int) (length float64, d [2]float64, dd [3]float64) {
	a := p.cell(j)
	m, q := (r[j]+r[j+1])/2, (r[j+1]-r[j])/a
	g := math.Sqrt(m*m + q*q)
	g3 := g * g * g
	mm, mq, qq := q*q/g3, -m*q/g3, m*m/g3
	d = [2]float64{a*m/(2*g) - q/g, a*m/(2*g) + q/g}
	dd = [3]float64{a*mm/4 - mq + qq/a, a*mm/4 - qq/a, a*mm/4 + mq + qq/a}
	return a * g, d, dd
}

// lacking is what a cell is longer than the radii make it.
func (p *problem) lacking(x *state, j int) float64 {
	length, _, _ := p.cellLength(x.r, j)
	return x.s[j+1] - x.s[j] - length
}

// value is the energy, and the sums of what lengths and gaps are off.
func (p *problem) value(x *state) (energy, lengths, gaps float64) {
	var b bend
	for i := range x.r {
		if p.bent(&b, x, i) {
			energy += b.e
		}
	}
	for j := range p.last {
		lengths += math.Abs(p.lacking(x, j))
	}
	for i := range p.contacts {
		gaps += math.Abs(p.contacts[i].room(x.r) - x.gap[i])
	}
	return energy, lengths, gaps
}
