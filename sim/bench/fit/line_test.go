package fit

import (
	"math"
	"strings"
	"testing"
)

// y = 2x and y = 3 + 2x are found exactly; one or two readings tell nothing of the
// error.
func TestExactLines(t *testing.T) {
	a, b, as, bs, sd, err := Linear([]float64{1, 3}, []float64{5, 9}, []float64{0.5, 0.5})
	if err != nil || math.Abs(a-3) > 1e-14 || math.Abs(b-2) > 1e-14 || !math.IsNaN(as) || !math.IsNaN(bs) || !math.IsNaN(sd) {
		t.Errorf("%v ± %v, %v ± %v, %v, %v", a, as, b, bs, sd, err)
	}
	s, se, r2, err := Through([]float64{3}, []float64{6}, nil)
	if err != nil || s != 2 || !math.IsNaN(se) || r2 != 1 {
		t.Errorf("%v ± %v, R² %v, %v", s, se, r2, err)
	}
	s, se, r2, err = Through([]float64{1, 2, 4}, []float64{2, 4, 8}, []float64{1, 2, 3})
	if err != nil || s != 2 || se != 0 || r2 != 1 {
		t.Errorf("%v ± %v, R² %v, %v", s, se, r2, err)
	}
}

// A reading of double weight counts as two of the same (closed form), but for the
// degrees of freedom; weights times a factor change nothing.
func TestWeights(t *testing.T) {
	x, y := []float64{1, 2, 3, 5}, []float64{1.1, 1.9, 3.2, 4.8}
	a, b, as, bs, sd, _ := Linear(x, y, []float64{1, 2, 1, 1})
	a2, b2, as2, bs2, _, _ := Linear([]float64{1, 2, 2, 3, 5}, []float64{1.1, 1.9, 1.9, 3.2, 4.8}, nil)
	closeTo(t, "intercept", a, a2, 1e-12)
	closeTo(t, "slope", b, b2, 1e-12)
	closeTo(t, "error of the intercept", as*math.Sqrt(2), as2*math.Sqrt(3), 1e-12)
	closeTo(t, "error of the slope", bs*math.Sqrt(2), bs2*math.Sqrt(3), 1e-12)
	a3, _, as3, _, sd3, _ := Linear(x, y, []float64{0.2, 0.4, 0.2, 0.2})
	closeTo(t, "intercept", a3, a, 1e-12)
	closeTo(t, "error of the intercept", as3, as, 1e-12)
	closeTo(t, "residual deviation", sd3, sd, 1e-12)

	s, se, r2, _ := Through(x, y, []float64{1, 2, 1, 1})
	s2, se2, r22, _ := Through([]float64{1, 2, 2, 3, 5}, []float64{1.1, 1.9, 1.9, 3.2, 4.8}, nil)
	closeTo(t, "slope through the origin", s, s2, 1e-13)
	closeTo(t, "its error", se*math.Sqrt(3), se2*2, 1e-12)
	closeTo(t, "R²", r2, r22, 1e-13)
}

func TestMalformedLines(t *testing.T) {
	two, tenths := []float64{1, 2}, []float64{0.1, 0.1, 0.1}
	for _, c := range []struct {
		x, y, w []float64
		want    string
		through bool
	}{
		{two, []float64{1}, nil, "2 x, 1 y, 0 weights", true},
		{two, two, tenths, "2 x, 2 y, 3 weights", true},
		{nil, nil, nil, "0 readings", true},
		{two[:1], two[:1], nil, "1 readings, 2 parameters", false},
		{[]float64{1, inf}, two, nil, "x 2 is +Inf", true},
		{two, []float64{math.NaN(), 1}, nil, "y 1 is NaN", true},
		{two, two, []float64{1, 0}, "weight 2 is 0", true},
		{tenths, tenths, nil, "all 3 readings stand at x = 0.1", false},
		{[]float64{0, 0}, two, nil, "all 2 readings stand at x = 0", true},
	} {
		if _, _, _, _, _, err := Linear(c.x, c.y, c.w); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v, want %q", err, c.want)
		}
		if _, _, _, err := Through(c.x, c.y, c.w); c.through && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%v, want %q", err, c.want)
		}
	}
}
