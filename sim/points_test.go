package sim_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"evenpull/fusee"
	"evenpull/scenarios"

	"gonum.org/v1/gonum/interp"
	"gonum.org/v1/gonum/stat"
)

// evenCones are the drives of the samples, each with cones cut even for its spring and
// several set-ups, none of which winds it nearly home.
func evenCones(t *testing.T) []fusee.Drive {
	t.Helper()
	var list []fusee.Drive
	for _, name := range scenarios.Names() {
		for _, tr := range sample(t, name) {
			for _, setUp := range []float64{0.5, 1, 1.5, 2} {
				d := tr.Drive
				if d.Cone.Shape == fusee.Cut {
					d.Cone.End, _, _ = d.Cone.Profile.At(d.Cone.Turns)
				}
				d.Barrel.SetUp, d.Cone.Shape = setUp, fusee.EvenByLarge
				w, err := d.Wind()
				if err != nil {
					t.Fatal(name, err)
				}
				if c := w.Curve(); setUp+w.SpringTurns() < c.Turns()-0.7 {
					d.Cone = w.CutCone()
					list = append(list, d)
				}
			}
		}
	}
	return list
}

// Cones cut even for springs of clocks, measured at three to five places, within a
// third of a gap of equal spacing: how far the curve through the points is out at the
// worst, beside the plain monotone cubic. Nineteen in twenty places in between are
// within the doubt that is told of them.
func TestCurvesThroughFewPoints(t *testing.T) {
	cones := evenCones(t)
	if len(cones) < 20 {
		t.Fatalf("%d cones", len(cones))
	}
	rnd := rand.New(rand.NewPCG(16, 1))
	limits := []struct{ curve, cubic float64 }{{0.036, 0.27}, {0.019, 0.19}, {0.011, 0.14}} // means of the worst
	for i, limit := range limits {
		n := 3 + i
		var curve, cubic, off []float64
		within, all := 0, 0
		for _, d := range cones {
			for range 10 {
				points, at, r := make([]fusee.Point, n), make([]float64, n), make([]float64, n)
				for i := range points {
					at[i] = float64(i)
					if i > 0 && i < n-1 {
						at[i] += (rnd.Float64() - 0.5) * 2 / 3
					}
					at[i] *= d.Cone.Turns / float64(n-1)
					r[i], _, _ = d.Cone.Profile.At(at[i])
					points[i] = fusee.Point{Turn: at[i], Radius: r[i]}
				}
				p, err := fusee.Through(points, d.Line.Thickness/2)
				if err != nil {
					t.Fatal(err)
				}
				var plain interp.FritschButland
				if err := plain.Fit(at, r); err != nil {
					t.Fatal(err)
				}
				worst, plainly := 0.0, 0.0
				for i := range 200 {
					theta := d.Cone.Turns * (float64(i) + 0.5) / 200
					is, _, _ := d.Cone.Profile.At(theta)
					says, _, _ := p.At(theta)
					out := math.Abs(says-is) / (is + d.Line.Thickness/2)
					worst, plainly = max(worst, out), max(plainly, math.Abs(plain.Predict(theta)-is)/is)
					all++
					if out <= fusee.Doubt(points, theta) {
						within++
					}
				}
				curve, cubic, off = append(curve, worst), append(cubic, plainly), append(off, worst/fusee.MostDoubt(points))
			}
		}
		mean, plain := stat.Mean(curve, nil), stat.Mean(cubic, nil)
		share := float64(within) / float64(all)
		t.Logf("%d points: the curve is out by %.4f, the cubic by %.4f in the mean of the worst; %.3f within the doubt, worst over it %.2f", n, mean, plain, share, stat.Mean(off, nil))
		if mean > limit.curve || plain < limit.cubic || share < 0.93 || share > 0.99 {
			t.Errorf("%d points: the curve is out by %.4f, the cubic by %.4f; %.3f within the doubt", n, mean, plain, share)
		}
	}
}
