package measure

import (
	"math"
	"math/rand/v2"
	"testing"

	"evenpull/sim/bench/book"
)

// TestNormalRange: the expected range of normal values is the d₂ of control charts
// (ISO 7870-2, from memory), that of two and of three in closed form.
func TestNormalRange(t *testing.T) {
	for n, want := range map[int]float64{2: 1.128, 3: 1.693, 4: 2.059, 5: 2.326, 6: 2.534, 7: 2.704, 8: 2.847, 9: 2.970, 10: 3.078, 15: 3.472, 17: 3.588, 20: 3.735, 25: 3.931} {
		if got := normalRange(n); math.Abs(got-want) > 0.0006 {
			t.Errorf("%d: %v, want %v", n, got, want)
		}
	}
	wantNear(t, "two", normalRange(2), 2/math.Sqrt(math.Pi), 1e-9)
	wantNear(t, "three", normalRange(3), 3/math.Sqrt(math.Pi), 1e-9)
	if got := normalRange(1); math.Abs(got) > 1e-9 {
		t.Errorf("one: %v", got)
	}
}

// TestUnevennessOfScatter: three repeats of 17 turns that are even show 3.6 s/√3 from
// greatest to least, however far the repeats differ as wholes.
func TestUnevennessOfScatter(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 6))
	const records, sd = 1500, 0.004
	shown, told := 0.0, 0.0
	for range records {
		lists := make([][]float64, 3)
		for i := range lists {
			whole := 0.01 * r.NormFloat64()
			for range 17 {
				lists[i] = append(lists[i], 0.5+whole+sd*r.NormFloat64())
			}
		}
		s := SupplyOf(down(lists...))
		shown, told = shown+(s.Max-s.Min)/records, told+s.ByScatter*s.Mean.Value/records
	}
	if want := 3.588 * sd / math.Sqrt(3); math.Abs(shown/want-1) > 0.02 || math.Abs(told/want-1) > 0.02 {
		t.Errorf("%.5f shown, %.5f told, want %.5f N·m", shown, told, want)
	}
	// Where a repeat lacks readings it is by how many there are at a turn in the mean.
	s := SupplyOf(down([]float64{0.5, 0.52, 0.49, 0.51}, []float64{0.51, 0.5, 0.5}))
	wantNear(t, "7 readings at 4 turns", s.ByScatter, normalRange(4)*s.Down.Scatter/math.Sqrt(7.0/4)/s.Mean.Value, 1e-12)
	if one := SupplyOf(down([]float64{0.5, 0.52})); !math.IsNaN(one.ByScatter) {
		t.Errorf("%v of one repeat", one.ByScatter)
	}
}

// TestScatter: two repeats scatter by the standard deviation of their differences over
// √2 (closed form), whatever they differ by in the mean.
func TestScatter(t *testing.T) {
	for _, whole := range []float64{0, 0.1} {
		s := SupplyOf(down([]float64{0.50, 0.53, 0.49, 0.52}, []float64{0.51 + whole, 0.52 + whole, 0.51 + whole, 0.50 + whole}))
		squares := 2 * (0.01*0.01 + 0.02*0.02) // differences 0.01, −0.01, 0.02 and −0.02, beside those as wholes
		wantNear(t, "scatter", s.Down.Scatter, math.Sqrt(squares/3/2), 1e-9)
	}
	// Groups that cannot be compared each have their own level: two turns of two repeats
	// twice, each group with one degree of freedom.
	apart := SupplyOf(down([]float64{0.5, 0.52}, []float64{0.5, 0.5}, []float64{nan, nan, 0.6, 0.64}, []float64{nan, nan, 0.6, 0.6}))
	wantNear(t, "apart", apart.Down.Scatter, math.Sqrt((0.02*0.02/4+0.04*0.04/4)/2), 1e-6)
	if !apart.Apart || len(apart.Runs) != 0 {
		t.Errorf("%+v", apart)
	}
}

// pooled is a book of sets that differ by shares of their means.
func pooled(shares ...[]float64) *book.Book {
	b := new(book.Book)
	for i, set := range shares {
		t := book.Torque{Train: "going", Spring: string(rune('A' + i)), MeterRelative: 0.01, MeterResolutionNM: 0.005}
		level := 0.4 + 0.1*float64(i)
		for _, share := range set {
			var list []float64
			for turn := range 5 + 4*i {
				list = append(list, level*(1+share)+0.001*math.Sin(float64(turn)))
			}
			t.RunningDown = append(t.RunningDown, list)
		}
		b.Torques = append(b.Torques, t)
	}
	return b
}

