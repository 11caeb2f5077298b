package plan

import (
	"math"
	"math/bits"
	"math/rand/v2"
	"slices"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/vary"

	"gonum.org/v1/gonum/mat"
)

// A straight line over equal steps, of which a constant is not known (run-downs that differ
// as wholes by far more than readings scatter), is read at both ends, as many readings at
// each: its D-optimal design (A. C. Atkinson and A. N. Donev, Optimum Experimental Designs,
// 1992, chapter 6; from memory). Of a line through the origin the farthest from it are read.
func TestStraightLine(t *testing.T) {
	line := func(from, offset float64, n int) *design {
		d := &design{scatter: 1, offset: offset}
		for i := range n {
			d.at, d.slope, d.torque = append(d.at, i), append(d.slope, from+float64(i)), append(d.torque, 1)
		}
		return d
	}
	for _, n := range []int{11, mostTried, mostTried + 1, 25} { // every set is tried, or exchanges are
		ends := line(-float64(n-1)/2, 1e6, n).best(1)
		if want := []int{0, n - 1}; !slices.Equal(ends[1], want) {
			t.Errorf("two of %d turns: %v, want %v", n, ends[1], want)
		}
		if want := []int{0, 1, n - 2, n - 1}; !slices.Equal(ends[3], want) {
			t.Errorf("four of %d turns: %v, want %v", n, ends[3], want)
		}
		origin := line(1, 0, n).best(3)
		for k := range origin {
			if len(origin[k]) != k+1 || origin[k][0] != n-k-1 {
				t.Errorf("%d of %d turns through the origin: %v", k+1, n, origin[k])
			}
		}
		if len(ends) != n || len(origin) != n {
			t.Errorf("%d and %d sizes of %d turns", len(ends), len(origin), n)
		}
	}
}

// The estimate is a mean of readings with the weights of least squares, w = s/Σs², and has its
// variance, wᵀVw, with V that of readings that scatter, of run-downs that differ as wholes,
// both divided by their number, and of a meter, of which nothing is (JCGM 100:2008, 5.2.2).
func TestVarianceOfWeightedMean(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 3))
	for range 50 {
		const n = 6
		d := design{scatter: random.Float64(), offset: random.Float64(), rounds: random.Float64(), meter: random.Float64()}
		common := random.Float64()
		d.rounding = func(apart float64) float64 { return common * math.Exp(-apart*apart) }
		for i := range n {
			d.at, d.slope, d.torque = append(d.at, i), append(d.slope, random.NormFloat64()), append(d.torque, 1+random.Float64())
		}
		turns := random.Perm(n)[:4]
		const repeats = 3
		m := len(turns)
		w, v, lasting := mat.NewVecDense(m, nil), mat.NewSymDense(m, nil), mat.NewSymDense(m, nil)
		squares := 0.0
		for _, k := range turns {
			squares += d.slope[k] * d.slope[k]
		}
		for i, k := range turns {
			w.SetVec(i, d.slope[k]/squares)
			for j := i; j < m; j++ {
				l := turns[j]
				runs, meter, step := d.offset/repeats, d.meter*d.torque[k]*d.torque[l], d.rounding(d.torque[k]-d.torque[l])
				if i == j {
					runs += d.scatter / repeats
					step = d.rounds
				}
				v.SetSym(i, j, runs)
				lasting.SetSym(i, j, meter+step)
			}
		}
		a := d.sumsOf(turns)
		closeTo(t, "of run-downs", d.runs(a)/repeats, mat.Inner(w, v, w), 1e-12)
		closeTo(t, "of the meter", d.byMeter(turns), mat.Inner(w, lasting, w), 1e-12)
		d.rounding = nil
		closeTo(t, "in all", d.variance(a, repeats), mat.Inner(w, v, w)+d.byMeter(turns), 1e-12)
		if got := d.varianceOf(turns, repeats); got != d.variance(a, repeats) || !math.IsInf((&design{slope: []float64{0}, torque: []float64{1}}).varianceOf([]int{0}, 1), 1) {
			t.Errorf("%v, want %v", got, d.variance(a, repeats))
		}
	}
}

