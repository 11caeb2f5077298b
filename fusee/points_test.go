package fusee

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/interp"
)

// points makes points of a rising cone.
func points(rnd *rand.Rand, n int) []Point {
	list := make([]Point, n)
	for i := range list {
		list[i] = Point{float64(i) + 0.4*rnd.Float64(), (6 + float64(2*i) + rnd.Float64()) * mm}
	}
	list[0].Turn = 0
	return list
}

// A profile goes through its points, rises between them, and has the slope and the
// area that it says.
func TestThrough(t *testing.T) {
	rnd := rand.New(rand.NewPCG(8, 9))
	for n := 2; n < 20; n++ {
		list := points(rnd, n)
		p, err := Through(list, 0.9*mm)
		if err != nil {
			t.Fatal(err)
		}
		closeTo(t, "turns", p.Turns(), list[n-1].Turn, 1e-15)
		for _, q := range list {
			r, _, _ := p.At(q.Turn)
			closeTo(t, "radius at a point", r, q.Radius, 1e-12)
		}
		last := 0.0
		const steps = 4000
		for i := range steps {
			h := p.Turns() / steps
			theta := (float64(i) + 0.5) * h
			r, dr, _ := p.At(theta)
			if r < last {
				t.Fatalf("%d points: falls at %g", n, theta)
			}
			up, _, more := p.At(theta + 1e-4*h)
			down, _, less := p.At(theta - 1e-4*h)
			closeTo(t, "slope of the area", (more-less)/(2e-4*h), r, 1e-6)
			if math.Abs(dr-(up-down)/(2e-4*h)) > 1e-5*mm {
				t.Errorf("%d points: slope %g at %g", n, dr, theta)
			}
			last = r
		}
	}
}

// Points at whole turns, more than a few, make the profile of Measured, whatever the
// line; the plain monotone cubic is gonum's.
func TestManyPointsAreMeasured(t *testing.T) {
	rnd := rand.New(rand.NewPCG(2, 3))
	for n := FewPoints + 1; n < 14; n++ {
		list, radii, at := points(rnd, n), make([]float64, n), make([]float64, n)
		for i := range list {
			list[i].Turn, at[i], radii[i] = float64(i), float64(i), list[i].Radius
		}
		p, err1 := Through(list, rnd.Float64()*mm)
		q, err2 := Measured(radii)
		var cubic interp.FritschButland
		if err := errors.Join(err1, err2, cubic.Fit(at, radii)); err != nil {
			t.Fatal(err)
		}
		for theta := -0.5; theta < float64(n); theta += 0.0713 {
			a, da, area := p.At(theta)
			b, db, also := q.At(theta)
			if a != b || da != db || area != also {
				t.Fatalf("%d points at %g: %g, %g, %g and %g, %g, %g", n, theta, a, da, area, b, db, also)
			}
			closeTo(t, "gonum's cubic", a, cubic.Predict(min(max(theta, 0), float64(n-1))), 1e-13)
		}
	}
}

// The even profile of a couple that grows as M = k √(φ + a) makes 1/ρ³ linear in θ, in
// closed form: dφ/dθ = −C/M gives (φ + a)^3/2 = (φs + a)^3/2 + 3C(n − θ)/(2k). Any few
// points of it give the whole.
func TestEvenPullOfRootLaw(t *testing.T) {
	const n, rb, half, phi, a = 16.0, 26 * mm, 0.9 * mm, 1.0, 0.4
	k, c := 0.5, 0.35
	radius := func(theta float64) float64 {
		wound := math.Pow(math.Pow(phi+a, 1.5)+3*c*(n-theta)/(2*k), 2.0/3)
		return c*rb/(k*math.Sqrt(wound)) - half
	}
	for _, at := range [][]float64{{0, 8, n}, {0, 2, 9, n}, {0, 1.5, 3, 15, n}} {
		list := make([]Point, len(at))
		for i, theta := range at {
			list[i] = Point{theta, radius(theta)}
		}
		p, err := Through(list, half)
		if err != nil {
			t.Fatal(err)
		}
		for theta := 0.0; theta <= n; theta += 0.13 {
			r, _, _ := p.At(theta)
			closeTo(t, "radius", r, radius(theta), 3e-5)
		}
	}
}

// The doubt is nothing at the points and beyond the cone, greatest in the middle of
// the widest gap, and falls as the points come closer.
func TestDoubt(t *testing.T) {
	list := []Point{{0, 8 * mm}, {4, 9 * mm}, {16, 15 * mm}}
	for _, theta := range []float64{-1, 0, 4, 16, 17, math.NaN()} {
		if d := Doubt(list, theta); d != 0 {
			t.Errorf("at %g: %g", theta, d)
		}
	}
	closeTo(t, "in the middle", Doubt(list, 10), 0.3*0.75*0.75, 1e-12)
	closeTo(t, "a quarter of the way", Doubt(list, 7), 0.75*Doubt(list, 10), 1e-12)
	closeTo(t, "the narrow gap", Doubt(list, 2), 0.3*0.25*0.25, 1e-12)
	closeTo(t, "the greatest", MostDoubt(list), Doubt(list, 10), 1e-12)
	closeTo(t, "half the gap", MostDoubt([]Point{{0, 1}, {8, 1}, {16, 1}}), 0.3/4, 1e-12)
	if MostDoubt(points(rand.New(rand.NewPCG(1, 1)), 6)) != 0 || MostDoubt(nil) != 0 || Doubt(nil, 1) != 0 {
		t.Error("many points, or none, are in doubt")
	}
}

func TestThroughFails(t *testing.T) {
	for i, list := range [][]Point{
		{{1, 1}, {2, 1}, {3, 1}}, {{0, 1}, {2, 1}, {2, 1}}, {{0, 1}, {2, 1}, {1, 1}}, {{0, 1}, {math.NaN(), 1}, {3, 1}}, {{0, 1}, {1, 1}, {math.Inf(1), 1}},
	} {
		if _, err := Through(list, 0); !errors.Is(err, ErrTurns) {
			t.Errorf("%d: %v", i, err)
		}
	}
	for i, list := range [][]Point{nil, {{0, 1}}, {{0, 1}, {1, 0}}, {{0, 1}, {1, math.Inf(1)}}, {{0, 1}, {1, -1}, {2, 1}}} {
		if _, err := Through(list, 0); !errors.Is(err, ErrProfile) {
			t.Errorf("%d: %v", i, err)
		}
	}
}
