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
