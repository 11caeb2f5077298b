package coils

// assemble works out the energy, its gradient and second derivatives with those of the
// lengths, and what lengths and gaps are off. What presses and rubs is not yet in it.
func (p *problem) assemble(x *state) (energy float64) {
	clear(p.matrix.low)
	clear(p.grad)
	var b bend
	for i := range x.r {
		if p.bent(&b, x, i) {
			energy += b.e
			p.addBend(&b, i)
		}
	}
	for j := range p.last {
		p.addLength(x, j)
	}
	for i := range p.contacts {
		p.off[i] = p.contacts[i].room(x.r) - x.gap[i]
	}
	return energy
}

// addBend adds the derivatives of the energy of a node: by those of its radius and two
// derivatives, which hang on three radii, and of its place.
func (p *problem) addBend(b *bend, i int) {
	var w [4][4]float64
	at := [4]int{-1, -1, -1, -1}
	for k := range 3 {
		w[k] = [4]float64{0, p.stencils[i].p[k], p.stencils[i].q[k], 0}
		if j := i - 1 + k; p.free(j) {
			at[k] = p.radius(j)
		}
	}
	w[1][0], w[3][3] = 1, 1
	if p.free(i) {
		at[3] = p.place(i)
	}
	for k := range at {
		if at[k] < 0 {
			continue
		}
		var row [4]float64
		for u, c := range w[k] {
			p.grad[at[k]] += c * b.d[u]
			for v := range row {
				row[v] += c * b.dd[u][v]
			}
		}
		for l := 0; l <= k; l++ {
			if at[l] >= 0 {
				c := &w[l]
				p.matrix.add(at[k], at[l], row[0]*c[0]+row[1]*c[1]+row[2]*c[2]+row[3]*c[3])
			}
		}
	}
}

// addLength adds what the length of a cell has to do with: pull times what it lacks.
func (p *problem) addLength(x *state, j int) {
	length, d, dd := p.cellLength(x.r, j)
	pull, at := x.pull[j], p.pull(j)
	p.grad[at] = x.s[j+1] - x.s[j] - length
	for side := range 2 {
		if i := j + side; p.free(i) {
			r, s := p.radius(i), p.place(i)
			sign := float64(2*side - 1)
			p.grad[r] -= pull * d[side]
			p.grad[s] += pull * sign
			p.matrix.add(r, r, -pull*dd[2*side])
			p.matrix.add(at, r, -d[side])
			p.matrix.add(at, s, sign)
		}
	}
	if p.free(j) && p.free(j+1) {
		p.matrix.add(p.radius(j+1), p.radius(j), -pull*dd[1])
	}
}
