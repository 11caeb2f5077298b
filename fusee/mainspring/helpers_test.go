package mainspring

import (
	"math"
	"math/rand/v2"
	"testing"
)

const mm, MPa, GPa = 1e-3, 1e6, 1e9

// clockSpring is an invented eight-day spring in its barrel.
func clockSpring(f Form) (Strip, Housing) {
	return Strip{
		Width: 38 * mm, Thickness: 0.40 * mm, Length: 1850 * mm, Modulus: 206 * GPa,
		Bending: Narrow, Poisson: 0.3, Form: f, FreeCoils: 7, Yield: 1650 * MPa,
	}, Housing{Arbor: 7.5 * mm, Inside: 23 * mm}
}

func mustCurve(t testing.TB, s Strip, in Housing) Curve {
	t.Helper()
	c, err := New(s, in)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// family makes n springs from carriage to turret clock, of every form and
// fill; what cannot be built is passed over.
func family(t testing.TB, n int) []Curve {
	t.Helper()
	rnd := rand.New(rand.NewPCG(7, 42))
	var all []Curve
	for len(all) < n {
		arbor := (3 + 20*rnd.Float64()) * mm
		in := Housing{Arbor: arbor, Inside: arbor * (1.5 + 4*rnd.Float64())}
		s := Strip{
			Width: 38 * mm, Thickness: arbor / (10 + 30*rnd.Float64()), Modulus: 206 * GPa,
			Bending: Bending(rnd.IntN(3)), Poisson: 0.3, Form: Form(rnd.IntN(3)),
			FreeCoils: 10 * rnd.Float64(), Yield: (600 + 2500*rnd.Float64()) * MPa,
			Packing: max(0.95+0.2*rnd.Float64(), 1), // a quarter of them ideal
		}
		s.Length = s.LongestFor(in) * (0.1 + 0.85*rnd.Float64())
		if c, err := New(s, in); err == nil {
			all = append(all, c)
		}
	}
	return all
}

// closeTo compares relatively, absolutely near zero.
func closeTo(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*math.Max(1e-300, math.Abs(want))) {
		t.Errorf("%s = %.12g, want %.12g (off by %.2g, allowed %.2g)", what, got, want, got/want-1, tol)
	}
}

// coupleRolling is the couple m of bendRolling.
func coupleRolling(c *Curve, t float64) float64 {
	m, _ := c.bendRolling(t, nil)
	return m
}
