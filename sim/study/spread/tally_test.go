package spread

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"evenpull/sim/outcome"

	"gonum.org/v1/gonum/stat"
)

func distribution(x []float64) *Distribution {
	d := &Distribution{Of: outcome.Figure{}, tally: newTally(kept)}
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
