package train

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// The coefficient that a strike was timed with comes back from its interval, and from the
// time of its twelve; both rise strictly with it.
func TestDragFromATimedStrike(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 8))
	tried := 0
	for range 200 {
		d, _ := randomStrike(t, rnd)
		d.Fly.DragCoefficient = 0.3 + 3*rnd.Float64()
		s := mustStrike(t, d)
		torque := s.LeastFromRest() * (1.02 + 2*rnd.Float64())
		steady, twelve := s.Steady(torque), s.Twelve(torque)
		if steady.Status != Strikes || twelve.Status != Strikes {
			continue
		}
		tried++
		got, err := s.DragFor(torque, steady.Interval)
		if err != nil {
			t.Fatal(err)
		}
		closeTo(t, "by the interval", got, d.Fly.DragCoefficient, 1e-6)
		seconds := twelve.Seconds() - s.Blows(torque, 1, nil).Seconds()
		if got, err = s.DragForTwelve(torque, seconds); err != nil {
			t.Fatal(err)
		}
		closeTo(t, "by the twelve", got, d.Fly.DragCoefficient, 1e-6)
		less, _ := s.DragFor(torque, 0.99*steady.Interval)
		if quick, err := s.DragForTwelve(torque, 0.999*seconds); err == nil && !(quick < got) || !(less < d.Fly.DragCoefficient) {
			t.Errorf("a quicker strike tells of %g and %g, not of less than %g", less, quick, got)
		}
		if s.DragCoefficient() != d.Fly.DragCoefficient {
			t.Error("seeking changed the train")
		}
	}
	if tried < 100 {
		t.Errorf("only %d tried", tried)
	}
}

// Closed form: without hammers the interval goes with the root of the coefficient.
func TestDragClosedForm(t *testing.T) {
	d := hourStrike()
	d.Pins = AllPins(8)
	s := mustStrike(t, d)
	got, err := s.DragFor(0.5, 1.5*s.Steady(0.5).Interval)
	if err != nil {
		t.Fatal(err)
	}
	closeTo(t, "drag coefficient", got, 2.25*d.Fly.DragCoefficient, 1e-12)
}

// What no coefficient does is refused, with the figure.
func TestNoDragDoes(t *testing.T) {
	s := mustStrike(t, hourStrike())
	torque := 1.1 * s.LeastFromRest()
	weak := s.LeastFromRest()
	for s.meanCouple(weak) > 0 {
		weak *= 0.9
	}
	for _, c := range []struct {
		what            string
		torque, seconds float64
		twelve          bool
		kind            error
		says            string
	}{
		{"too weak", weak, 1, false, ErrNoDrive, "in the mean of a blow -"},
		{"slower than at stalling", torque, 60, false, ErrTooSlow, "where it stalls it takes"},
		{"too quick", 2 * torque, 0.001, false, ErrTooFast, "with hardly any drag it takes 0."},
		{"twelve quicker than without drag", 2 * torque, 0.1, true, ErrTooFast, "with hardly any drag it takes"},
		{"twelve too slow", torque, 600, true, ErrTooSlow, "where it stalls it takes"},
		{"no time", torque, 0, false, ErrInterval, ""},
		{"no time for twelve", torque, math.NaN(), true, ErrInterval, ""},
	} {
		seek := s.DragFor
		if c.twelve {
			seek = s.DragForTwelve
		}
		if got, err := seek(c.torque, c.seconds); !errors.Is(err, c.kind) || !strings.Contains(err.Error(), c.says) || got != 0 {
			t.Errorf("%s: %g, %v", c.what, got, err)
		}
	}
	d := hourStrike()
	d.Pins = AllPins(8)
	free := mustStrike(t, d)
	if _, err := free.DragFor(0.5, 100); !errors.Is(err, ErrTooSlow) || !strings.Contains(err.Error(), "with a drag coefficient of 10 it takes") {
		t.Errorf("without hammers: %v", err)
	}
}

// meanCouple is the work of a blow that is left for the fly, over its angle.
func TestMeanCouple(t *testing.T) {
	s := mustStrike(t, hourStrike())
	torque := 1.5 * s.LeastFromRest()
	closeTo(t, "mean couple", s.meanCouple(torque)*s.Pitch(), s.Power(torque).Fly, 1e-9)
}
