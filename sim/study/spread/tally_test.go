package spread

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"evenpull/sim/outcome"
	"evenpull/sim/scenario"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// drawn gives n draws of an input.
func drawn(in Input, n int) []float64 {
	w := newWorker(nil, nil, Options{Seed: 12})
	x := make([]float64, n)
	for i := range x {
		x[i] = in.at(w.random)
	}
	slices.Sort(x)
	return x
}

// The draws have the moments of their distribution within four standard errors,
// and its shape by the statistic of Kolmogorov and Smirnov: 1.95/√n is passed by
// one sample in a thousand (tables of the limiting distribution, from memory).
func TestDraws(t *testing.T) {
	const n = 100_000
	root := math.Sqrt(n)
	for _, c := range []struct {
		in        Input
		quantile  func(float64) float64
		skew, exk float64
	}{
		{Input{Value: 5, PlusMinus: 2, Shape: scenario.Uniform}, distuv.Uniform{Min: 3, Max: 7}.Quantile, 0, -1.2},
		{Input{Value: -3, PlusMinus: 0.5, Shape: scenario.Normal}, distuv.Normal{Mu: -3, Sigma: 0.25}.Quantile, 0, 0},
	} {
		x := drawn(c.in, n)
		mean, sd := stat.MeanStdDev(x, nil)
		if math.Abs(mean-c.in.Value) > 4*c.in.SD()/root || math.Abs(sd/c.in.SD()-1) > 4/(math.Sqrt2*root) {
			t.Errorf("%s: mean %v, standard deviation %v, want %v and %v", c.in.Shape, mean, sd, c.in.Value, c.in.SD())
		}
		if skew, exk := stat.Skew(x, nil), stat.ExKurtosis(x, nil); math.Abs(skew-c.skew) > 4*math.Sqrt(6)/root || math.Abs(exk-c.exk) > 4*math.Sqrt(24)/root {
			t.Errorf("%s: skewness %v, excess kurtosis %v", c.in.Shape, skew, exk)
		}
		exact := make([]float64, n)
		for i := range exact {
			exact[i] = c.quantile((float64(i) + 0.5) / n)
		}
		if d := stat.KolmogorovSmirnov(x, nil, exact, nil); d > 1.95/root {
			t.Errorf("%s: the distribution is off by %v", c.in.Shape, d)
		}
		if c.in.Shape == scenario.Uniform && (x[0] < 3 || x[n-1] > 7) {
			t.Errorf("drawn outside the tolerance: %v to %v", x[0], x[n-1])
		}
	}
}

// Streams of neighbouring blocks and seeds have nothing to do with each other.
func TestStreamsAreApart(t *testing.T) {
	const n = 50_000
	column := func(seed int64, block uint64) []float64 {
		w := newWorker(nil, nil, Options{Seed: seed})
		w.seed[8] = byte(block)
		w.stream.Seed(w.seed)
		x := make([]float64, n)
		for i := range x {
			x[i] = w.random.NormFloat64()
		}
		return x
	}
	first := column(1, 0)
	for _, other := range [][]float64{column(1, 1), column(2, 0), column(-1, 0)} {
		if r := stat.Correlation(first, other, nil); math.Abs(r) > 4/math.Sqrt(n) {
			t.Errorf("correlation %v", r)
		}
	}
}

func distribution(x []float64) *Distribution {
	d := &Distribution{Of: outcome.Figure{}, tally: newTally()}
	for _, v := range x {
		d.add(v)
	}
	d.close()
	return d
}

// Moments and extremes are exact; a quantile counted in bins is within Fineness
// of the sorted values', whatever the distribution.
func TestQuantiles(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	const n = 60_000
	for name, draw := range map[string]func() float64{
		"normal": random.NormFloat64, "exponential": random.ExpFloat64, "uniform": random.Float64,
		"two":   func() float64 { return float64(random.IntN(2)) },
		"cubed": func() float64 { v := random.NormFloat64(); return v * v * v },
	} {
		x := make([]float64, n)
		for i := range x {
			x[i] = draw()
		}
		d := distribution(x)
		mean, sd := stat.MeanStdDev(x, nil)
		lo, hi := d.Range()
		slices.Sort(x)
		if math.Abs(d.Mean()-mean) > 1e-9*sd || math.Abs(d.SD()/sd-1) > 1e-9 || lo != x[0] || hi != x[n-1] || d.N() != n {
			t.Errorf("%s: %v ± %v from %v to %v", name, d.Mean(), d.SD(), lo, hi)
		}
		for _, p := range []float64{0, 0.001, 0.05, 0.25, 0.49, 0.5, 0.75, 0.95, 0.999, 1} {
			got, want := d.Quantile(p), stat.Quantile(p, stat.LinInterp, x, nil)
			between := d.Fineness()
			if p == 0 || p == 1 {
				between += 0.2 * (hi - lo) // the ends may lie beyond the bins
			}
			if i := int(p * n); i > 0 && i < n-1 {
				between += x[i+1] - x[i-1] // neighbours in the sample
			}
			if math.Abs(got-want) > between {
				t.Errorf("%s: quantile %v is %v, of the sorted values %v", name, p, got, want)
			}
		}
		if d.values != nil || len(d.counts) != bins {
			t.Errorf("%s: %d values kept", name, len(d.values))
		}
	}
}

// Few values give the quantiles of gonum on the sorted sample, none give nothing.
func TestFewValues(t *testing.T) {
	d := distribution([]float64{3, 1, 2, math.NaN(), math.Inf(1)})
	if d.N() != 3 || d.Mean() != 2 || d.SD() != 1 || d.Quantile(0.5) != stat.Quantile(0.5, stat.LinInterp, []float64{1, 2, 3}, nil) || d.Fineness() != 0 {
		t.Errorf("%+v", d.tally)
	}
	none := distribution(nil)
	lo, hi := none.Range()
	for _, v := range []float64{none.Mean(), none.SD(), none.Quantile(0.5), lo, hi, d.Quantile(2)} {
		if !math.IsNaN(v) {
			t.Errorf("%v of nothing", v)
		}
	}
	if none.Bars(5) != nil || none.Steps(5) != nil {
		t.Error("bars of nothing")
	}
	// One value over and over, however often.
	same := distribution(slices.Repeat([]float64{0.43}, 3*kept))
	if same.Quantile(0.05) != 0.43 || same.Quantile(0.95) != 0.43 || same.SD() != 0 || len(same.Bars(9)) != 1 {
		t.Errorf("%v to %v", same.Quantile(0.05), same.Quantile(0.95))
	}
}

// Bars add up to all runs, steps rise.
func TestBarsAndSteps(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for _, n := range []int{100, 3 * kept} {
		x := make([]float64, n)
		for i := range x {
			x[i] = random.NormFloat64()
		}
		d := distribution(x)
		sum := 0.0
		for _, b := range d.Bars(40) {
			sum += b.Share
		}
		if math.Abs(sum-1) > 1e-9 {
			t.Errorf("%d: the bars add up to %v", n, sum)
		}
		steps := d.Steps(50)
		for i := 1; i < len(steps); i++ {
			if steps[i].Value < steps[i-1].Value || steps[i].Share <= steps[i-1].Share {
				t.Errorf("%d: %v after %v", n, steps[i], steps[i-1])
			}
		}
	}
}
