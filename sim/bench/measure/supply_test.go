package measure

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"evenpull/sim/bench/book"
)

// TestStudent: closed forms of the quantile at 97.5 % for one degree of freedom,
// tan(π(p − ½)), and for two, (2p−1)/√(2p(1−p)).
func TestStudent(t *testing.T) {
	const p = 0.975
	wantNear(t, "one degree of freedom", student(1), math.Tan(math.Pi*(p-0.5)), 1e-9)
	wantNear(t, "two degrees of freedom", student(2), (2*p-1)/math.Sqrt(2*p*(1-p)), 1e-9)
	if math.Abs(student(2)-4.302653) > 5e-7 {
		t.Error(student(2))
	}
}

// TestStudentTable: the t-factors for 95 % of JCGM 100:2008, table G.2, from memory,
// to half their last digit.
func TestStudentTable(t *testing.T) {
	for dof, want := range map[int]float64{1: 12.71, 2: 4.30, 3: 3.18, 4: 2.78, 5: 2.57, 6: 2.45, 7: 2.36, 8: 2.31, 9: 2.26, 10: 2.23, 20: 2.09, 50: 2.01} {
		if got := student(dof); math.Abs(got-want) > 0.005 {
			t.Errorf("%v degrees of freedom: %v, want %v", dof, got, want)
		}
	}
}

// TestGuideReadings: the twenty readings of JCGM 100:2008, table 1, from memory, with
// the mean 100.145, the standard deviation 1.489 and that of the mean 0.333 of 4.4.3.
// The factor for 19 degrees of freedom is that of table G.2, 2.09.
func TestGuideReadings(t *testing.T) {
	var lists [][]float64
	for _, v := range []float64{
		96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07,
		100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72,
	} {
		lists = append(lists, []float64{v})
	}
	s := SupplyOf(down(lists...))
	turn := s.Turns[0]
	for _, c := range []struct {
		what                 string
		got, want, lastDigit float64
	}{
		{"mean", turn.Mean, 100.145, 0.001}, {"standard deviation", turn.SD, 1.489, 0.001}, {"half width", turn.HalfWidth / 2.09, 0.333, 0.001},
		{"mean of the repeats", s.Mean.Value, 100.145, 0.001}, {"its half width", s.Mean.HalfWidth / 2.09, 0.333, 0.001},
	} {
		if math.Abs(c.got-c.want) > c.lastDigit {
			t.Errorf("%s: %v, want %v", c.what, c.got, c.want)
		}
	}
	if turn.N != 20 || turn.Outlier != nil || len(s.Repeats) != 20 || s.Repeats[3].N != 1 {
		t.Errorf("%+v", turn)
	}
}

// TestGrubbs: the critical values at 5 %, two-sided. For three and four readings
// Student's t has a closed form, tan(π(p − ½)) and (2p−1)/√(2p(1−p)). The others are
// those of F. E. Grubbs, Technometrics 11 (1969), table 1 (its 2.5 % one-sided), from
// memory, to half their last digit; as remembered the table is up to one in the
// last digit off its own formula at 3, 8 and 20 readings.
func TestGrubbs(t *testing.T) {
	wantNear(t, "three readings", grubbs(3), 2/math.Sqrt(3)*math.Cos(math.Pi*0.05/6), 1e-9)
	const p = 1 - 0.05/8
	square := (2*p - 1) * (2*p - 1) / (2 * p * (1 - p))
	wantNear(t, "four readings", grubbs(4), 3.0/2*math.Sqrt(square/(2+square)), 1e-9)
	for n, want := range map[int]float64{4: 1.481, 5: 1.715, 6: 1.887, 7: 2.020, 9: 2.215, 10: 2.290} {
		if got := grubbs(n); math.Abs(got-want) > 0.0005 {
			t.Errorf("%d readings: %v, want %v", n, got, want)
		}
	}
	for n, want := range map[int]float64{3: 1.155, 8: 2.126, 20: 2.709} {
		if got := grubbs(n); math.Abs(got-want) > 0.001 {
			t.Errorf("%d readings: %v, want %v", n, got, want)
		}
	}
}

