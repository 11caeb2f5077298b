package fit

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// straightProblem is a model that is a sum of columns times parameters, drawn at
// random, with its columns.
func straightProblem(random *rand.Rand) (Problem, *mat.Dense) {
	m := 1 + random.IntN(4)
	n := m + 1 + random.IntN(6)
	a := mat.NewDense(n, m, nil)
	p := Problem{Y: make([]float64, n), SD: make([]float64, n), Start: make([]float64, m), Lo: make([]float64, m), Hi: make([]float64, m)}
	for i := range n {
		p.Y[i], p.SD[i] = 3*random.NormFloat64(), 0.3+random.Float64()
		for k := range m {
			a.Set(i, k, random.NormFloat64())
		}
	}
	for k := range m {
		p.Start[k], p.Lo[k], p.Hi[k] = random.NormFloat64(), -inf, inf
	}
	p.Predict = func(b, f []float64) error {
		mat.NewVecDense(n, f).MulVec(a, mat.NewVecDense(m, b))
		return nil
	}
	p.Jacobian = func(_ []float64, j *mat.Dense) error { j.Copy(a); return nil }
	return p, a
}

// started is a solver that knows its derivatives.
func started(t *testing.T, p Problem) *solver {
	t.Helper()
	s := newSolver(p)
	s.rss = s.evaluate(s.b, s.f)
	if !s.linearise() {
		t.Fatal(s.fault)
	}
	return s
}

// uphill is half the gradient of the weighted sum of squares at some parameters,
// and that sum, worked out anew.
func uphill(p Problem, a *mat.Dense, b []float64) (g []float64, rss float64) {
	n, m := a.Dims()
	g = make([]float64, m)
	for i := range n {
		r := -p.Y[i]
		for k := range m {
			r += a.At(i, k) * b[k]
		}
		r /= p.SD[i]
		rss += r * r
		for k := range m {
			g[k] += r * a.At(i, k) / p.SD[i]
		}
	}
	return g, rss
}

// A damped step solves Marquardt's equations (JᵀWJ + λD)δ = JᵀWr, with D the squared
// lengths of the columns (D. W. Marquardt, J. SIAM 11, 1963), and falls as foretold
// where the model is straight.
func TestMarquardt(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 1))
	for range 200 {
		p, a := straightProblem(random)
		s := started(t, p)
		n, m := a.Dims()
		damping := []float64{0, 0.1, 3}[random.IntN(3)]
		foretold := s.step(damping)
		g, before := uphill(p, a, s.b)
		_, after := uphill(p, a, s.target)
		if math.Abs(foretold-(before-after)) > 1e-9*before || !(foretold > 0) {
			t.Fatalf("a fall of %v was foretold, it is %v", foretold, before-after)
		}
		s.evaluate(s.target, s.next)
		if math.Abs(s.fall()-(before-after)) > 1e-9*before {
			t.Fatalf("a fall of %v, it is %v", s.fall(), before-after)
		}
		for k := range m {
			sum, length := g[k], 0.0
			for i := range n {
				w := 1 / (p.SD[i] * p.SD[i])
				length += w * a.At(i, k) * a.At(i, k)
				for l := range m {
					sum += w * a.At(i, k) * a.At(i, l) * (s.target[l] - s.b[l])
				}
			}
			if sum += damping * length * (s.target[k] - s.b[k]); math.Abs(sum) > 1e-9*math.Sqrt(before*length) {
				t.Fatalf("damping %v: %v is left of equation %d", damping, sum, k+1)
			}
		}
	}
}

