package readings

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"evenpull/sim/bench/book"
	"evenpull/sim/bench/measure"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
)

// trials is how many records each case is made of: few, or as many as the table in
// DEVELOPERS.md was made of when EVENPULL_TRIALS says so.
func trials(t *testing.T, few int) int {
	if n, err := strconv.Atoi(os.Getenv("EVENPULL_TRIALS")); err == nil && n > 0 {
		return n
	}
	return few
}

// bench makes records of a clock whose truth is known.
type bench struct {
	random          *rand.Rand
	scatter, offset float64 // shares, of a reading and of a run-down as a whole
	bound           float64 // of the meter
}

// torque is a record of some run-downs.
func (b *bench) torque(truth []float64, spring string, repeats int, meter float64) book.Torque {
	t := book.Torque{Train: "going", Spring: spring, MeterRelative: b.bound}
	for range repeats {
		whole := meter * (1 + b.offset*b.random.NormFloat64())
		var list []float64
		for _, v := range truth {
			list = append(list, v*whole*(1+b.scatter*b.random.NormFloat64()))
		}
		t.RunningDown = append(t.RunningDown, list)
	}
	return t
}

// covered is how many of so many records have the true value of each of some inputs
// in the 95 % interval. Each is of one spring, or of more that the same meter read.
func (b *bench) covered(t *testing.T, records, springs, repeats int, keys []string, truth []float64) []int {
	t.Helper()
	s, _ := trial.Compile(t, "eight-day")
	var sets []string
	for i, key := range keys {
		sets = append(sets, fmt.Sprintf("%s=%g", key, truth[i]))
	}
	r := trial.RunOf(t, with(t, s, sets...), 0)
	torques := read(r, "going", 1, false, same).RunningDown[0]
	held := make([]int, len(keys))
	for range records {
		meter, all := 1+b.bound*(2*b.random.Float64()-1), new(book.Book)
		for i := range springs {
			all.Torques = append(all.Torques, b.torque(torques, strconv.Itoa(i), repeats, meter))
		}
		q := &measure.Of(all, 9.8).Supplies[0]
		e, err := Explain(t.Context(), Spring{q, b.bound, 0}, s, keys)
		if err != nil {
			t.Fatal(err)
		}
		for i, in := range e.Inputs {
			if in.Interval.Contains(truth[i]) {
				held[i]++
			}
		}
	}
	return held
}

// Intervals cover the truth as often as they say: of 1000 records, with run-downs that
// differ as wholes by 0, 0.5 or 1 %, in 90 to 99 % with a meter that is right, and in
// 90 % at least with one that is out by anything up to its bound. Of fewer records
// three standard deviations of a share more are let pass.
func TestIntervalsCover(t *testing.T) {
	n := trials(t, 300)
	let := 0.0
	if n < 1000 {
		let = 3 * math.Sqrt(0.05*0.95/float64(n))
	}
	for _, bound := range []float64{0, 0.01} {
		for _, offset := range []float64{0, 0.005, 0.01} {
			for _, repeats := range []int{2, 3, 5} {
				b := bench{rand.New(rand.NewPCG(uint64(repeats), 14)), 0.006, offset, bound}
				share := float64(b.covered(t, n, 1, repeats, []string{"going.mainspring.thickness_mm"}, []float64{0.39})[0]) / float64(n)
				t.Logf("meter %v, offset %v, %d repeats: %.1f %%", bound, offset, repeats, 100*share)
				if share < 0.90-let || bound == 0 && share > 0.99+let {
					t.Errorf("meter %v, offset %v, %d repeats: %.3f of %d covered", bound, offset, repeats, share, n)
				}
			}
		}
	}
}

// Three springs that one meter read twice each have three degrees of freedom, so that
// the interval of each is as honest and about a quarter as wide as of two run-downs
// alone. A spring read once has the interval of how the others differ.
func TestPooledIntervalsCover(t *testing.T) {
	n := trials(t, 300)
	keys, truth := []string{"going.mainspring.thickness_mm"}, []float64{0.39}
	three := bench{rand.New(rand.NewPCG(3, 14)), 0.006, 0.005, 0}
	if held := three.covered(t, n, 3, 2, keys, truth)[0]; held < n*90/100 || held > n*99/100 {
		t.Errorf("%d of %d covered", held, n)
	}
	s, _ := trial.Compile(t, "eight-day")
	torques := read(trial.RunOf(t, s, 0), "going", 1, false, same).RunningDown[0]
	all := &book.Book{Torques: []book.Torque{three.torque(torques, "A", 3, 1), three.torque(torques, "B", 1, 1), three.torque(torques, "C", 2, 1)}}
	all.Torques[2].MeterRelative = 0.02 // another meter
	for i, want := range []int{2, 2, 1} {
		q := &measure.Of(all, 9.8).Supplies[i]
		e, err := Explain(t.Context(), Spring{q, 0, 0}, s, keys)
		if err != nil || e.Freedom != want || !e.FromRuns || q.Mean.Freedom != want || !(q.Mean.HalfWidth > 0) {
			t.Errorf("%v: %+v", err, e)
		}
	}
}