// Of up to twenty turns the best sets are the best: no other set of as many has less, where
// exchanges alone would miss some.
func TestEverySetIsTried(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	missed := 0
	for range 60 {
		const n = 8
		d := design{scatter: 0.1 * random.Float64(), offset: 4 * random.Float64(), meter: random.Float64()}
		for i := range n {
			d.at, d.slope, d.torque = append(d.at, i), append(d.slope, max(random.NormFloat64(), -1)+float64(i%3)), append(d.torque, 1+random.Float64())
		}
		least := slices.Repeat([]float64{math.Inf(1)}, n+1)
		for set := uint(1); set < 1<<n; set++ {
			var turns []int
			for i := range n {
				if set>>i&1 == 1 {
					turns = append(turns, i)
				}
			}
			size := bits.OnesCount(set)
			least[size] = min(least[size], d.varianceOf(turns, 2))
		}
		every, exchanged := d.best(2), d.exchanged(2)
		for k := range every {
			closeTo(t, "the best of all sets", d.varianceOf(every[k], 2), least[k+1], 1e-9)
			if d.varianceOf(exchanged[k], 2) > least[k+1]*(1+1e-9) {
				missed++
			}
		}
	}
	if missed == 0 {
		t.Error("exchanges miss nothing: this tells nothing of trying every set")
	}
}

// Two springs are compared at the turns that both have: one whose fusee carries the line for
// fewer turns has fewer.
func TestTurnsThatBothHave(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	short := s.Clone()
	if err := vary.Apply(short, []string{"going.mainspring.thickness_mm=0.39"}); err != nil {
		t.Fatal(err)
	}
	f := &short.Trains[0].Fusee
	f.Turns -= 4
	f.DiametersMM = f.DiametersMM[:len(f.DiametersMM)-4]
	o := asked("")
	o.Against = &Other{short, 0}
	st, err := Run(t.Context(), s, 0, o)
	if err != nil {
		t.Fatal(err)
	}
	if n := len(st.At); n != 13 || st.At[0].FuseeTurn != 0 || st.At[n-1].FuseeTurn != 12 || len(st.Whole.Turns) != n {
		t.Errorf("%d turns, %+v", n, st.At)
	}
	for _, at := range st.At {
		if !(at.Torque > 0) || math.Abs(at.Slope) > at.Torque {
			t.Errorf("%+v", at)
		}
	}
	s.Trains[0].Fusee.Turns = -1
	if _, err := Run(t.Context(), s, 0, o); err == nil {
		t.Error("a train that cannot be run is planned for")
	}
}

// An input that moves the torque at some turns only, such as a diameter of the fusee, is read
// where it does. What a turn alone tells is its scatter over its slope (closed form); one that
// does not move tells nothing.
func TestInputOfFewTurns(t *testing.T) {
	o := asked("going.fusee.diameters_mm.8")
	o.Law = Law{Scatter: 0.006}
	st := planned(t, o)
	mean, moves := 0.0, 0
	for _, at := range st.At {
		mean += at.Torque / float64(len(st.At))
	}
	for _, at := range st.At {
		if at.Slope == 0 {
			if at.Read || !math.IsInf(at.Alone, 1) {
				t.Errorf("%+v tells nothing", at)
			}
			continue
		}
		moves++
		closeTo(t, "a turn alone", at.Alone, 0.006*mean/math.Abs(at.Slope)/math.Sqrt(float64(st.Plan.Repeats)), 1e-9)
	}
	if moves == 0 || moves == len(st.At) || len(st.Plan.Turns) > moves {
		t.Errorf("%d turns move, read are %v", moves, st.Plan.Turns)
	}
}
