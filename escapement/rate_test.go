package escapement

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Source of every check on AiryRate: G. B. Airy, "On the disturbances of
// pendulums and balances", Trans. Camb. Phil. Soc. 3 (1826).
const airy = "Airy 1826: "

var wholeTurn = []float64{-math.Pi, math.Pi}

// Couples whose effect is known without Airy: a spring adds to the stiffness,
// so ω goes as √((K+k)/K); drag with the speed changes no rate in its first
// order; a steady couple shifts the middle and nothing else; a spring that
// hardens as x³ hastens by 3kA²/(8K) (the first term of Duffing's equation,
// in any text on mechanics).
func TestAiryOnKnownCouples(t *testing.T) {
	const a, k, stiff, small = 0.07, 3.0, 3.0, 1e-6
	rate := func(f func(psi float64) float64) float64 { return AiryRate(f, wholeTurn, a, stiff) }
	x := func(psi float64) float64 { return a * math.Sin(psi) }
	spring := rate(func(psi float64) float64 { return -small * x(psi) })
	closeTo(t, airy+"a spring", spring, math.Sqrt((stiff+small)/stiff)-1, 1e-6)
	if got := rate(math.Cos); math.Abs(got) > 1e-14 {
		t.Errorf("drag: %g", got)
	}
	if got := rate(func(float64) float64 { return 1 }); math.Abs(got) > 1e-14 {
		t.Errorf("a steady couple: %g", got)
	}
	closeTo(t, airy+"a hardening spring", rate(func(psi float64) float64 { return -k * math.Pow(x(psi), 3) }), 3*k*a*a/(8*stiff), 1e-12)
	if got := AiryRate(math.Sin, nil, a, stiff); got != 0 {
		t.Errorf("nowhere: %g", got)
	}
}

// The quadrature over the couple itself against the closed forms, and these
// against the ones printed in the books: 2τ cos α/(πAK) for recoil.
func TestClosedFormsAgainstQuadrature(t *testing.T) {
	rnd := rand.New(rand.NewPCG(8, 9))
	for range 300 {
		e, p := random(rnd)
		c := mustNew(t, e, p)
		torque := c.LeastTorque() * (1 + 3*rnd.Float64())
		a, s := c.Amplitude(torque)
		if !s.Goes() {
			continue
		}
		closed := c.Rate(torque).Escapement
		if got := c.EscapementRate(torque); math.Abs(got-closed) > 1e-9*math.Abs(closed)+1e-14/p.Quality {
			t.Errorf("%v, late %v: %g by quadrature, %g closed", e.Kind, e.Late, got, closed)
		}
		tau, alpha := e.Couple(torque), math.Asin(float64(e.HalfArc()/a))
		switch {
		case e.Kind != DeadBeat{}:
			closeTo(t, airy+"recoil", closed, 2*tau*math.Cos(alpha)/(math.Pi*float64(a)*p.Stiffness()), 1e-9)
		case e.Late == 0 && closed != 0:
			t.Errorf("a centred dead beat gains %g", closed)
		case float64(e.Late)*closed > 0:
			t.Errorf("late by %v and gains %g: an impulse before the dead point hastens, one after it slows (Airy)", e.Late, closed)
		}
	}
}

// The couple does the work that Work says, ∮ F dx, around the swing.
func TestCoupleAtDoesTheWork(t *testing.T) {
	rnd := rand.New(rand.NewPCG(10, 11))
	for range 100 {
		e, p := random(rnd)
		c := mustNew(t, e, p)
		torque := c.LeastTorque() * 1.3
		a, s := c.Amplitude(torque)
		if !s.Goes() {
			continue
		}
		// AiryRate of F cos ψ/sin ψ is −∮F cos ψ dψ/(2πAK) = −work/(2πA²K).
		f := func(psi float64) float64 { return c.CoupleAt(psi, a, torque) * math.Cos(psi) / math.Sin(psi) }
		got := -AiryRate(f, c.corners(float64(a)), a, p.Stiffness()) * 2 * math.Pi * float64(a) * float64(a) * p.Stiffness()
		closeTo(t, "work around the swing", got, c.Work(torque), 1e-9)
	}
}

// Limits of every part: at small arcs, at the escape, and far beyond it.
func TestRateLimits(t *testing.T) {
	for _, kind := range kinds {
		e, p := bracketClock(kind)
		e.Margin = 0
		for arc := 8.0; arc > 1e-3; arc /= 8 {
			e.Arc = WholeDegrees(arc)
			c := mustNew(t, e, p)
			one, two := c.Going(2*c.LeastTorque()), c.Going(4*c.LeastTorque())
			closeTo(t, "amplitude as √torque", float64(two.Amplitude/one.Amplitude), math.Sqrt2, 1e-14)
			closeTo(t, "circular as A²", two.Rate.Circular/one.Rate.Circular, 2, arc*arc*1e-4+1e-13)
			want := 0.0
			if kind != (DeadBeat{}) {
				want = 1 / (2 * p.Quality) // cot α/(2Q) at α = 45°, whatever the arc
			}
			closeTo(t, "escapement", one.Rate.Escapement, want, 1e-13)
			closeTo(t, "total", one.Rate.Total(), one.Rate.Circular+one.Rate.Linear(), 1e-13)
		}
		e.Limit = Widest
		c := mustNew(t, e, p)
		free := -1 / (8 * p.Quality * p.Quality) // √(1−1/(4Q²)) − 1
		closeTo(t, "damping at the escape", c.Rate(c.LeastTorque()).Damping, free, 1e-3)
		closeTo(t, "damping with a short impulse", c.Rate(1e6*c.LeastTorque()).Damping, free, 0.02)
		if got := c.Rate(c.LeastTorque()).Escapement; math.Abs(got) > 1e-9 {
			t.Errorf("%v turning just at the escape: %g", kind, got)
		}
	}
}

// A swing that does not reach the escape is given back.
func TestTurningOutOfReach(t *testing.T) {
	e, p := bracketClock(DeadBeat{})
	c := mustNew(t, e, p)
	for _, a := range []SemiArc{0, SemiDegrees(2), SemiArc(math.NaN())} {
		if got := c.Turning(a); got != a && !math.IsNaN(float64(a)) {
			t.Errorf("%v: %v", a, got)
		}
	}
}

// Swing is Going, summed.
func TestSwingIsGoing(t *testing.T) {
	for _, torque := range []float64{0, 1e-5, 1e-4, 3e-4, 1e-3, 10, math.NaN()} {
		c, err := New(Escapement{Kind: DeadBeat{}, Teeth: 30, Arc: WholeDegrees(4), Efficiency: 0.8, Late: 0.005, Limit: SemiDegrees(12)},
			Pendulum{Length: 0.25, Mass: 0.5, Gravity: 9.8, Quality: 300})
		if err != nil {
			t.Fatal(err)
		}
		a, rate, status := c.Swing(torque)
		if g := c.Going(torque); a != g.Amplitude || rate != g.Rate.Total() || status != g.Status {
			t.Errorf("%g N·m: %v, %g, %v; want %+v", torque, a, rate, status, g)
		}
	}
}
