package escapement

import (
	"math"
	"math/rand/v2"
	"testing"
)

// From a state up to 1/32 before or after an event, the steps find that event itself,
// with no need of a start from the beginning: time and state against the closed
// solution of the oscillator, from which the state was made.
func TestStepsFromNearby(t *testing.T) {
	rnd := rand.New(rand.NewPCG(11, 12))
	for range 3000 {
		p := newSwinger(1 + math.Pow(10, 4*rnd.Float64()))
		shift := 2 * (rnd.Float64() - 0.5) * 0.99 * near
		back := p.over(-shift)

		// A goal is passed upwards.
		goal, speed := 2*rnd.Float64()-1, 0.2+rnd.Float64()
		y0, v0 := p.apply(&back, goal, speed)
		if v0 > 0.2 {
			got, y, v := p.toGoal(y0, v0, goal)
			if !(math.Abs(got-shift) < 1e-14/speed+1e-15) || y != goal || !(math.Abs(v-speed) < 1e-14*speed+4e-15/speed) {
				t.Errorf("ζ %g: goal in %.17g, want %.17g; speed %.17g, want %.17g", p.zeta, got, shift, v, speed)
			}
		}

		// A turning point on the right.
		top := 0.1 + rnd.Float64()
		y0, v0 = p.apply(&back, top, 0)
		got, y, v := p.toTurn(y0, v0)
		if !(math.Abs(got-shift) < 1e-14/top) || v != 0 || !(math.Abs(y-top) < 1e-14) {
			t.Errorf("ζ %g: turns in %.17g, want %.17g; at %.17g, want %.17g", p.zeta, got, shift, y, top)
		}
	}
}

// What is not near is said to be far: a goal above the swing, one passed downwards,
// one a long way off, and the turning point on the left.
func TestStepsFromAfar(t *testing.T) {
	p := newSwinger(100)
	for _, x := range []struct{ y, v, goal float64 }{{0, 0.01, 1}, {0, -1, 0.01}, {0, 0, 0}, {0, 1, 0.1}, {0, 1, -0.1}, {0, math.NaN(), 0.01}} {
		if got, y, v := p.toGoal(x.y, x.v, x.goal); got != far || y != x.y || v == v && v != x.v {
			t.Errorf("%v: %g", x, got)
		}
	}
	for _, x := range []struct{ y, v float64 }{{-1, 0.01}, {-1, -0.01}, {0.5, 0.5}, {0.5, -0.5}, {math.NaN(), 0.01}} {
		if got, y, v := p.toTurn(x.y, x.v); got != far || y == y && y != x.y || v != x.v {
			t.Errorf("%v: %g", x, got)
		}
	}
}

// The series of quick against the cubic that it solves, gap = a t + b t²/2 + c t³/6:
// what it leaves out goes with t⁴.
func TestQuick(t *testing.T) {
	rnd := rand.New(rand.NewPCG(13, 14))
	for range 2000 {
		a, b, c := 0.5+rnd.Float64(), 2*rnd.Float64()-1, 2*rnd.Float64()-1
		for _, size := range []float64{1e-7, 9e-5, 5e-4} {
			want := size * (2*rnd.Float64() - 1)
			got, ok := quick(want*(a+want*(b/2+want*c/6)), a, b, c)
			if !(math.Abs(got-want) <= 1e-15*math.Abs(want)+12*math.Pow(math.Abs(want), 4)) {
				t.Errorf("%g, %g, %g: %.17g, want %.17g", a, b, c, got, want)
			}
			if h := math.Abs(want * (1 + want*(b/2+want*c/6)/a)); ok != (h < 1e-4 && math.Abs(b/a)*h < 1e-4) {
				t.Errorf("a step of %g is said to be small: %v", want, ok)
			}
		}
	}
	if _, ok := quick(9e-5, 1, 2, 0); ok {
		t.Error("a step that changes its speed by 2e-4 is said to be small")
	}
}

// Without damping the start of the search is the answer: y = r sin(t − t0), and the
// goal is passed on the way up.
func TestStartWithoutDamping(t *testing.T) {
	p := swinger{0, 1}
	for _, x := range []struct{ y, v float64 }{{-1, 0}, {-0.8, 0.3}, {-0.2, 1}} {
		r := math.Hypot(x.y, x.v)
		for _, share := range []float64{-0.1, 0, 0.4, 0.9} {
			m := p.over(p.guess(x.y, x.v, share*r))
			y, v := p.apply(&m, x.y, x.v)
			if math.Abs(y-share*r) > 1e-15 || !(v > 0) {
				t.Errorf("from %v to %g: at %g with %g", x, share*r, y, v)
			}
		}
		// A goal that rounding puts beyond the swing is its turning point.
		m := p.over(p.guess(x.y, x.v, r*(1+1e-12)))
		if y, v := p.apply(&m, x.y, x.v); math.Abs(y-r) > 1e-15 || math.Abs(v) > 1e-7 {
			t.Errorf("from %v to the turn: at %g with %g", x, y, v)
		}
	}
}

// The series of drift against the closed solution, as far as it is used: to the last
// digits.
func TestDriftIsTheSolution(t *testing.T) {
	rnd := rand.New(rand.NewPCG(15, 16))
	for range 3000 {
		p := newSwinger(1 + math.Pow(10, 4*rnd.Float64()))
		y, v, at := 2*rnd.Float64()-1, 2*rnd.Float64()-1, near
		if rnd.IntN(2) == 0 {
			at = -near
		}
		m := p.over(at)
		wantY, wantV := p.apply(&m, y, v)
		gotY, gotV := p.drift(y, v, at)
		if off := max(math.Abs(gotY-wantY), math.Abs(gotV-wantV)); !(off < 6e-16) {
			t.Errorf("ζ %g, from %g, %g: off by %.2g", p.zeta, y, v, off)
		}
	}
}

// What is remembered is renewed where the step from it is long, or as long as the one
// before: a swing that is steady. While the steps change it is kept.
func TestWhenMemoryIsRenewed(t *testing.T) {
	p := newSwinger(200)
	cold := stretch{target: 0.3}
	_, _, end, _ := p.runCold(&cold, -1, 0.2)
	for _, x := range []struct {
		off, last float64 // of the remembered time, and of the one before
		renewed   bool
	}{
		{0.6 * near, 0, true}, {-0.6 * near, 0, true}, {0.45 * near, 0, false}, {-0.45 * near, 0, false},
		{0.3 * near, 0.3*near + 1e-5, true}, {0.3 * near, 0.3*near - 1e-5, true}, {0.3 * near, 0.3*near + 1e-4, false}, {0.3 * near, -0.3 * near, false},
	} {
		l := stretch{target: 0.3, propagator: p.over(end - x.off), step: x.last}
		_, _, got, ok := p.run(&l, -1, 0.2)
		if !ok || math.Abs(got-end) > 1e-14 {
			t.Errorf("%+v: ends at %.17g, want %.17g", x, got, end)
		}
		kept, step := end-x.off, x.off
		if x.renewed {
			kept, step = end, 0
		}
		if math.Abs(l.t-kept) > 1e-14 || math.Abs(l.step-step) > 1e-14 {
			t.Errorf("%+v: remembers %.17g and a step of %g, want %.17g and %g", x, l.t, l.step, kept, step)
		}
	}
}
