package measure

import (
	"math"
	"slices"
	"testing"

	"evenpull/sim/bench/book"
)

func heard(mass float64, j book.Judged) book.Trial {
	return book.Trial{MassG: mass, BlowIntervalS: nan, TwelveS: nan, Judged: j}
}

// TestBand: the ends lie halfway between what was judged one thing and the next, 1 g being
// 1 mN·m here; where nothing was, at the outermost that was liked.
func TestBand(t *testing.T) {
	const w, l, b = book.Weak, book.Liked, book.Brisk
	for name, c := range map[string]struct {
		trials   []book.Trial
		lo, hi   float64 // NaN for none
		of       [2]float64
		contrary []Contrary
	}{
		"both ends":    {[]book.Trial{heard(500, w), heard(600, l), heard(800, l), heard(900, b)}, 0.55, 0.85, [2]float64{0.05 / math.Sqrt(3), 0.05 / math.Sqrt(3)}, nil},
		"any order":    {[]book.Trial{heard(900, b), heard(600, l), heard(1000, b), heard(500, w), heard(400, w), heard(800, l)}, 0.55, 0.85, [2]float64{0.05 / math.Sqrt(3), 0.05 / math.Sqrt(3)}, nil},
		"one liked":    {[]book.Trial{heard(500, w), heard(600, l), heard(900, b)}, 0.55, 0.75, [2]float64{0.05 / math.Sqrt(3), 0.15 / math.Sqrt(3)}, nil},
		"liked alone":  {[]book.Trial{heard(600, l), heard(800, l)}, 0.6, 0.8, [2]float64{nan, nan}, nil},
		"nothing weak": {[]book.Trial{heard(600, l), heard(900, b)}, 0.6, 0.75, [2]float64{nan, 0.15 / math.Sqrt(3)}, nil},
		"none brisk":   {[]book.Trial{heard(500, w), heard(600, l), heard(700, l)}, 0.55, 0.7, [2]float64{0.05 / math.Sqrt(3), nan}, nil},
		"one torque":   {[]book.Trial{heard(600, l)}, nan, nan, [2]float64{nan, nan}, nil},
		"none liked":   {[]book.Trial{heard(500, w), heard(900, b)}, nan, nan, [2]float64{nan, nan}, nil},
		"contrary":     {[]book.Trial{heard(500, w), heard(700, l), heard(750, w), heard(800, l), heard(950, b)}, 0.65, 0.875, [2]float64{0.15 / math.Sqrt(3), 0.075 / math.Sqrt(3)}, []Contrary{{2, 1}}},
		"too brisk":    {[]book.Trial{heard(500, w), heard(700, l), heard(650, b), heard(900, b)}, nan, nan, [2]float64{0.1 / math.Sqrt(3), nan}, []Contrary{{1, 2}}},
		"brisk below":  {[]book.Trial{heard(500, l), heard(700, l), heard(900, l), heard(850, b)}, 0.5, 0.7, [2]float64{nan, nan}, []Contrary{{2, 3}}},
		"weighed too":  {[]book.Trial{ran(300, false), heard(500, w), heard(600, l), struck(700, 1.2), heard(900, b)}, 0.55, 0.75, [2]float64{0.05 / math.Sqrt(3), 0.15 / math.Sqrt(3)}, nil},
	} {
		n := NeedOf(&book.Weights{PulleyRadiusMM: 100, Trials: c.trials}, 10)
		if n.Band == nil || !slices.Equal(n.Band.Contrary, c.contrary) || n.UpDown != nil || !n.Strikes() {
			t.Errorf("%s: %+v", name, n.Band)
			continue
		}
		ends := n.Band.Ends()
		wantNear(t, name+" from", ends[0], c.lo, 1e-12)
		wantNear(t, name+" to", ends[1], c.hi, 1e-12)
		for i := range c.of {
			wantNear(t, name+" uncertainty", n.Band.Uncertainty[i], c.of[i], 1e-12)
		}
		if likes := n.Likes(); likes.IsEmpty() != math.IsNaN(c.lo) {
			t.Errorf("%s: %v", name, likes)
		}
	}
	n := NeedOf(&book.Weights{PulleyRadiusMM: 100, Trials: []book.Trial{ran(400, false), ran(500, true)}}, 10)
	if n.Band != nil || !n.Likes().IsEmpty() || n.Strikes() {
		t.Errorf("%+v", n)
	}
}

// A strike of twelve counts as its eleven intervals.
func TestTwelve(t *testing.T) {
	n := NeedOf(&book.Weights{PulleyRadiusMM: 100, Trials: []book.Trial{{MassG: 600, BlowIntervalS: nan, TwelveS: 16.5}, struck(900, 1.1)}}, 10)
	if n.Cadence == nil || n.Trials[0].Interval != 1.5 || !near(n.TorqueFor(1.5).Torque, 0.6, 1e-12) || !n.Trials[0].Runs {
		t.Errorf("%+v", n)
	}
}

// TestFirstTurn: readings stand at the turns from their first on, and make the same figures.
func TestFirstTurn(t *testing.T) {
	b := down([]float64{0.5, nan, 0.52, 0.51}, []float64{0.49, nan, 0.53})
	b.FirstTurn = nan
	at0 := SupplyOf(b)
	b.FirstTurn = 2.5
	s := SupplyOf(b)
	if s.Turns[0].FuseeTurn != 2.5 || s.Turns[2].FuseeTurn != 5.5 || !slices.Equal(s.Unread, []float64{3.5}) || at0.Turns[2].FuseeTurn != 3 {
		t.Errorf("%+v", s)
	}
	if s.Mean.Value != at0.Mean.Value || s.Down.Scatter != at0.Down.Scatter || s.Mean.HalfWidth != at0.Mean.HalfWidth {
		t.Errorf("%+v, %+v", s, at0)
	}
}