// Two inputs at once, of which one bends the curve: each interval covers.
func TestIntervalsOfTwoCover(t *testing.T) {
	n := trials(t, 300)
	b := bench{rand.New(rand.NewPCG(5, 14)), 0.006, 0.01, 0}
	for i, held := range b.covered(t, n, 1, 3, []string{"going.mainspring.thickness_mm", "going.barrel.set_up_turns"}, []float64{0.37, 1.2}) {
		if held < n*90/100-15*n/1000*3 || held > n-1 {
			t.Errorf("input %d: %d of %d covered", i, held, n)
		}
	}
}

// One run-down alone has the errors that scatter about the fit makes, by its degrees
// of freedom, and no more: run-downs that differ as wholes are beyond it.
func TestOneRunDownAlone(t *testing.T) {
	n := trials(t, 300)
	keys, truth := []string{"going.mainspring.thickness_mm"}, []float64{0.39}
	b := bench{rand.New(rand.NewPCG(6, 14)), 0.006, 0, 0}
	if held := b.covered(t, n, 1, 1, keys, truth)[0]; held < n*91/100 || held > n*99/100 {
		t.Errorf("%d of %d covered", held, n)
	}
	b.offset = 0.01
	if held := b.covered(t, n, 1, 1, keys, truth)[0]; held > n/2 {
		t.Errorf("%d of %d covered although one run-down does not tell how they differ", held, n)
	}
	s, _ := trial.Compile(t, "eight-day")
	alone := b.torque(read(trial.RunOf(t, s, 0), "going", 1, false, same).RunningDown[0], "A", 1, 1)
	for _, step := range []float64{0, 0.001} { // which sets the weights; readings stray by more than twice as much, so that its errors are among the residuals
		alone.MeterResolutionNM = step
		e, err := Explain(t.Context(), springOf(&alone), s, keys)
		if err != nil || e.FromRuns || e.Freedom != 16 {
			t.Fatalf("%v: %+v", err, e)
		}
		in := e.Inputs[0]
		left := 0.0
		for _, p := range e.After.Points {
			left += p.Residual() * p.Residual() / 16
		}
		x := newResponse(t, s, keys[0], in.Value)
		slopes := 0.0
		for _, v := range x {
			slopes += v * v
		}
		closeTo(t, "by the residuals", math.Sqrt(in.StandardError*in.StandardError-in.FromMeter*in.FromMeter), math.Sqrt(left/slopes), 1e-4)
		if in.FromMeter > 1e-9 {
			t.Errorf("the step of %v leaves %v", step, in.FromMeter)
		}
	}
	// With so coarse a step that all turns read alike all of it is common to them.
	for i := range alone.RunningDown[0] {
		alone.RunningDown[0][i] = 0.4
	}
	alone.MeterResolutionNM = 0.2
	e, err := Explain(t.Context(), springOf(&alone), s, keys)
	if err != nil {
		t.Fatal(err)
	}
	in, sum, squares := e.Inputs[0], 0.0, 0.0
	for _, v := range newResponse(t, s, keys[0], in.Value) {
		sum, squares = sum+v, squares+v*v
	}
	closeTo(t, "by a coarse step", in.FromMeter, 0.2/math.Sqrt(12)*sum/squares, 0.06)
}

// newResponse is how the torque at each turn follows an input, by a difference.
func newResponse(t *testing.T, s *scenario.Scenario, key string, at float64) []float64 {
	t.Helper()
	h := 1e-5 * at
	up, down := trial.RunOf(t, with(t, s, fmt.Sprintf("%s=%.12g", key, at+h)), 0), trial.RunOf(t, with(t, s, fmt.Sprintf("%s=%.12g", key, at-h)), 0)
	var list []float64
	for turn := range 17 {
		list = append(list, (predicted(up, &Point{FuseeTurn: float64(turn)})-predicted(down, &Point{FuseeTurn: float64(turn)}))/(2*h))
	}
	return list
}