// With bounds an undamped step leads to where the others are at the least sum for
// those on their bounds: their gradient is nothing.
func TestTheOthersFollow(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 2))
	clipped, pressed := 0, 0
	for range 600 {
		p, a := straightProblem(random)
		for k, b := range p.Start {
			switch random.IntN(4) {
			case 0:
				p.Lo[k] = b - 0.3*random.Float64()
			case 1:
				p.Hi[k] = b + 0.3*random.Float64()
			case 2:
				p.Lo[k] = b
			}
		}
		s := started(t, p)
		uphillAtStart, before := uphill(p, a, s.b)
		for k, g := range uphillAtStart {
			if want := s.b[k] == p.Lo[k] && g > 0; s.pressed[k] != want {
				t.Fatalf("parameter %d on its bound %v, gradient %v: pressed %v", k+1, p.Lo[k], g, s.pressed[k])
			}
		}
		full := s.straight()
		foretold := s.step(0)
		g, after := uphill(p, a, s.target)
		if math.Abs(foretold-(before-after)) > 1e-9*before || foretold > full*(1+1e-9)+1e-9 {
			t.Fatalf("a fall of %v was foretold and %v without bounds, it is %v", foretold, full, before-after)
		}
		for k, b := range s.target {
			on := b == p.Lo[k] || b == p.Hi[k]
			switch {
			case b < p.Lo[k] || b > p.Hi[k]:
				t.Fatalf("parameter %d goes to %v, outside %v to %v", k+1, b, p.Lo[k], p.Hi[k])
			case s.pressed[k]:
				pressed++
				if b != s.b[k] {
					t.Fatalf("parameter %d leaves the bound that it presses on", k+1)
				}
			case on:
				clipped++
			case math.Abs(g[k]) > 1e-8*math.Sqrt(before)*s.norm[k]:
				t.Fatalf("parameter %d: a gradient of %v is left", k+1, g[k])
			}
		}
	}
	if clipped < 100 || pressed < 100 {
		t.Errorf("%d on a bound after the step, %d before", clipped, pressed)
	}
}

// Differences to both sides and to one are exact for a parabola, whatever the step
// (closed form), and leave the parameters as they were.
func TestDifferences(t *testing.T) {
	x := []float64{1, 2, 3, 4}
	parabola := func(b []float64, x float64) float64 { return b[0] + b[1]*x*b[1] - 2*b[0]*b[1] }
	s := newSolver(Problem{Predict: over(x, parabola), Y: x, Start: []float64{0.7, 1.3}})
	s.rss = s.evaluate(s.b, s.f)
	copy(s.probe, s.b)
	for what, take := range map[string]func(k int, h float64) bool{"central": s.central, "sided": s.sided} {
		for _, h := range []float64{0.5, 0.01, -0.25} {
			for k := range 2 {
				if !take(k, h) {
					t.Fatal(s.fault)
				}
				for i, x := range x {
					want := 1 - 2*1.3
					if k == 1 {
						want = 2*1.3*x - 2*0.7
					}
					closeTo(t, what, s.jacobian.At(i, k), want, 1e-11)
				}
			}
		}
	}
	if s.probe[0] != 0.7 || s.probe[1] != 1.3 || s.b[0] != 0.7 || s.b[1] != 1.3 {
		t.Errorf("%v, %v", s.probe, s.b)
	}
}

// Beside a bound, and between bounds that lie close, the differences are good to the
// square of a step that finds room.
func TestDifferencesBesideBounds(t *testing.T) {
	x := []float64{0.5, 1, 2}
	grows := func(b []float64, x float64) float64 { return math.Exp(b[0] * x) }
	for _, c := range [][3]float64{{1, 1, 2}, {1, 0, 1}, {1, 1, 1 + 4e-7}, {1, 1 - 4e-7, 1}, {1, 1 - 1e-9, 2}, {1, 0, 1 + 1e-9}, {1, -inf, inf}} {
		p := fenced(t, Problem{Predict: over(x, grows), Y: x, Start: c[:1], Lo: c[1:2], Hi: c[2:]})
		s := newSolver(p)
		s.rss = s.evaluate(s.b, s.f)
		if !s.differentiate() {
			t.Errorf("%v: %v", c, s.fault)
			continue
		}
		for i, x := range x {
			closeTo(t, "derivative", s.jacobian.At(i, 0), x*math.Exp(x), 2e-7)
		}
	}
}

