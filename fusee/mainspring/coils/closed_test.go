package coils

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mathext"

	"evenpull/fusee/mainspring"
	"evenpull/fusee/numeric"
)

// A strip free of contact bears the couple EI(κ − κ0) everywhere. Held along arbor and wall and
// turned by an odd number of half turns it is one circle that touches both from within and
// without: κ = 2/(inner + outer), whatever its even natural curvature (closed form; computed
// by us).
func TestFreeStrip(t *testing.T) {
	const inner, outer, own = 0.4, 0.9, 0.7
	const angle = 7 * math.Pi
	rho, off := (inner+outer)/2, (outer-inner)/2
	circle := func(at float64) float64 {
		return -off*math.Cos(at) + math.Sqrt(rho*rho-off*off*math.Sin(at)*math.Sin(at))
	}
	var shapes, couples []float64
	for _, n := range []int{48, 96, 192} {
		s := even(0.02, rho*angle, inner, outer, own, mainspring.Braced)
		p := alone(s, newGrid(n, angle))
		x := p.through(func(at float64) float64 { return inner + (outer-inner)*at/angle })
		p.hold(x)
		x, err := p.least(x, start)
		if err != nil {
			t.Fatal(err)
		}
		worst := 0.0
		for i, r := range x.r {
			worst = max(worst, math.Abs(r-circle(p.angle(i))))
		}
		shapes = append(shapes, worst)
		couples = append(couples, math.Abs(p.couple(x)-(1/rho-own)))
	}
	order(t, "radii", 2, shapes...)
	order(t, "couple", 2, couples...)
	if couples[0] > 2e-3*(1/rho-own) {
		t.Errorf("the couple of 48 nodes a turn is off by %.3g", couples[1])
	}
}

// Of coils packed on the arbor, r = a + cφ, length and bending energy are integrals (the
// length in closed form, the energy by quadrature).
func TestPackedCoils(t *testing.T) {
	const inner, h, own, angle = 0.35, 0.017, 0.4, 8*math.Pi + 0.3
	rise := h / (2 * math.Pi)
	radius := func(at float64) float64 { return inner + rise*at }
	energy := numeric.Adaptive(0, angle, 1e-12, func(at float64) float64 {
		r := radius(at)
		g2 := r*r + rise*rise
		k := (r*r+2*rise*rise)/(g2*math.Sqrt(g2)) - own
		return k * k / 2 * math.Sqrt(g2)
	})
	var lengths, energies []float64
	for _, n := range []int{12, 24, 48} {
		p := alone(even(h, 1, inner, 1, own, mainspring.Braced), newGrid(n, angle))
		x := p.through(radius)
		lengths = append(lengths, math.Abs(x.s[p.last]-archimedean(inner, rise, angle))+1e-15)
		var b bend
		sum := 0.0
		for i := 1; i < p.last; i++ {
			p.bent(&b, x, i)
			sum += b.e
		}
		ends := 0.0 // half the nodes at the ends, which are not held along a circle here
		for _, at := range []float64{0, angle} {
			r := radius(at)
			g2 := r*r + rise*rise
			k := (r*r+2*rise*rise)/(g2*math.Sqrt(g2)) - own
			ends += k * k / 4 * math.Sqrt(g2)
		}
		sum += ends * p.step * (1 + (p.start/p.step-1)/2)
		energies = append(energies, math.Abs(sum-energy))
	}
	order(t, "length", 2, lengths...)
	if energies[2] > 1e-4*energy || energies[2] > energies[0] {
		t.Errorf("energies off by %.3g of %.3g", energies, energy)
	}
}

