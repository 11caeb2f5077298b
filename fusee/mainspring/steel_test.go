package mainspring

import (
	"errors"
	"math"
	"testing"
)

// The yield stress found from the coils that a set strip shows is the one it was
// set with.
func TestYieldForCoils(t *testing.T) {
	tried := 0
	for i, c := range family(t, 300) {
		s := c.strip
		if s.Form != Set || c.FreeTurns() == 0 {
			continue
		}
		tried++
		got, err := YieldForCoils(s, c.in, c.FreeTurns())
		if err != nil {
			t.Errorf("spring %d: %v", i, err)
			continue
		}
		// A strip that is hardly set has hardly any free coils.
		s.Yield = got
		if n := freeCoils(t, s, c.in); math.Abs(n-c.FreeTurns()) > 1e-9*n+1e-14 {
			t.Errorf("spring %d: %.12g coils, want %.12g", i, n, c.FreeTurns())
		}
		if c.FreeTurns() > 0.5 {
			closeTo(t, "yield", got, c.strip.Yield, 1e-9)
		}
	}
	if tried < 50 {
		t.Errorf("only %d springs", tried)
	}
}

func freeCoils(t *testing.T, s Strip, in Housing) float64 {
	t.Helper()
	c := mustCurve(t, s, in)
	return c.FreeTurns()
}

func TestYieldForCoilsAtItsLimits(t *testing.T) {
	s, in := clockSpring(Even)
	if y, err := YieldForCoils(s, in, 0); err != nil || !math.IsInf(y, 1) {
		t.Errorf("no coils: %v, %v", y, err)
	}
	for _, n := range []float64{-1, 1e3, math.NaN()} {
		if _, err := YieldForCoils(s, in, n); !errors.Is(err, ErrNoYield) {
			t.Errorf("%v coils: %v", n, err)
		}
	}
	s.Length = 99
	if _, err := YieldForCoils(s, in, 3); !errors.Is(err, ErrTooLong) {
		t.Errorf("too long: %v", err)
	}
}

// The coils that a set strip can show end at those that it has packed round the arbor,
// by the area that they take up.
func TestMostFreeCoils(t *testing.T) {
	s, in := clockSpring(Set)
	most := (math.Sqrt(in.Arbor*in.Arbor+s.Thickness*s.Length/math.Pi) - in.Arbor) / s.Thickness
	for share, want := range map[float64]error{1.0001: ErrNoYield, 1.5: ErrNoYield, 0.999: nil} {
		if _, err := YieldForCoils(s, in, share*most); !errors.Is(err, want) {
			t.Errorf("%v of %v coils: %v", share, most, err)
		}
	}
}
