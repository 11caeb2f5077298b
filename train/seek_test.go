package train

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
)

// What is sought, put back, gives what was wanted.
func TestThereAndBack(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	for range 100 {
		d, s := randomStrike(t, rnd)
		torque := s.LeastTorque() * (1.05 + 3*rnd.Float64())
		wanted := s.Steady(torque).Interval
		got, err := s.TorqueFor(wanted)
		if err != nil {
			t.Fatal(err)
		}
		closeTo(t, "torque for an interval", got, torque, 1e-9)

		wanted *= 0.8 + 0.25*rnd.Float64()
		radius, err := s.OuterRadiusFor(torque, wanted)
		if errors.Is(err, ErrTooSlow) {
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		before := d.Fly.Outer
		d.Fly.Outer = radius
		other := mustStrike(t, d)
		closeTo(t, "interval with the new fly", other.Steady(torque).Interval, wanted, 1e-6)
		if (radius > before) != (wanted > s.Steady(torque).Interval) {
			t.Errorf("radius %g, was %g", radius, before)
		}
		if s.design.Fly.Outer != before {
			t.Error("seeking changed the train")
		}
	}
}

// Closed form: without hammers the interval goes with √c, so with the square of
// the outer radius of vanes that begin at the axis.
func TestRadiusClosedForm(t *testing.T) {
	d := hourStrike()
	d.Pins = AllPins(8)
	s := mustStrike(t, d)
	r, err := s.OuterRadiusFor(0.5, 2*s.Steady(0.5).Interval)
	if err != nil {
		t.Fatal(err)
	}
	closeTo(t, "radius", r, d.Fly.Outer*math.Sqrt2, 1e-12)
	if got := s.LeastTorque(); s.Steady(1.001*got).Status != Strikes || s.Steady(0.999*got).Status != Stands {
		t.Errorf("least torque %g without hammers", got)
	}
	d.Meshes[3].Drag = 0
	s = mustStrike(t, d)
	if got := s.LeastTorque(); got > 1e-20 {
		t.Errorf("least torque %g with nothing to drive", got)
	}
	// 1/interval goes with √T.
	torque, err := s.TorqueFor(3 * s.Steady(0.5).Interval)
	if err != nil {
		t.Fatal(err)
	}
	closeTo(t, "torque", torque, 0.5/9, 1e-12)
}

func TestOutOfReach(t *testing.T) {
	s := mustStrike(t, hourStrike())
	slowest := s.Steady(s.LeastTorque()).Interval
	if got, err := s.TorqueFor(2 * slowest); err != ErrTooSlow || got != s.LeastTorque() {
		t.Errorf("too slow: %g, %v", got, err)
	}
	if _, err := s.TorqueFor(1e-9); err != ErrTooFast {
		t.Errorf("too fast: %v", err)
	}
	if _, err := s.OuterRadiusFor(0.6, 100); err != ErrTooSlow {
		t.Errorf("too large a fly: %v", err)
	}
	if _, err := s.OuterRadiusFor(0.1, 1); err != ErrTooFast {
		t.Errorf("stalls with any fly: %v", err)
	}
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1), 1e-320} {
		if _, err := s.TorqueFor(bad); err != ErrInterval {
			t.Errorf("torque for %g s: %v", bad, err)
		}
		if _, err := s.OuterRadiusFor(0.6, bad); err != ErrInterval {
			t.Errorf("radius for %g s: %v", bad, err)
		}
	}
	d := hourStrike()
	d.Pins = AllPins(8)
	s = mustStrike(t, d)
	if _, err := s.OuterRadiusFor(0.6, 1e12); err != ErrTooSlow {
		t.Errorf("a fly too large to be built: %v", err)
	}
	d.Loads = []Load{{4, 1e9}}
	s = mustStrike(t, d)
	if got := s.LeastTorque(); !math.IsInf(got, 1) {
		t.Errorf("least torque %g against a load of 1e9 N·m at the fly", got)
	}
	if _, err := s.TorqueFor(1); err != ErrTooFast {
		t.Errorf("nothing moves it: %v", err)
	}
	d = hourStrike()
	d.Pins = AllPins(8, Hammer{1e6, 1e3, 0})
	s = mustStrike(t, d)
	if got := s.LeastTorque(); !math.IsInf(got, 1) {
		t.Errorf("least torque %g for a hammer of a thousand tonnes", got)
	}
	if got := s.Steady(1); got != (Cadence{Status: Stalls}) {
		t.Errorf("too heavy a hammer: %+v", got)
	}
}

// Where a straight line passes 0, from below it to the most that makes sense.
func TestCrossing(t *testing.T) {
	for _, lo := range []float64{0, 1e-6, 0.4} {
		for _, at := range []float64{1e-13, 1e-6, 0.4, 0.41, 7, 1e5, 3e8, 9e8, mostTorque} {
			got := crossing(func(x float64) float64 { return x - at }, lo)
			switch {
			case at == mostTorque:
				if !math.IsInf(got, 1) {
					t.Errorf("0 at the most is not passed: %g", got)
				}
			case at < lo:
				if got != lo {
					t.Errorf("passed at %g, before %g: %g", at, lo, got)
				}
			default:
				closeTo(t, "crossing", got, at, 1e-15)
				if !(got > at) {
					t.Errorf("%.17g is not above %.17g", got, at)
				}
			}
		}
	}
	if got := crossing(func(float64) float64 { return math.NaN() }, math.Inf(1)); !math.IsInf(got, 1) {
		t.Errorf("never: %g", got)
	}
}

// Closed form for vanes that begin off the axis, without hammers: the square of the
// interval goes with ro⁴ − ri⁴; to flies far larger and far smaller than the one there
// is.
func TestRadiusFarOff(t *testing.T) {
	d := hourStrike()
	d.Pins, d.Fly.Inner = AllPins(8), 0.006
	s := mustStrike(t, d)
	fourth := func(r float64) float64 { return math.Pow(r, 4) }
	for _, times := range []float64{0.2, 0.9, 3, 40} {
		r, err := s.OuterRadiusFor(0.5, times*s.Steady(0.5).Interval)
		if err != nil {
			t.Fatal(err)
		}
		want := math.Pow(fourth(0.006)+times*times*(fourth(d.Fly.Outer)-fourth(0.006)), 0.25)
		closeTo(t, "radius", r, want, 1e-10)
	}
	// Vanes of less than a nanometre make no sense.
	shortest := d
	shortest.Fly.Outer = 0.006 + 2e-9
	limit := mustStrike(t, shortest)
	if _, err := s.OuterRadiusFor(0.5, limit.Steady(0.5).Interval); err != nil {
		t.Errorf("vanes of 2 nm: %v", err)
	}
	if _, err := s.OuterRadiusFor(0.5, limit.Steady(0.5).Interval/10); err != ErrTooFast {
		t.Errorf("vanes of 0.02 nm: %v", err)
	}
}