// TestHalfWidth: a turn worked out apart from this code with the formula of JCGM
// 100:2008, 4.2.3 and 4.3.7, and the closed form of Student's t.
func TestHalfWidth(t *testing.T) {
	b := down([]float64{0.46}, []float64{0.45}, []float64{0.46})
	b.MeterRelative, b.MeterResolutionNM = 0.01, 0.01
	s := SupplyOf(b)
	turn := s.Turns[0]
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"mean", turn.Mean, 0.4566666666666667}, {"sd", turn.SD, 0.005773502691896262},
		{"from the repeats", turn.Repeats, 0.014342175765831558}, {"half width", turn.HalfWidth, 0.01626087790651534},
		{"mean of all", s.Mean.Value, 0.4566666666666667}, {"its half width", s.Mean.HalfWidth, 0.01626087790651534},
	} {
		wantNear(t, c.what, c.got, c.want, 1e-9)
	}
	if turn.N != 3 || turn.FuseeTurn != 0 || turn.Outlier != nil {
		t.Errorf("%+v", turn)
	}
}

// TestMean: by trapezia over fusee turns, the meter's bound in full, its step
// averaged over the turns (closed forms).
func TestMean(t *testing.T) {
	b := down([]float64{1, 2, 4}, []float64{1, 2, 4}, []float64{1.1, 2.1, 4.1})
	b.MeterRelative, b.MeterResolutionNM = 0.02, 0.1
	s := SupplyOf(b)
	base := (1+2)/2.0/2 + (2+4)/2.0/2 // 2.25
	for i, want := range []float64{base, base, base + 0.1} {
		wantNear(t, "repeat", s.Repeats[i].Mean, want, 1e-12)
	}
	mean := base + 0.1/3
	sd := 0.1 / math.Sqrt(3)
	wantNear(t, "mean", s.Mean.Value, mean, 1e-12)
	scatter := student(2) * sd / math.Sqrt(3)
	wantNear(t, "scatter", s.Mean.Scatter, scatter, 1e-9)
	step := 1.96 * 0.1 / math.Sqrt(12) * math.Sqrt(0.25*0.25+0.5*0.5+0.25*0.25)
	meter := math.Hypot(1.96*0.02*mean/math.Sqrt(3), step)
	wantNear(t, "meter", s.Mean.Meter, meter, 1e-12)
	wantNear(t, "half width", s.Mean.HalfWidth, math.Hypot(scatter, meter), 1e-9)
	wantNear(t, "unevenness", s.Unevenness, 3/mean, 1e-12)
	wantNear(t, "least", s.Min, 1+0.1/3, 1e-12)
	wantNear(t, "greatest", s.Max, 4+0.1/3, 1e-12)
}

// coverage is the share of intervals that hold the true value, over records of
// three repeats of 17 turns with normal noise of sd and a meter that is out by a
// share drawn evenly up to its bound once a record.
func coverage(records int, sd, bound float64, declared float64) (turns, means float64) {
	r := rand.New(rand.NewPCG(20, 26))
	held, all, heldMeans := 0, 0, 0
	for range records {
		off := 1 + bound*(2*r.Float64()-1)
		lists := make([][]float64, 3)
		trueMean := 0.0
		for i := range lists {
			lists[i] = make([]float64, 17)
			for j := range lists[i] {
				lists[i][j] = off*truth(j) + sd*r.NormFloat64()
			}
		}
		for j := range 16 {
			trueMean += (truth(j) + truth(j+1)) / 2 / 16
		}
		b := down(lists...)
		b.MeterRelative = declared
		s := SupplyOf(b)
		for j := range s.Turns {
			all++
			if math.Abs(s.Turns[j].Mean-truth(j)) <= s.Turns[j].HalfWidth {
				held++
			}
		}
		if math.Abs(s.Mean.Value-trueMean) <= s.Mean.HalfWidth {
			heldMeans++
		}
	}
	return float64(held) / float64(all), float64(heldMeans) / float64(records)
}

