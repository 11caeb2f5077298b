package mainspring

import (
	"math"
	"testing"
)

// The steps to the couple of a rolling edge are guarded: from a start that is no
// good, or none at all, they come to the same couple as by bisection of the winding.
func TestRollingFromAnywhere(t *testing.T) {
	rolled(t, func(i int, c *Curve) {
		for _, start := range []float64{math.NaN(), math.Inf(1), -1, 0.2, 0.5, 0.8, 1, 3} {
			spoilt := *c // rollGuess is xRest + up/rollF
			spoilt.rollG, spoilt.rollH = 0, 0
			for k := 1; k < 20; k++ {
				up := (c.tRoll - c.tRest) * float64(k) / 20
				spoilt.rollF = up / (start * (c.xRoll - c.xRest))
				lo, hi := c.xRest, c.xRoll
				for range 60 {
					x := (lo + hi) / 2
					if c.winding(c.leaveWall(x), touch{x1: x, x2: c.xEnd, xa: c.xEnd})-c.tRest < up {
						lo = x
					} else {
						hi = x
					}
				}
				if got, want := coupleRolling(&spoilt, c.tRest+up), c.leaveWall(lo); !(math.Abs(got-want) <= 1e-7*c.mHome) {
					t.Fatalf("spring %d at %d/20 from %g of the way: %.12g, want %.12g", i, k, start, got, want)
				}
			}
		}
	})
}

// The start for a strip that set, touching wall and arbor: a curve that goes through
// rest with the slope of the winding there, the free length, and through the peak, or
// straight on to below it where the winding bends the other way.
func TestStartOfSteps(t *testing.T) {
	seen := 0
	for _, c := range family(t, 400) {
		if c.strip.Form != Set || c.xy == 0 || c.mPeak <= 0 {
			continue
		}
		seen++
		way, free := c.tPeak-c.tRest, c.contacts(0).free()
		if free > 0 { // else it leaves rest upright
			closeTo(t, "slope at rest", c.stepsGuess(1e-9*way), 1e-9*way/free, 2e-9*math.Pow(way/(free*c.mPeak), 2))
		}
		want := c.mPeak
		if straight := way / free; straight < want {
			want = straight
		}
		closeTo(t, "at the peak", c.stepsGuess(way), want, 1e-12)
	}
	if seen < 50 {
		t.Errorf("only %d springs", seen)
	}
}

// The peak is where the wall is left last: nowhere does it take more couple.
func TestLeftLast(t *testing.T) {
	ends, inside := 0, 0
	for i, c := range family(t, 300) {
		switch c.xPeak {
		case 0, c.xEnd:
			ends++
		default:
			inside++
		}
		for k := range 401 {
			x := min(c.xEnd*float64(k)/400, c.xEnd)
			if m := c.leaveWall(x); m > c.mPeak+1e-12*c.mHome {
				t.Fatalf("spring %d: %.12g at %g, %.12g at the peak, %g", i, m, x, c.mPeak, c.xPeak)
			}
		}
	}
	if ends < 10 || inside < 10 {
		t.Errorf("%d peaks at an end, %d between", ends, inside)
	}
}

// Where the whole strip is free between two couples, the search for an energy starts
// as far from the one as from the other, and it keeps off no couple and home, where
// the slope of the strain can vanish.
func TestMiddle(t *testing.T) {
	free := 0
	for i, c := range family(t, 200) {
		m := c.middle()
		if !(m >= 0.1*c.mHome*(1-1e-12) && m <= 0.9*c.mHome*(1+1e-12)) {
			t.Errorf("spring %d: %g of the couple at home", i, m/c.mHome)
		}
		if lo, hi := max(c.mPeak, 0.2*c.mHome), min(c.mTouch, 0.8*c.mHome); lo < hi && lo == c.mPeak && hi == c.mTouch {
			free++
			closeTo(t, "way from one and from the other", m-lo, hi-m, 1e-9)
			if k := c.contacts(m); k.free() < c.xEnd*(1-1e-12) {
				t.Errorf("spring %d: only %g of %g is free", i, k.free(), c.xEnd)
			}
		}
	}
	if free < 10 {
		t.Errorf("only %d springs", free)
	}
}

// With ideal packing the couple on the arbor has a closed form, what is missing to home
// being a triangle: it is what the search for any other packing comes to.
func TestIdealOnArbor(t *testing.T) {
	seen := 0
	for _, c := range family(t, 400) {
		if c.h != c.strip.Thickness || c.xy == 0 {
			continue
		}
		loose := c.strip
		loose.Packing = 1 + 1e-9
		near := mustCurve(t, loose, c.in)
		for k := 1; k < 10; k++ {
			d := c.dSet * float64(k) / 10
			m := c.bendIdeal(d)
			closeTo(t, "couple by steps", c.bendOnArbor(d, nil), m, 1e-9)
			closeTo(t, "missing to home", c.bendHome(c.arborEdge(m))-m*c.arborEdge(m), d, 1e-7)
			closeTo(t, "couple", near.bendOnArbor(d, nil), m, 1e-7)
			closeTo(t, "strain", near.packedStrain(near.r2, 0, c.arborEdge(m)), c.packedStrain(c.r2, 0, c.arborEdge(m)), 1e-6)
		}
		seen++
	}
	if seen < 20 {
		t.Errorf("only %d springs", seen)
	}
}

// Wound by just the turns available a strip is home: a rounding of the turns does not come
// back as its root in the couple.
func TestHome(t *testing.T) {
	for _, c := range family(t, 400) {
		if got := c.Couple(c.Turns()); got != c.MaxCouple() {
			t.Fatalf("%.17g, want %.17g", got, c.MaxCouple())
		}
	}
}