// A straight strip clamped at one end and free to turn about a hook at the other, touching
// nothing, is an elastica that is straight at the hook: sin(θ/2) = k sn u, κ = 2kω cn u,
// x = (2E(am u) − u)/ω, y = 2k(1 − cn u)/ω, ω² being the force over EI, along x (A. E. H. Love,
// A Treatise on the Mathematical Theory of Elasticity, §§ 262 and 263; from memory).
func TestElastica(t *testing.T) {
	const k, omega, inner, reach = 0.8, 1.0, 0.3, 1.5 // reach: of u, from the hook
	quarter := mathext.CompleteK(k * k)
	type point struct{ x, y, theta float64 }
	at := func(u float64) point {
		_, am := numeric.Root(-2, 2, 1e-15, func(phi float64) float64 {
			sign := 1.0
			if phi < 0 {
				sign, phi = -1, -phi
			}
			if phi > math.Pi/2 {
				return sign*(2*quarter-mathext.EllipticF(math.Pi-phi, k*k)) - u
			}
			return sign*mathext.EllipticF(phi, k*k) - u
		})
		e := mathext.EllipticE(math.Abs(am), k*k)
		return point{(2*math.Copysign(e, am) - u) / omega, 2 * k * (1 - math.Cos(am)) / omega, 2 * math.Asin(k*math.Sin(am))}
	}
	from := quarter - reach
	clamp, hook := at(from), at(quarter-1e-12)
	// The centre lies to the left of the strip, which turns to the left.
	cx, cy := clamp.x-inner*math.Sin(clamp.theta), clamp.y+inner*math.Cos(clamp.theta)
	polar := func(p point) (r, angle float64) {
		dx, dy := p.x-cx, p.y-cy
		turn := math.Atan2(dy, dx) - math.Atan2(clamp.y-cy, clamp.x-cx)
		return math.Hypot(dx, dy), math.Mod(turn+4*math.Pi, 2*math.Pi)
	}
	outer, angle := polar(hook)
	couple := omega * omega * math.Abs(hook.y-cy)
	var radii, couples []float64
	for _, n := range []int{25, 50, 100} {
		step := angle / float64(n)
		p := alone(even(0, reach/omega, inner, outer, 0, mainspring.Hooked), grid{turn: n, last: n, step: step, start: step})
		x := p.through(func(at float64) float64 { return inner + (outer-inner)*(at/angle)*(at/angle) })
		p.hold(x)
		x, err := p.least(x, start)
		if err != nil {
			t.Fatal(err)
		}
		worst := 0.0
		for i := 1; i < n; i++ {
			_, u := numeric.Root(from, quarter, 1e-13, func(u float64) float64 {
				if u == from {
					return -1
				}
				_, a := polar(at(u))
				return a - p.angle(i)
			})
			r, _ := polar(at(u))
			worst = max(worst, math.Abs(r-x.r[i]))
		}
		radii = append(radii, worst)
		// The moment where it is clamped, and the pull times its arm, about the centre.
		by := 1e-4 * step
		stretched := func(by float64) float64 {
			q := *p
			q.step = (angle + by) / float64(n)
			q.start = q.step
			q.stencils, q.weights = q.grid.stencils(mainspring.Hooked)
			e, _, _ := q.value(x)
			for j := range n {
				e += x.pull[j] * q.lacking(x, j)
			}
			return e
		}
		couples = append(couples, math.Abs((stretched(by)-stretched(-by))/(2*by)-couple))
	}
	order(t, "radii", 2, radii...)
	order(t, "couple", 2, couples...)
	if couples[2] > 5e-3*couple {
		t.Errorf("couple %.4g, off by %.3g", couple, couples)
	}
}

// A coil drawn tight over the arbor while it slides pulls e^{μα} times as hard at one end of
// the angle α as at the other (L. Euler, 1762; textbook knowledge).
func TestCapstan(t *testing.T) {
	const friction, inner, outer = 0.2, 0.5, 1.0
	wrap := 1.5 * math.Pi
	line := math.Sqrt(outer*outer - inner*inner)
	angle := wrap + math.Acos(inner/outer)
	var offs []float64
	for _, n := range []int{100, 200, 400} {
		step := angle / float64(n)
		s := even(1e-9, (inner*wrap+line)*1.002, inner, outer, 1/inner, mainspring.Hooked)
		s.friction = friction
		p := newProblem(s, grid{turn: 10 * n, last: n, step: step, start: step})
		guess := func(at float64) float64 {
			if at <= wrap {
				return inner
			}
			return inner / math.Cos(at-wrap)
		}
		x := p.through(guess)
		for i := range x.s {
			x.s[i] *= s.length / x.s[n]
		}
		p.hold(x)
		for i := range p.contacts {
			gap := max(p.contacts[i].room(x.r), 1e-3)
			x.gap, x.press = append(x.gap, gap), append(x.press, start/gap)
		}
		p.creep = 1e-6
		for i := range p.contacts {
			p.slides = append(p.slides, slide{over: p.contacts[i].node[0], under: -1, a: 1, off: 100})
		}
		slides := p.slides
		p.slides = nil
		x, err := p.least(x, start)
		if err != nil {
			t.Fatal(err)
		}
		p.slides = slides
		if x, err = p.stay(x, warm); err != nil {
			t.Fatal(err)
		}
		i, j := n/10, n/2
		alpha := p.angle(j) - p.angle(i)
		got := math.Abs(math.Log(x.pull[j] / x.pull[i]))
		offs = append(offs, math.Abs(got-friction*alpha))
		if x.press[0] < 0 || math.Abs(got-friction*alpha) > 1e-3*friction*alpha {
			t.Errorf("%d nodes: the pull grows by e^%.6f, want e^%.6f", n, got, friction*alpha)
		}
	}
	order(t, "the pull", 1.8, offs...)
}
