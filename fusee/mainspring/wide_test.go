package mainspring

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/mat"
)

// stiffening is Ψ of a strip bent to a curvature (1/m).
func stiffening(s Strip, curvature float64) float64 { return s.stiffened(s.Flatness(curvature)) }

// Direct solutions of the transverse plate equation, our own; theory: D. G. Ashwell,
// J. R. Aeronaut. Soc. 54 (1950), G. F. C. Searle, Experimental Elasticity (1908).
func TestWideStrip(t *testing.T) {
	for _, c := range []struct{ width, thickness, radius, want float64 }{
		{36, 0.38, 7.5, 1.0934889}, {36, 0.38, 22, 1.0896317}, {12, 0.18, 5, 1.0897770},
		{80, 1.6, 30, 1.0889061}, {10, 1, 100, 1.0029053}, {10, 1, 20, 1.0402011},
	} {
		s := Strip{Width: c.width * mm, Thickness: c.thickness * mm, Poisson: 0.3}
		if got := stiffening(s, 1/(c.radius*mm)); math.Abs(got-c.want) > 0.5e-7 {
			t.Errorf("%v × %v mm round %v mm: Ψ = %.7f, want %.7f", c.width, c.thickness, c.radius, got, c.want)
		}
	}
}

// The strip across its width solved directly: the shape w(y) that makes the energy
//
//	½∫ D (w″² + 2νκ w″ + κ²) + E h κ² w² dy
//
// least, as a sum of even Legendre polynomials, whose free edges come by themselves; the
// couple is the energy's slope with κ.
func ritz(s Strip, curvature float64) float64 {
	const terms = 50
	half := s.Width / 2
	plate := s.Modulus * s.Thickness * s.Thickness * s.Thickness / 12 / (1 - s.Poisson*s.Poisson)
	bed := s.Modulus * s.Thickness * curvature * curvature
	at, weight := make([]float64, 4*terms), make([]float64, 4*terms)
	quad.Legendre{}.FixedLocations(at, weight, -1, 1)
	a, b := mat.NewSymDense(terms, nil), mat.NewVecDense(terms, nil)
	for i, y := range at {
		p, dd := legendre(y, 2*terms)
		for m := range terms {
			bend := dd[2*m] / (half * half)
			b.SetVec(m, b.AtVec(m)-weight[i]*half*plate*s.Poisson*curvature*bend)
			for n := m; n < terms; n++ {
				a.SetSym(m, n, a.At(m, n)+weight[i]*half*(plate*bend*dd[2*n]/(half*half)+bed*p[2*m]*p[2*n]))
			}
		}
	}
	var shape mat.VecDense
	if err := shape.SolveVec(a, b); err != nil {
		if _, poor := err.(mat.Condition); !poor {
			return math.NaN()
		}
	}
	couple := plate * curvature * s.Width
	for i, y := range at {
		p, dd := legendre(y, 2*terms)
		w, bend := 0.0, 0.0
		for m := range terms {
			w += shape.AtVec(m) * p[2*m]
			bend += shape.AtVec(m) * dd[2*m] / (half * half)
		}
		couple += weight[i] * half * (plate*s.Poisson*bend + s.Modulus*s.Thickness*curvature*w*w)
	}
	return couple / (s.Modulus * s.Width * s.Thickness * s.Thickness * s.Thickness / 12 * curvature)
}

// legendre are the polynomials below n at y and their second derivatives, by the
// recurrence of any text.
func legendre(y float64, n int) (p, dd []float64) {
	p, dd = make([]float64, n), make([]float64, n)
	d := make([]float64, n)
	p[0], p[1], d[1] = 1, y, 1
	for k := 2; k < n; k++ {
		f := float64(k)
		p[k] = ((2*f-1)*y*p[k-1] - (f-1)*p[k-2]) / f
		d[k] = d[k-2] + (2*f-1)*p[k-1]
		dd[k] = dd[k-2] + (2*f-1)*d[k-1]
	}
	return p, dd
}

func TestWideStripDirectly(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 9))
	for range 50 {
		s := Strip{Width: (4 + 60*rnd.Float64()) * mm, Modulus: 206 * GPa, Poisson: 0.2 + 0.2*rnd.Float64()}
		s.Thickness = s.Width / (8 + 120*rnd.Float64())
		curvature := 1 / (s.Thickness * (15 + 200*rnd.Float64()))
		closeTo(t, "Ψ", stiffening(s, curvature), ritz(s, curvature), 1e-6)
	}
}

// Narrow it is a strip, wide a plate, and on the way the law is θ⁴/90, then 1 − 1.5/θ.
func TestWideStripAtItsLimits(t *testing.T) {
	s := Strip{Width: 1, Thickness: 1, Poisson: 0.3}
	theta := func(v float64) float64 { return v * v / math.Sqrt(3*0.91) } // the curvature of a θ
	for _, v := range []float64{1e-6, 1e-3, 0.0999, 0.1001, 0.2} {
		closeTo(t, "p of a narrow strip", s.Flatness(theta(v)), v*v*v*v/90, v*v*v*v/40+1e-7)
	}
	for _, v := range []float64{15, 30, 700, 1e6} {
		closeTo(t, "p of a wide strip", s.Flatness(theta(v)), 1-1.5/v, 1e-5)
	}
	last := 0.0
	for v := 0.01; v < 50; v *= 1.01 {
		p := s.Flatness(theta(v))
		if !(p > last && p < 1) {
			t.Errorf("θ = %g: p = %g after %g", v, p, last)
		}
		last = p
	}
	s.Bending = Narrow
	if p := s.Flatness(5); p != 0 || s.stiffened(p) != 1 || planeStrain(p) != 1 {
		t.Errorf("a strip: %g", p)
	}
	s.Bending = Plate
	if p := s.Flatness(5); p != 1 || math.Abs(s.stiffened(p)*0.91-1) > 1e-15 || math.Abs(planeStrain(p)-1.1547005) > 1e-7 {
		t.Errorf("a plate: %g", p)
	}
}
