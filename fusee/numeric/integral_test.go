package numeric

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/testquad"
)

// The problems with known answers are gonum's own.
func TestAdaptiveOnKnownIntegrals(t *testing.T) {
	problems := []testquad.Integral{
		testquad.Constant(math.Pi), testquad.Poly(3), testquad.Poly(15),
		testquad.Sin(), testquad.XExpMinusX(), testquad.Sqrt(), testquad.ExpOverX2Plus1(),
	}
	for _, p := range problems {
		if got := Adaptive(p.A, p.B, 1e-12, p.F); math.Abs(got-p.Value) > 1e-10 {
			t.Errorf("%s: %.15g, want %.15g", p.Name, got, p.Value)
		}
	}
}

func TestAdaptiveWithKink(t *testing.T) {
	f := func(x float64) float64 { return math.Max(x, 1/math.Pi) }
	want := 1/math.Pi/math.Pi + (1-1/math.Pi/math.Pi)/2
	for _, kinks := range [][]float64{nil, {1 / math.Pi}, {0, 1 / math.Pi, 1 / math.Pi, 1, 2}} {
		if got := Adaptive(0, 1, 1e-13, f, kinks...); math.Abs(got-want) > 1e-12 {
			t.Errorf("kinks %v: %.15g, want %.15g", kinks, got, want)
		}
	}
	if got := Adaptive(1, 1, 1e-13, f); got != 0 {
		t.Errorf("over nothing: %g", got)
	}
}

// A jump that no halving resolves ends at the deepest, or where no number lies
// between, and not later.
func TestAdaptiveEnds(t *testing.T) {
	calls := 0
	jump := func(x float64) float64 {
		calls++
		if x < 1/math.Pi {
			return 0
		}
		return 1
	}
	if got := Adaptive(0, 1, 0, jump); math.Abs(got-(1-1/math.Pi)) > 1e-9 {
		t.Errorf("jump: %.15g", got)
	}
	if calls > 1<<12 {
		t.Errorf("%d calls", calls)
	}
	next := math.Nextafter(1, 2)
	if got := Adaptive(1, next, 0, func(float64) float64 { return 3 }); math.Abs(got-3*(next-1)) > 1e-30 {
		t.Errorf("between neighbours: %g", got)
	}
	Adaptive(0, 1, 1e-12, func(float64) float64 { return math.NaN() })
}

// Two points: ½ ± 1/(2√3); three: ½ and ½ ± √(3/5)/2 with weights 4/9 and 5/18
// (C. F. Gauss, Methodus nova integralium valores per approximationem inveniendi,
// 1814).
func TestGaussPoints(t *testing.T) {
	two, three := NewGauss(2), NewGauss(3)
	for i, want := range []float64{0.5 - 0.5/math.Sqrt(3), 0.5 + 0.5/math.Sqrt(3)} {
		within(t, "point", two.at[i], want, 1e-15)
		within(t, "weight", two.weight[i], 0.5, 1e-15)
	}
	for i, want := range []float64{0.5 - math.Sqrt(0.6)/2, 0.5, 0.5 + math.Sqrt(0.6)/2} {
		within(t, "point", three.at[i], want, 1e-15)
		within(t, "weight", three.weight[i], []float64{5. / 18, 4. / 9, 5. / 18}[i], 1e-15)
	}
}

// A rule of n points is exact up to the degree 2n−1 and not beyond; over b to a it
// is the negative of that over a to b, and panels add up.
func TestGaussDegree(t *testing.T) {
	for n := 1; n <= 12; n++ {
		g := NewGauss(n)
		for degree := 0; degree <= 2*n; degree++ {
			f := func(x float64) float64 { return math.Pow(x, float64(degree)) }
			want := (math.Pow(3, float64(degree+1)) - 1) / float64(degree+1)
			got := g.Over(1, 3, f)
			if exact := math.Abs(got/want-1) < 1e-13; exact != (degree < 2*n) && n < 6 || degree < 2*n && !exact {
				t.Errorf("%d points, degree %d: %.16g, want %.16g", n, degree, got, want)
			}
			within(t, "backwards", g.Over(3, 1, f), -got, 1e-14*math.Abs(got))
			parts := g.Over(1, 1.5, f) + g.Over(1.5, 2, f) + g.Over(2, 2.5, f) + g.Over(2.5, 3, f)
			within(t, "panels", g.Panels(1, 3, 4, f), parts, 1e-14*math.Abs(parts))
		}
	}
	if got := NewGauss(2).Panels(0, 1, 0, math.Exp); got != 0 {
		t.Errorf("no panels: %g", got)
	}
	if got := NewGauss(0).Over(2, 5, func(x float64) float64 { return x }); got != 3*3.5 {
		t.Errorf("no points stand for one: %g", got)
	}
}

func within(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: %.17g, want %.17g", what, got, want)
	}
}