// The bounds themselves may be asked at, and nothing beyond them.
func TestMovedToTheBound(t *testing.T) {
	s := newSolver(fenced(t, Problem{Predict: over(lineX, line), Y: lineY, Start: []float64{1, 2}, Lo: []float64{0.5, 2}, Hi: []float64{1.5, 4}}))
	copy(s.probe, s.b)
	for _, c := range []struct {
		k    int
		by   float64
		want bool
	}{{0, 0.5, true}, {0, -0.5, true}, {0, 0.75, false}, {0, -0.75, false}, {1, 0, true}, {1, 2, true}, {1, -0.25, false}, {1, 2.25, false}} {
		if got := s.moved(c.k, c.by, s.up); got != c.want {
			t.Errorf("parameter %d moved by %v: %v", c.k+1, c.by, got)
		}
	}
}

// A step that was foretold well is damped less the next time and in the end not at
// all, one foretold badly more; the borders of a quarter and three quarters are those
// of R. Fletcher, AERE R 6799 (1971), from memory.
func TestNextDamping(t *testing.T) {
	for share, change := range map[float64]int{-1: 1, 0.24: 1, 0.25: 0, 0.5: 0, 0.75: 0, 0.76: -1, 1: -1, 1.5: -1} {
		next := nextDamping(0.5, share)
		if change > 0 && !(next > 0.5) || change == 0 && next != 0.5 || change < 0 && !(next < 0.5 && next > 0) {
			t.Errorf("%v of what was foretold: %v after 0.5", share, next)
		}
	}
	if nextDamping(0, 1) != 0 || nextDamping(0, 0.5) != 0 || !(nextDamping(0, 0.1) > 0) {
		t.Error("without damping a step foretold well needs none, and one foretold badly some")
	}
	damping := 0.5
	for range 20 {
		damping = nextDamping(damping, 1)
	}
	if damping != 0 {
		t.Errorf("%v is left after twenty steps foretold well", damping)
	}
}

// The noise is what the sum of squares changes by when every prediction is off by
// twice the error of the model, to the worse side (worked out anew).
func TestNoise(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 3))
	for range 50 {
		p, _ := straightProblem(random)
		s := started(t, p)
		const large = 1e6 // or the change would be lost in rounding
		sum := 0.0
		for i, f := range s.f {
			r := math.Abs(p.Y[i]-f) / p.SD[i]
			e := large * 2e-12 * math.Abs(f) / p.SD[i]
			sum += ((r+e)*(r+e) - r*r - e*e) / large
		}
		closeTo(t, "noise", s.noise(), sum, 1e-6)
	}
}

// The change over which a model is smooth: as given, else the size of the parameter,
// of a parameter near 0 a hundredth of its start.
func TestTypical(t *testing.T) {
	s := newSolver(Problem{Y: make([]float64, 5), Start: []float64{4, -4, -4, 0, 0}})
	copy(s.b, []float64{2, -3, 0.001, 0, -0.5})
	for k, want := range []float64{2, 3, 0.04, 1, 0.5} {
		closeTo(t, "typical change", s.typical(k), want, 1e-15)
	}
	s.p.Scale = []float64{9, 8, 7, 6, 5}
	for k, want := range s.p.Scale {
		closeTo(t, "typical change", s.typical(k), want, 0)
	}
}

// Evaluations are the calls of the model, and steps are counted.
func TestCounts(t *testing.T) {
	calls := 0
	predict := over(misraX, misra1a)
	r := mustSolve(t, Problem{Predict: func(b, f []float64) error { calls++; return predict(b, f) }, Y: misraY, Start: []float64{500, 0.0001}})
	if r.Evaluations != calls || r.Iterations < 2 || r.Iterations > calls/5 {
		t.Errorf("%d evaluations in %d steps, %d calls", r.Evaluations, r.Iterations, calls)
	}
	// A straight model is at its least after a step without damping or two with some.
	r = mustSolve(t, Problem{Predict: over(lineX, line), Y: lineY, Start: []float64{5, -3}})
	if r.Iterations < 1 || r.Iterations > 4 {
		t.Errorf("%d steps to a straight line", r.Iterations)
	}
}
