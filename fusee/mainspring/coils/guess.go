package coils

import "math"

// start is the barrier that a search from nothing starts with, and warm one from a shape near.
const start, warm = 1e-3, 1e-4

// few and many are the coils that lie free in the two first guesses.
const few, many = 3, 8

// spiral is a first guess: coils packed on the arbor and on the wall, some evenly between.
func (p *problem) spiral(coils float64) *state {
	whole, turn := p.whole(), p.h/(2*math.Pi)
	width := min(whole*0.9, 2*math.Pi*coils)
	radii := func(from float64) []float64 {
		r := make([]float64, p.last+1)
		for i := range r {
			at := p.angle(i)
			in, out := p.inner+turn*at, p.outer-turn*(whole-at)
			r[i] = in + (out-in)*min(max((at-from)/width, 0), 1)
		}
		return r
	}
	lo, hi := 0.0, whole-width
	for range 50 {
		if mid := (lo + hi) / 2; p.total(radii(mid)) > p.length {
			lo = mid
		} else {
			hi = mid
		}
	}
	x := &state{grid: p.grid, contacts: p.contacts, r: radii(lo), s: make([]float64, p.last+1), pull: make([]float64, p.last)}
	stretch := p.length / p.total(x.r)
	for j := range p.last {
		length, _, _ := p.cellLength(x.r, j)
		x.s[j+1] = x.s[j] + length*stretch
	}
	p.hold(x)
	for i := range p.contacts {
		x.gap = append(x.gap, max(p.contacts[i].room(x.r), 0.02*p.h))
		x.press = append(x.press, start/x.gap[i])
	}
	return x
}

// total is the length of a strip of the given radii.
func (p *problem) total(r []float64) (sum float64) {
	for j := range p.last {
		length, _, _ := p.cellLength(r, j)
		sum += length
	}
	return sum
}

// hold puts the ends in their places.
func (p *problem) hold(x *state) {
	x.r[0], x.r[p.last], x.s[0], x.s[p.last] = p.inner, p.outer, 0, p.length
}

// carried is a guess from a shape at another angle: all its angles are stretched alike, and
// what pressed goes on pressing.
func (p *problem) carried(from *state) *state {
	x := &state{grid: p.grid, contacts: p.contacts, r: make([]float64, p.last+1), s: make([]float64, p.last+1), pull: make([]float64, p.last)}
	stretch := from.whole() / p.whole()
	inner, wall := from.byNode(from.press)
	for i := range x.r {
		at := p.angle(i) * stretch
		x.r[i], x.s[i] = from.between(at, from.r), from.between(at, from.s)
	}
	for j := range x.pull {
		x.pull[j] = from.pull[min(j*from.last/p.last, from.last-1)]
	}
	p.hold(x)
	finer := float64(from.turn) / float64(p.turn)
	for i := range p.contacts {
		c := &p.contacts[i]
		by := inner
		if c.onWall() {
			by = wall
		}
		press := finer * from.between(p.angle(c.node[0])*stretch, by)
		room := max(c.room(x.r), 0)
		gap := max(room, min((room+math.Sqrt(room*room+4*warm))/2, warm/max(press, 1e-12)), 1e-3*p.h)
		x.gap, x.press = append(x.gap, gap), append(x.press, max(press, warm/gap))
	}
	return x
}

// byNode is what the contacts have, by node: of those from inside, and of those with the wall.
func (x *state) byNode(of []float64) (inner, wall []float64) {
	inner, wall = make([]float64, x.last+1), make([]float64, x.last+1)
	for i, v := range of {
		if c := &x.contacts[i]; c.onWall() {
			wall[c.node[0]] = v
		} else {
			inner[c.node[0]] = v
		}
	}
	return inner, wall
}