// TestPooled: as shares of the mean, run-downs of all sets that one meter read are one
// sample with Σ(J − 1) degrees of freedom (closed form: variances pooled by their
// degrees of freedom); t of 3 is 3.182446 (tables).
func TestPooled(t *testing.T) {
	b := pooled([]float64{-0.01, 0.01}, []float64{0.02, 0, -0.02}, []float64{0}, []float64{0.05, -0.05})
	b.Torques[3].MeterResolutionNM = 0.01
	s := Of(b, 10).Supplies
	between := math.Sqrt((2*0.01*0.01 + 2*0.02*0.02) / 3)
	for i, n := range []float64{2, 3, 1} {
		m := s[i].Mean
		wantNear(t, "between", m.Between, between, 2e-3) // the sine moves the means a little
		wantNear(t, "scatter", m.Scatter, 3.182446305*m.Between*m.Value/math.Sqrt(n), 1e-9)
		wantNear(t, "half width", m.HalfWidth, math.Hypot(m.Scatter, m.Meter), 1e-12)
		if m.Freedom != 3 || len(s[i].Runs) != 5 || Freedom(s[i].Runs) != 3 {
			t.Errorf("%+v", s[i])
		}
	}
	if m := s[3].Mean; m.Freedom != 1 || !near(m.Between, math.Sqrt(2)*0.05, 2e-3) {
		t.Errorf("another meter: %+v", m)
	}
	b.Torques[3].MeterResolutionNM, b.Torques[3].MeterRelative = 0.005, 0.02
	if m := Of(b, 10).Supplies[3].Mean; m.Freedom != 1 {
		t.Errorf("another meter: %+v", m)
	}
	if m := Of(pooled([]float64{0}, []float64{0}), 10).Supplies[0].Mean; m.Freedom != 0 || !math.IsNaN(m.Between) || !math.IsNaN(m.HalfWidth) {
		t.Errorf("nothing repeated: %+v", m)
	}
}

// TestDepartures: of two repeats each departs by half their difference, as a share of
// the mean; at a place between turns it is that of the nearest.
func TestDepartures(t *testing.T) {
	b := down([]float64{0.50, 0.40, 0.52, 0.58, nan}, []float64{0.52, 0.40, 0.50, 0.62, 0.5})
	s := SupplyOf(b)
	if len(s.Runs) != 2 || s.Runs[0].Up != nil || s.Runs[0].Freedom != 0.5 {
		t.Fatalf("%+v", s.Runs)
	}
	d := s.Runs[1].Down
	for along, want := range map[float64]float64{0: 0.01, 0.1: 0.01, 0.13: 0, 0.25: 0, 0.5: -0.01, 0.75: 0.02, 0.8: 0.02} {
		wantNear(t, "at a turn", d.At(along), want/s.Mean.Value, 1e-6)
	}
	wantNear(t, "where one repeat is missing", s.Runs[0].Down.At(1), s.Runs[0].Down.Whole, 1e-12)
	wantNear(t, "as wholes", s.Runs[0].Down.Whole, -d.Whole, 1e-9)
	// Both ways read as often are one run; else each way is for itself.
	b.WindingUp = [][]float64{{0.8, 0.82, 0.7, 0.8}, {0.8, 0.8, 0.8, 0.82}}
	if s := SupplyOf(b); len(s.Runs) != 2 || s.Runs[0].Up == nil || s.Runs[0].Down == nil || s.Up.N != 2 || Freedom(s.Runs) != 1 {
		t.Errorf("%+v", s.Runs)
	}
	b.WindingUp = append(b.WindingUp, []float64{0.8, 0.81, 0.79, 0.8})
	s = SupplyOf(b)
	if len(s.Runs) != 5 || s.Runs[1].Up != nil || s.Runs[2].Down != nil || s.Runs[4].Up == nil || Freedom(s.Runs) != 3 || s.Mean.Freedom != 1 {
		t.Errorf("%+v", s.Runs)
	}
	// A spring that gives nothing has no shares.
	if s := SupplyOf(down([]float64{0, 0}, []float64{0, 0})); len(s.Runs) != 0 {
		t.Errorf("%+v", s.Runs)
	}
}

// TestHalfWidthOf: t of 4 is 2.776445 (tables), and the meter's part is normal.
func TestHalfWidthOf(t *testing.T) {
	wantNear(t, "half width", HalfWidth(0.3, 4, 0.4), math.Hypot(2.776445105*0.3, 1.96*0.4), 1e-9)
	wantNear(t, "one degree of freedom", HalfWidth(1, 1, 0), 12.7062047362, 1e-9)
	if !math.IsNaN(HalfWidth(0.3, 0, 0.4)) {
		t.Error("an interval without a degree of freedom")
	}
}
