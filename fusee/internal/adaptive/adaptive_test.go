package adaptive

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/testquad"
)

// The problems with known answers are gonum's own.
func TestKnownIntegrals(t *testing.T) {
	problems := []testquad.Integral{
		testquad.Constant(math.Pi), testquad.Poly(3), testquad.Poly(15),
		testquad.Sin(), testquad.XExpMinusX(), testquad.Sqrt(), testquad.ExpOverX2Plus1(),
	}
	for _, p := range problems {
		if got := Integrate(p.F, p.A, p.B, 1e-12); math.Abs(got-p.Value) > 1e-10 {
			t.Errorf("%s: %.15g, want %.15g", p.Name, got, p.Value)
		}
	}
}

func TestKink(t *testing.T) {
	f := func(x float64) float64 { return math.Max(x, 1/math.Pi) }
	want := 1/math.Pi/math.Pi + (1-1/math.Pi/math.Pi)/2
	if got := Integrate(f, 0, 1, 1e-13, 1/math.Pi); math.Abs(got-want) > 1e-12 {
		t.Errorf("%.15g, want %.15g", got, want)
	}
	if got := Integrate(f, 1, 1, 1e-13); got != 0 {
		t.Errorf("over nothing: %g", got)
	}
}