// What is told to first order about the fit of the means is what fits of each run-down
// alone tell: the value is their mean, the covariance theirs over their number.
func TestEachRunDownAlone(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	keys := []string{"going.mainspring.thickness_mm", "going.barrel.set_up_turns"}
	b := bench{rand.New(rand.NewPCG(9, 14)), 0.003, 0.01, 0}
	const repeats = 4
	all := b.torque(read(trial.RunOf(t, s, 0), "going", 1, false, same).RunningDown[0], "A", repeats, 1)
	e, err := Explain(t.Context(), springOf(&all), s, keys)
	if err != nil {
		t.Fatal(err)
	}
	values := mat.NewDense(repeats, 2, nil)
	for i, list := range all.RunningDown {
		one := all
		one.RunningDown = [][]float64{list}
		alone, err := Explain(t.Context(), springOf(&one), s, keys)
		if err != nil {
			t.Fatal(err)
		}
		values.SetRow(i, []float64{alone.Inputs[0].Value, alone.Inputs[1].Value})
	}
	var covariance mat.SymDense
	stat.CovarianceMatrix(&covariance, values, nil)
	for i := range keys {
		if mean := stat.Mean(mat.Col(nil, i, values), nil); math.Abs(mean-e.Inputs[i].Value) > 0.02*e.Inputs[i].StandardError {
			t.Errorf("%s: %v, the mean of the fits is %v ± %v", keys[i], e.Inputs[i].Value, mean, e.Inputs[i].StandardError)
		}
		for j := range keys {
			size := e.Inputs[i].StandardError * e.Inputs[j].StandardError
			if want := covariance.At(i, j) / repeats; math.Abs(e.Covariance[i][j]-want) > 0.03*size {
				t.Errorf("covariance %v, of the fits %v", e.Covariance[i][j], want)
			}
			closeTo(t, "correlation", e.Correlation[i][j], e.Covariance[i][j]/size, 1e-12)
		}
	}
}

// Winding and running down in turn differ together: what both read high by is no
// error of an efficiency, which is the ratio of the two.
func TestBothWaysTogether(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	r := trial.RunOf(t, s, 0)
	k, keys := 0, []string{"going.mainspring.efficiency", "going.mainspring.thickness_mm"}
	together := springOf(read(r, "going", 3, true, func(v float64) float64 { k++; return v * (1 + 0.01*float64((k-1)/34-1)) }))
	e, err := Explain(t.Context(), together, s, keys)
	if err != nil || !e.FromRuns || e.Freedom != 2 {
		t.Fatalf("%v: %+v", err, e)
	}
	if in := e.Inputs; !(in[0].StandardError < 1e-6*in[0].Value) || !(in[1].StandardError > 1e-3*in[1].Value) {
		t.Errorf("%+v", in)
	}
	// Where one way reads high when the other reads low, it is the efficiency that is not
	// known: by half of what the ways differ, 2 %, of three runs (closed form, the
	// torque being even), and the thickness is.
	k = 0
	opposed := read(r, "going", 3, true, func(v float64) float64 {
		k++
		return v * (1 + 0.01*float64(((k-1)/34-1)*(2*(k%2)-1)))
	})
	against := springOf(opposed)
	if e, err = Explain(t.Context(), against, s, keys); err != nil || e.Freedom != 2 {
		t.Fatalf("%v: %+v", err, e)
	}
	closeTo(t, "efficiency", e.Inputs[0].StandardError/e.Inputs[0].Value, 0.01/math.Sqrt(3), 0.02)
	if in := e.Inputs[1]; !(in.StandardError < 2e-4*in.Value) {
		t.Errorf("%+v", in)
	}
	// Wound once only, the ways are taken to differ each for itself.
	q := *together.Supply
	once := read(r, "going", 3, true, same)
	once.WindingUp = once.WindingUp[:1]
	k = 0
	for i, list := range once.RunningDown {
		for j := range list {
			list[j] *= 1 + 0.01*float64(i-1)
		}
	}
	q = measure.SupplyOf(once)
	if e, err = Explain(t.Context(), Spring{Supply: &q}, s, keys); err != nil || e.Freedom != 2 || !(e.Inputs[0].StandardError > 1e-3) {
		t.Errorf("%v: %+v", err, e)
	}
	// Runs that differ by 1 %, three down and one up: √(down/up) has ½·√(1/3 + 1) % of
	// it (closed form; the torque is even).
	closeTo(t, "efficiency", e.Inputs[0].StandardError/e.Inputs[0].Value, 0.005*math.Sqrt(1.0/3+1), 0.02)
}
