package measure

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"evenpull/sim/bench/book"
)

func TestOneRepeat(t *testing.T) {
	b := down([]float64{0.5, 0.52, 0.51})
	b.MeterRelative = 0.01
	s := SupplyOf(b)
	for _, turn := range s.Turns {
		if turn.N != 1 || !math.IsNaN(turn.SD) || !math.IsNaN(turn.HalfWidth) || !(turn.Meter > 0) || turn.Outlier != nil {
			t.Errorf("%+v", turn)
		}
	}
	if !math.IsNaN(s.Mean.HalfWidth) || !(s.Mean.Meter > 0) || !math.IsNaN(s.Drift.Slope) || s.Drift.Found || s.Apart {
		t.Errorf("%+v", s)
	}
	wantNear(t, "mean", s.Mean.Value, 0.5125, 1e-12)
}

// TestAllAlike: repeats that read the same leave an interval of 0, or that of the
// meter, and neither drift nor outliers.
func TestAllAlike(t *testing.T) {
	list := []float64{0.1, 0.7, 0.3}
	b := down(list, list, list)
	s := SupplyOf(b)
	for _, turn := range s.Turns {
		if turn.SD != 0 || turn.HalfWidth != 0 || turn.Outlier != nil {
			t.Errorf("%+v", turn)
		}
	}
	if s.Drift.Found || s.Drift.P != 1 || s.Mean.Scatter > 1e-15 {
		t.Errorf("%+v", s.Drift)
	}
	b.MeterResolutionNM = 0.01
	s = SupplyOf(b)
	wantNear(t, "the meter's step", s.Turns[1].HalfWidth, 1.96*0.01/math.Sqrt(12), 1e-12)
}

// TestAllZero: a spring that gives nothing has no unevenness.
func TestAllZero(t *testing.T) {
	s := SupplyOf(down([]float64{0, 0}, []float64{0, 0}, []float64{0, 0}))
	if s.Mean.Value != 0 || !math.IsNaN(s.Unevenness) || s.Drift.Found {
		t.Errorf("%+v", s)
	}
}

func TestUnread(t *testing.T) {
	s := SupplyOf(down([]float64{nan, 0.5, nan, 0.5, nan}, []float64{nan, 0.5, nan, 0.6}))
	if !slices.Equal(s.Unread, []float64{0, 2}) || len(s.Turns) != 2 || s.Turns[1].FuseeTurn != 3 {
		t.Errorf("%+v", s)
	}
	wantNear(t, "mean", s.Mean.Value, 0.525, 1e-12)
	for _, b := range []*book.Torque{down(), down([]float64{}), down([]float64{nan}, []float64{nan, nan})} {
		if s := SupplyOf(b); len(s.Turns) > 0 || !math.IsNaN(s.Mean.Value) || !math.IsNaN(s.Unevenness) || !math.IsNaN(s.Min) || !math.IsNaN(s.Max) || s.Drift.Found || len(s.Unread) > 0 {
			t.Errorf("nothing read at all: %+v", s)
		}
	}
}

// TestTurnsFarApart: trapezia follow the turns that were read.
func TestTurnsFarApart(t *testing.T) {
	s := SupplyOf(down([]float64{1, 2, nan, nan, 4}))
	wantNear(t, "mean", s.Mean.Value, (1.5*1+3*3)/4, 1e-12)
}

// TestUnequalRepeats: a repeat that ended early is compared with the others over
// the turns they share, so that parts of turns and repeats are found again
// (closed form: readings made of such parts).
func TestUnequalRepeats(t *testing.T) {
	parts := []float64{0.02, -0.03, 0.01, 0}
	taken := [][]int{{0, 1, 2, 3}, {4, 5, 6, 7}, {2, 3, 4, 5}, {0, 7}}
	var lists [][]float64
	for i, part := range parts {
		list := slices.Repeat([]float64{nan}, 8)
		for _, j := range taken[i] {
			list[j] = 0.5 + 0.1*float64(j) + part
		}
		lists = append(lists, list)
	}
	s := SupplyOf(down(lists...))
	if s.Apart {
		t.Fatal("repeats that can be compared are called apart")
	}
	for i, part := range parts {
		wantNear(t, "repeat", s.Repeats[i].Mean, 0.85+part, 1e-9)
		if s.Repeats[i].N != len(taken[i]) {
			t.Error(s.Repeats[i])
		}
	}
	wantNear(t, "mean", s.Mean.Value, 0.85, 1e-9)
}

// TestApart: repeats that share no turn cannot be compared, and nothing claims it.
func TestApart(t *testing.T) {
	s := SupplyOf(down([]float64{0.5, 0.5}, []float64{nan, nan, 0.5, 0.5}, []float64{nan, nan, 0.6, 0.6}))
	if !s.Apart || !math.IsNaN(s.Mean.HalfWidth) || !math.IsNaN(s.Mean.Scatter) || s.Drift.Found || !math.IsNaN(s.Drift.Slope) {
		t.Errorf("%+v", s)
	}
	if !(s.Turns[2].HalfWidth > 0) {
		t.Error("turns with two readings have an interval all the same")
	}
}

// TestOrderAndScale: the order of repeats moves no figure but the drift, which
// turns round; other units scale them all; missing readings in any place leave
// finite figures.
func TestOrderAndScale(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 200 {
		lists := make([][]float64, 2+r.IntN(5))
		for i := range lists {
			for j := range 17 {
				v := truth(j) + 0.01*r.NormFloat64()
				if r.IntN(6) == 0 {
					v = nan
				}
				lists[i] = append(lists[i], v)
			}
		}
		b := down(lists...)
		b.MeterRelative, b.MeterResolutionNM = 0.01, 0.01
		s := SupplyOf(b)
		turned := *b
		turned.RunningDown = slices.Clone(lists)
		slices.Reverse(turned.RunningDown)
		scaled := *b
		scaled.MeterResolutionNM *= 4
		scaled.RunningDown = nil
		for _, list := range lists {
			more := slices.Clone(list)
			for j := range more {
				more[j] *= 4
			}
			scaled.RunningDown = append(scaled.RunningDown, more)
		}
		back, big := SupplyOf(&turned), SupplyOf(&scaled)
		if !(s.Mean.Value > 0.4 && s.Mean.Value < 0.6) || !s.Apart && !(s.Mean.HalfWidth > 0) || !(s.Unevenness > 0) {
			t.Fatalf("%+v", s.Mean)
		}
		for _, c := range []struct{ got, want float64 }{
			{back.Mean.Value, s.Mean.Value}, {back.Mean.HalfWidth, s.Mean.HalfWidth}, {back.Unevenness, s.Unevenness}, {back.Drift.Slope, -s.Drift.Slope},
			{big.Mean.Value, 4 * s.Mean.Value}, {big.Mean.HalfWidth, 4 * s.Mean.HalfWidth}, {big.Unevenness, s.Unevenness}, {big.Drift.Slope, 4 * s.Drift.Slope},
		} {
			if !near(c.got, c.want, 1e-6) {
				t.Fatalf("%v, want %v", c.got, c.want)
			}
		}
	}
}

func TestOf(t *testing.T) {
	r := Of(&book.Book{Weights: []book.Weights{*meter100(ran(400, false)), *meter100(struck(500, 1))}, Torques: []book.Torque{*down([]float64{0.5})}}, 10)
	if len(r.Needs) != 2 || len(r.Supplies) != 1 || r.Needs[1].Cadence == nil || r.Supplies[0].Spring != "A" || r.Needs[0].Train != "going" {
		t.Errorf("%+v", r)
	}
}
