package measure

import (
	"math"
	"math/rand/v2"
	"testing"

	"evenpull/sim/bench/book"
)

// TestBenchFigures: half a kilogram and a kilogram at 77 mm pull 0.378 and
// 0.755 N·m (common practice, no source), to their last digit.
func TestBenchFigures(t *testing.T) {
	n := NeedOf(&book.Weights{PulleyRadiusMM: 77, Trials: []book.Trial{ran(500, false), ran(1000, true)}}, standardGravity)
	for i, want := range []float64{0.378, 0.755} {
		if got := n.Trials[i].Torque; math.Abs(got-want) > 0.0005 {
			t.Errorf("%v N·m, want %v", got, want)
		}
	}
	cord := NeedOf(&book.Weights{PulleyRadiusMM: 76, CordThicknessMM: 2, Trials: []book.Trial{ran(500, false)}}, standardGravity)
	wantNear(t, "with a cord of 2 mm", cord.Trials[0].Torque, n.Trials[0].Torque, 1e-15)
}

// TestBracket: ends, middle and rectangular uncertainty (JCGM 100:2008, 4.3.7,
// closed form: half the width over √3), and what contradictions leave.
func TestBracket(t *testing.T) {
	inf := math.Inf(1)
	for name, c := range map[string]struct {
		trials            []book.Trial
		least, lo, hi, us float64
		contrary          []Contrary
	}{
		"both ends":       {[]book.Trial{ran(400, false), ran(300, false), ran(500, true), ran(600, true)}, 0.45, 0.4, 0.5, 0.05 / math.Sqrt(3), nil},
		"any order":       {[]book.Trial{ran(600, true), ran(500, true), ran(300, false), ran(400, false)}, 0.45, 0.4, 0.5, 0.05 / math.Sqrt(3), nil},
		"all run":         {[]book.Trial{ran(600, true), ran(500, true)}, 0.5, 0, 0.5, nan, nil},
		"none runs":       {[]book.Trial{ran(300, false), ran(400, false)}, nan, 0.4, inf, nan, nil},
		"contrary":        {[]book.Trial{ran(300, false), ran(400, true), ran(450, false), ran(500, true)}, 0.4, 0.3, 0.5, 0.1 / math.Sqrt(3), []Contrary{{2, 1}}},
		"the same":        {[]book.Trial{ran(400, true), ran(400, false), ran(500, true)}, 0.5, 0, 0.5, nan, []Contrary{{1, 0}}},
		"nothing is sure": {[]book.Trial{ran(400, true), ran(500, false)}, nan, 0, inf, nan, []Contrary{{1, 0}}},
		"lower alone":     {[]book.Trial{ran(300, false), ran(400, true), ran(500, false)}, nan, 0.3, inf, nan, []Contrary{{2, 1}}},
	} {
		n := NeedOf(meter100(c.trials...), 10)
		b := n.Bracket
		if !near(b.Least, c.least, 1e-12) || !near(b.Between.Lo, c.lo, 1e-12) || !near(b.Between.Hi, c.hi, 1e-12) || !near(b.Uncertainty, c.us, 1e-12) {
			t.Errorf("%s: %+v", name, b)
		}
		if len(b.Contrary) != len(c.contrary) || len(c.contrary) == 1 && b.Contrary[0] != c.contrary[0] {
			t.Errorf("%s: contrary %v, want %v", name, b.Contrary, c.contrary)
		}
		if n.Cadence != nil || n.TorqueFor(1).How != Unknown {
			t.Errorf("%s: a cadence without blows", name)
		}
	}
}

// TestBracketHolds: for a train with one least torque the bracket always holds
// it, tightens with every trial, and scales with gravity.
func TestBracketHolds(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		least := 0.1 + r.Float64()
		var trials []book.Trial
		width := math.Inf(1)
		for range 12 {
			mass := 1 + 1500*r.Float64()
			trials = append(trials, ran(mass, mass/1e3 >= least))
			b := NeedOf(meter100(trials...), 10).Bracket
			if !(b.Between.Lo <= least && least <= b.Between.Hi) || len(b.Contrary) > 0 || b.Between.Length() > width {
				t.Fatalf("%+v for %v", b, least)
			}
			width = b.Between.Length()
			heavy := NeedOf(meter100(trials...), 20).Bracket
			if !near(heavy.Least, 2*b.Least, 1e-12) || !near(heavy.Uncertainty, 2*b.Uncertainty, 1e-12) {
				t.Fatalf("%+v does not scale to %+v", b, heavy)
			}
		}
	}
}
