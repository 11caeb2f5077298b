package numeric

import (
	"math"
	"math/rand/v2"
	"testing"
)

// With a width of 0 the ends are neighbours, and the condition holds on one alone,
// whichever end is the greater.
func TestBisectToNeighbours(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 1000 {
		edge := (r.Float64() - 0.5) * math.Pow(10, 40*r.Float64()-20)
		below := func(x float64) bool { return x <= edge }
		above := func(x float64) bool { return x > edge }
		reach := 1 + 2*math.Abs(edge)
		in, out := Bisect(-reach, reach, 0, below)
		if in != edge || out != math.Nextafter(edge, math.Inf(1)) {
			t.Fatalf("below %g: %g and %g", edge, in, out)
		}
		in, out = Bisect(reach, -reach, 0, above)
		if out != edge || in != math.Nextafter(edge, math.Inf(1)) {
			t.Fatalf("above %g: %g and %g", edge, in, out)
		}
	}
}

// It ends for every width as soon as it may: a call for every halving.
func TestBisectWidthAndWork(t *testing.T) {
	for n := range 40 {
		calls := 0
		in, out := Bisect(0, 1, math.Ldexp(1, -n), func(x float64) bool { calls++; return x <= 1/math.Pi })
		if calls != n || out-in != math.Ldexp(1, -n) || in > 1/math.Pi || out < 1/math.Pi {
			t.Errorf("width 2^-%d: %g to %g in %d calls", n, in, out, calls)
		}
	}
}

func TestBisectEnds(t *testing.T) {
	inf := math.Inf(1)
	yes := func(float64) bool { return true }
	for _, x := range [][2]float64{{-inf, inf}, {0, inf}, {math.NaN(), 1}, {1, math.NaN()}, {1, 1}, {-math.MaxFloat64, math.MaxFloat64}, {math.MaxFloat64, 0}, {5e-324, 0}} {
		calls := 0
		Bisect(x[0], x[1], 0, func(float64) bool { calls++; return calls%3 > 0 })
		if calls > 2200 {
			t.Errorf("%v: %d calls", x, calls)
		}
	}
	if in, out := Bisect(0, 1, 0, yes); out != 1 || in != math.Nextafter(1, 0) {
		t.Errorf("always: %g, %g", in, out)
	}
	if in, out := Bisect(1, 0, 0, yes); out != 0 || in != 5e-324 {
		t.Errorf("down to 0: %g, %g", in, out)
	}
}

// Roots with known places, rising and falling, smooth, flat, steep and with a
// jump; the last is a triple root, where nothing but halving helps.
var passages = []struct {
	name         string
	f            func(float64) float64
	below, above float64
	root         float64
	calls        int
}{
	{"line", func(x float64) float64 { return x - 0.3 }, 0, 1, 0.3, 8},
	{"cosine", func(x float64) float64 { return -math.Cos(x) }, 0, 3, math.Pi / 2, 12},
	{"falling", func(x float64) float64 { return 2 - x*x }, 4, 0, math.Sqrt2, 14},
	{"exponential", func(x float64) float64 { return math.Exp(x) - 1e6 }, -10, 30, math.Log(1e6), 25},
	{"jump", func(x float64) float64 { return math.Copysign(1, x-0.7) }, 0, 1, 0.7, 60},
	{"root of a root", func(x float64) float64 { return math.Cbrt(x - 0.2) }, -1, 1, 0.2, 80},
	{"triple", func(x float64) float64 { d := x - 0.6; return d * d * d }, 0, 1, 0.6, 100},
}

func TestRoot(t *testing.T) {
	for _, p := range passages {
		calls := 0
		in, out := Root(p.below, p.above, 0, func(x float64) float64 { calls++; return p.f(x) })
		if p.f(in) > 0 || !(p.f(out) > 0) {
			t.Errorf("%s: not a bracket: %g, %g", p.name, in, out)
		}
		within(t, p.name, in, p.root, 2e-15*math.Max(1, p.root))
		within(t, p.name, out, in, 1e-15*math.Max(1, p.root))
		if calls > p.calls {
			t.Errorf("%s: %d calls, at most %d wanted", p.name, calls, p.calls)
		}
		wide := 0
		in, out = Root(p.below, p.above, 1e-3, func(x float64) float64 { wide++; return p.f(x) })
		if math.Abs(in-out) > 1e-3 || p.f(in) > 0 || !(p.f(out) > 0) || wide > calls {
			t.Errorf("%s to 1e-3: %g, %g in %d calls", p.name, in, out, wide)
		}
	}
	if in, out := Root(-1, 3, 0, func(x float64) float64 { return x }); !(in <= 0 && out > 0 && out < 2e-30) {
		t.Errorf("at 0: %g, %g", in, out)
	}
}

// Whatever the function gives, the search ends within its bracket.
func TestSearchesEnd(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	odd := []float64{0, 1, -1, math.NaN(), math.Inf(1), math.Inf(-1), 1e308, -1e308, 5e-324}
	for range 20000 {
		f := func(float64) float64 { return odd[r.IntN(len(odd))] * r.Float64() }
		lo, hi := -r.Float64(), r.Float64()
		a, b := Root(lo, hi, 0, f)
		x := Newton(lo, hi, 0, 0, func(x float64) (float64, float64) { return f(x), f(x) })
		m := Minimum(lo, hi, 0, f)
		for _, v := range []float64{a, b, x, m} {
			if !(v >= lo && v <= hi) {
				t.Fatalf("%g is not in %g to %g", v, lo, hi)
			}
		}
	}
	// Where both ends are above 0, as rounding can have it, nothing says where to look: the
	// parabola would have it look next to one end for ever.
	calls := 0
	if a, b := Root(0, 1, 1e-12, func(x float64) float64 { calls++; return 3 + 0.1*x }); calls > 200 || a < 0 || b > 1 {
		t.Errorf("%d calls to %g, %g", calls, a, b)
	}
}

func TestNewton(t *testing.T) {
	for _, want := range []float64{0.01, 0.5, 1, 1.9} {
		for _, start := range []float64{0, 1e-9, 1, 2} {
			for _, tol := range []float64{0, 1e-6} {
				calls := 0
				got := Newton(0, 2, start, tol, func(x float64) (float64, float64) {
					calls++
					return want*want*want - x*x*x, 3 * x * x
				})
				if calls > 30 {
					t.Errorf("cube root from %g: %d calls", start, calls)
				}
				within(t, "cube root", got, want, 1e-15*want+tol)
			}
		}
	}
	flat := func(want float64) func(float64) (float64, float64) {
		return func(x float64) (float64, float64) { return want - x, 0 }
	}
	within(t, "slope of 0: halving", Newton(0, 2, 1.9, 0, flat(0.3)), 0.3, 1e-16)
	within(t, "goal below", Newton(1, 2, 1.5, 0, flat(0)), 1, 5e-16)
	within(t, "goal above", Newton(1, 2, 1.5, 0, flat(5)), 2, 5e-16)
	steep := func(x float64) (float64, float64) { return 0.3 - x, 1e9 }
	if got := Newton(0, 2, 1.9, 0, steep); !(got > 0.3 && got < 2) {
		t.Errorf("steps too short: %g", got)
	}
}
