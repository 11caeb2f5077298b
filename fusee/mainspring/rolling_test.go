package mainspring

import (
	"math"
	"slices"
	"testing"
)

// rolled goes over springs with an edge that rolls off the wall.
func rolled(t testing.TB, f func(i int, c *Curve)) {
	t.Helper()
	n := 0
	for i, c := range family(t, 600) {
		if c.xRoll > c.xRest {
			n++
			f(i, &c)
		} else if rest, m := c.contacts(0), min(c.leaveWall(c.xEnd), c.mTouch); c.xy == c.xEnd && rest.x2 == c.xEnd && m > 1e-9*c.mHome && c.contacts(m).x1 > rest.x1 {
			t.Errorf("spring %d set all over and its edge does not roll", i)
		}
	}
	if n < 40 {
		t.Errorf("only %d springs", n)
	}
}

// The cubic has value and slope of the winding, ∂t/∂x = x ∂m/∂x, at both ends of
// its regime: the cubic of Hermite.
func TestRollingCubic(t *testing.T) {
	rolled(t, func(i int, c *Curve) {
		u := c.xRoll - c.xRest
		end := c.tRest + u*(c.rollF+u*(c.rollG+u*c.rollH))
		if !(math.Abs(end-c.tRoll) <= 1e-10*(c.tRoll-c.tRest)) {
			t.Errorf("spring %d: the cubic ends at %.12g, the winding at %.12g", i, end, c.tRoll)
		}
		for _, x := range []float64{c.xRest, c.xRoll} {
			_, dm := c.leaveWallSlope(x)
			v := x - c.xRest
			slope := c.rollF + v*(2*c.rollG+v*3*c.rollH)
			if !(math.Abs(slope-dm*x) <= 1e-6*max(math.Abs(c.rollF), math.Abs(dm*x))) {
				t.Errorf("spring %d at x %.6g: slope %.12g, of the winding %.12g", i, x, slope, dm*x)
			}
		}
		last := c.xPeak
		if m := min(c.leaveWall(c.xEnd), c.mTouch); m < c.mPeak {
			last = c.contacts(m).x1
		}
		if math.Abs(last-c.xRoll) > 1e-6*c.xEnd {
			t.Errorf("spring %d: the edge rolls to %g, by its couple to %g", i, c.xRoll, last)
		}
	})
}

// The start from the cubic is near: the steps from there have only digits to add.
// What they find is exact, winding and couple of the edge agree: nearly everywhere
// to 1e-12, and to 1e-9 where the winding's slope changes most.
func TestRollingStart(t *testing.T) {
	points, exact := 0, 0
	var starts []float64 // how far off, by spring
	rolled(t, func(i int, c *Curve) {
		span := c.xRoll - c.xRest
		worst := 0.0
		for k := 1; k < 200; k++ {
			x := c.xRest + span*float64(k)/200
			m := c.leaveWall(x)
			winding := c.winding(m, touch{x1: x, x2: c.xEnd, xa: c.xEnd})
			worst = max(worst, math.Abs(c.rollGuess(winding-c.tRest)-x)/span)
			off := math.Abs(coupleRolling(c, winding)-m) / c.mHome
			if !(off <= 1e-9) {
				t.Errorf("spring %d at %d/200: couple off by %g", i, k, off)
			}
			if points++; off <= 1e-12 {
				exact++
			}
		}
		starts = append(starts, worst)
	})
	slices.Sort(starts)
	if middle, most := starts[len(starts)/2], starts[len(starts)-1]; !(middle < 0.035 && most < 0.2) {
		t.Errorf("the start is off by %.3g of the way, by %.3g at most", middle, most)
	}
	if share := float64(exact) / float64(points); !(share > 0.99) {
		t.Errorf("%.5f of the points are exact", share)
	}
}
