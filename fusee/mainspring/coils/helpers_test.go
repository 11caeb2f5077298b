package coils

import (
	"math"
	"testing"

	"evenpull/fusee/mainspring"
)

// reference is a strip with its dimensions as round as they come, held as told.
func reference(t testing.TB, end mainspring.End, friction float64, nodes int) (*Barrel, *mainspring.Curve) {
	return barrelOf(t, mainspring.Strip{
		Width: 36e-3, Thickness: 0.38e-3, Length: 1.65, Modulus: 206e9, Bending: mainspring.Narrow,
		Form: mainspring.Set, Yield: 1620e6,
	}, mainspring.Housing{Arbor: 7.5e-3, Inside: 22.5e-3}, end, friction, nodes)
}

func barrelOf(t testing.TB, s mainspring.Strip, in mainspring.Housing, end mainspring.End, friction float64, nodes int) (*Barrel, *mainspring.Curve) {
	t.Helper()
	c, err := mainspring.New(s, in)
	if err != nil {
		t.Fatal(err)
	}
	b, err := NewBarrel(Of(&c, end, friction), c.Angle(0), nodes)
	if err != nil {
		t.Fatal(err)
	}
	return b, &c
}

func free(t testing.TB, b *Barrel, turns float64, near *Shape) *Shape {
	t.Helper()
	s, err := b.Free(turns, near)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// even is a strip of stiffness 1 with one natural curvature everywhere, and no friction.
func even(h, length, inner, outer, curvature float64, end mainspring.End) *strip {
	return &strip{h: h, length: length, inner: inner, outer: outer, end: end, natural: func(float64) natural { return natural{curvature: curvature} }}
}

// alone is a strip of which nothing touches anything.
func alone(s *strip, g grid) *problem {
	p := newProblem(s, g)
	p.contacts, p.off = nil, nil
	return p
}

// through is a shape through the given radii.
func (p *problem) through(radius func(angle float64) float64) *state {
	x := &state{grid: p.grid, contacts: p.contacts, r: make([]float64, p.last+1), s: make([]float64, p.last+1), pull: make([]float64, p.last)}
	for i := range x.r {
		x.r[i] = radius(p.angle(i))
	}
	for j := range p.last {
		length, _, _ := p.cellLength(x.r, j)
		x.s[j+1] = x.s[j] + length
	}
	return x
}

// order is the power of the step with which errors fall, each of a step half as long.
func order(t *testing.T, what string, want float64, errors ...float64) {
	t.Helper()
	for i := 1; i < len(errors); i++ {
		if got := math.Log2(errors[i-1] / errors[i]); !(got > want-0.15) {
			t.Errorf("%s: %.3g, with the step halved %.3g: order %.2f, want %.2g", what, errors[i-1], errors[i], got, want)
		}
	}
}