func truth(turn int) float64 { return 0.5 + 0.01*math.Sin(float64(turn)) }

// TestCoverage: 2,000 records of 17 turns, so that the share held from repeats
// alone is known to 0.0012 (one standard deviation); that of the means, one a
// record, to 0.005.
func TestCoverage(t *testing.T) {
	turns, means := coverage(2000, 0.005, 0, 0)
	if turns < 0.94 || turns > 0.96 || means < 0.935 || means > 0.965 {
		t.Errorf("from repeats alone %.4f of the turns and %.4f of the means are held", turns, means)
	}
	for _, sd := range []float64{0.0005, 0.002, 0.005, 0.02} {
		if turns, means := coverage(2000, sd, 0.01, 0.01); turns < 0.95 || means < 0.95-2*0.005 {
			t.Errorf("with a meter good to 1 %% and noise of %v N·m %.4f of the turns and %.4f of the means are held", sd, turns, means)
		} else {
			t.Logf("noise %v N·m: turns %.4f, means %.4f", sd, turns, means)
		}
	}
	if turns, _ := coverage(500, 0.0005, 0.01, 0); turns > 0.8 {
		t.Errorf("a meter that is out and not declared so goes unnoticed: %.4f", turns)
	}
}

// TestLossesRecovered: from readings made with an efficiency the efficiency
// follows (closed form).
func TestLossesRecovered(t *testing.T) {
	const share = 0.87
	b := down()
	for range 3 {
		var d, u []float64
		for j := range 17 {
			d, u = append(d, truth(j)*share), append(u, truth(j)/share)
		}
		b.RunningDown, b.WindingUp = append(b.RunningDown, d), append(b.WindingUp, u)
	}
	b.WindingUp[0] = b.WindingUp[0][:9]
	b.RunningDown[0][16], b.RunningDown[1][16], b.RunningDown[2][16] = nan, nan, nan
	s := SupplyOf(b)
	e := s.Efficiency
	if len(e.Turns) != 16 || len(e.Above) > 0 || len(s.Winding) != 17 {
		t.Fatalf("%+v", e)
	}
	for _, turn := range e.Turns {
		wantNear(t, "efficiency", turn.Value, share, 1e-12)
	}
	wantNear(t, "mean", e.Mean, share, 1e-12)
	if e.SD > 1e-12 {
		t.Error(e.SD)
	}
}

func TestOddLosses(t *testing.T) {
	mixed := down([]float64{0.5, 0.6, 0.5})
	mixed.WindingUp = [][]float64{{0.4, 0.5, 0.6}}
	s := SupplyOf(mixed)
	if !slices.Equal(s.Efficiency.Above, []float64{0, 1}) {
		t.Errorf("%+v", s.Efficiency)
	}

	apart := down([]float64{0.5})
	apart.WindingUp = [][]float64{{nan, 0.6}}
	s = SupplyOf(apart)
	if e := s.Efficiency; len(e.Turns) > 0 || !math.IsNaN(e.Mean) || !math.IsNaN(e.SD) {
		t.Errorf("%+v", e)
	}

	still := down([]float64{nan, 0.5, 0})
	still.WindingUp = [][]float64{{0.6, 0.6, 0}}
	if e := SupplyOf(still).Efficiency; len(e.Turns) != 1 || e.Turns[0].FuseeTurn != 1 || !math.IsNaN(e.SD) {
		t.Errorf("%+v", e)
	}
}

func BenchmarkSupply(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 1))
	record := &book.Torque{MeterRelative: 0.01, MeterResolutionNM: 0.005}
	for range 3 {
		list := make([]float64, 17)
		for j := range list {
			list[j] = truth(j) + 0.005*r.NormFloat64()
		}
		record.RunningDown = append(record.RunningDown, list)
	}
	b.ReportAllocs()
	for b.Loop() {
		SupplyOf(record)
	}
}
