package spread

import (
	"math"
	"slices"
	"testing"
)

// even are as many values as are kept, evenly from 0 to 1.
func even() []float64 {
	x := make([]float64, kept)
	for i := range x {
		x[i] = float64(i) / (kept - 1)
	}
	return x
}

// filled are one value more than are kept, evenly from 0 to 1, and then others. The
// bins lie from −0.5 to 1.5 then, each 2⁻¹⁴ wide, which numbers hold exactly.
func filled(others ...float64) *Distribution {
	return distribution(append(append(even(), 0.5), others...))
}

// With half of the runs beyond the bins, quantiles go straight from the bins to the
// least or greatest value: worked by hand.
func TestBeyondTheBins(t *testing.T) {
	low, high := filled(slices.Repeat([]float64{-10}, kept+1)...), filled(slices.Repeat([]float64{10}, kept+1)...)
	for _, c := range []struct {
		d       *Distribution
		p, want float64
	}{
		{low, 0, -10}, {low, 0.25, -5.25}, {low, 0.5, -0.5}, {low, 0.75, 0.5}, {low, 1, 1},
		{high, 0, 0}, {high, 0.25, 0.5}, {high, 0.5, 1}, {high, 0.75, 5.75}, {high, 0.625, 3.625}, {high, 1, 10},
	} {
		if got := c.d.Quantile(c.p); math.Abs(got-c.want) > c.d.Fineness() {
			t.Errorf("quantile %v is %v, want %v", c.p, got, c.want)
		}
	}
	if low.Fineness() != 1.0/16384 || high.Fineness() != 1.0/16384 {
		t.Errorf("a bin is %v wide", low.Fineness())
	}
	// In a picture they stand at the ends.
	for name, c := range map[string]struct {
		d           *Distribution
		n, at, rest int
	}{"low": {low, 11, 0, 10}, "high": {high, 10, 9, 0}} { // bars of 1
		if bars := c.d.Bars(c.n); math.Abs(bars[c.at].Share-0.5) > 1e-12 || math.Abs(bars[c.rest].Share-0.5) > 1e-3 {
			t.Errorf("%s: %+v", name, bars)
		}
	}
}

// The first bin begins at its lower end, the last ends below its upper one.
func TestEndsOfTheBins(t *testing.T) {
	for _, c := range []struct {
		v           float64
		under, over int
		first, last uint32
	}{
		{-0.5, 0, 0, 1, 0}, {math.Nextafter(-0.5, -1), 1, 0, 0, 0}, {1.5, 0, 1, 0, 0}, {math.Nextafter(1.5, 0), 0, 0, 0, 1},
	} {
		d := filled(c.v)
		if d.under != c.under || d.over != c.over || d.counts[0] != c.first || d.counts[bins-1] != c.last || d.N() != kept+2 {
			t.Errorf("%v: %d below, %d beyond, %d in the first bin, %d in the last", c.v, d.under, d.over, d.counts[0], d.counts[bins-1])
		}
	}
}

// The value one beyond those that are kept has all of them counted.
func TestKept(t *testing.T) {
	if d := distribution(even()); d.counts != nil || len(d.values) != 16_384 || d.Fineness() != 0 {
		t.Errorf("%d values kept, %d bins", len(d.values), len(d.counts))
	}
	total := 0
	d := filled()
	for _, c := range d.counts {
		total += int(c)
	}
	if total != kept+1 || d.values != nil {
		t.Errorf("%d values counted, %d kept", total, len(d.values))
	}
}

// Values that are all the same at first, and 0 among them, still find their bins.
func TestSameAtFirst(t *testing.T) {
	for _, v := range []float64{0, 1e-12, -7, 4e5} {
		x := append(slices.Repeat([]float64{v}, 2*kept), v+1)
		d := distribution(x)
		if got := d.Quantile(0.5); math.Abs(got-v) > d.Fineness() || d.Quantile(0) != v || d.Quantile(1) != v+1 || d.over != 1 {
			t.Errorf("half are up to %v, want %v; from %v to %v, %d beyond", got, v, d.Quantile(0), d.Quantile(1), d.over)
		}
		if f := d.Fineness(); !(f > 0 && f <= 1e-9*math.Max(math.Abs(v), 1)) {
			t.Errorf("%v: bins %v wide", v, f)
		}
	}
}

// No share is below 0 or above 1; one value has no standard deviation.
func TestOutsideTheShares(t *testing.T) {
	d := distribution([]float64{2, 4})
	for _, p := range []float64{-1e-9, 1 + 1e-9, math.NaN()} {
		if q := d.Quantile(p); !math.IsNaN(q) {
			t.Errorf("quantile %v is %v", p, q)
		}
	}
	if d.Quantile(0) != 2 || d.Quantile(1) != 4 || d.SD() != math.Sqrt2 {
		t.Errorf("from %v to %v, standard deviation %v", d.Quantile(0), d.Quantile(1), d.SD())
	}
	one := distribution([]float64{3})
	lo, hi := one.Range()
	if !math.IsNaN(one.SD()) || one.Mean() != 3 || lo != 3 || hi != 3 || one.Quantile(0.3) != 3 {
		t.Errorf("%v ± %v from %v to %v", one.Mean(), one.SD(), lo, hi)
	}
	if bars := one.Bars(7); len(bars) != 1 || bars[0] != (Bar{3, 3, 1}) {
		t.Errorf("%+v", bars)
	}
}

// Bars stand side by side from the least to the greatest value, which is in the last,
// and each has the share of the values in it, kept or counted.
func TestBarsByHand(t *testing.T) {
	d := distribution([]float64{0, 1, 2, 3, 3.5, 5, 8, 10})
	want := []Bar{{0, 2.5, 3.0 / 8}, {2.5, 5, 2.0 / 8}, {5, 7.5, 1.0 / 8}, {7.5, 10, 2.0 / 8}}
	if got := d.Bars(4); !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	for i, b := range filled(0.1, 0.2).Bars(8) {
		if b.From != float64(i)/8 || b.To != float64(i+1)/8 || math.Abs(b.Share-1.0/8) > 3.0/kept {
			t.Errorf("bar %d: %+v", i, b)
		}
	}
}

// A value counted in a bin stands for the middle of it, which is no further away than
// half a bin.
func TestMiddles(t *testing.T) {
	d := filled()
	runs := 0.0
	d.each(func(v, n float64) {
		runs += n
		if u := (v - d.from) / d.width; u-math.Floor(u) != 0.5 {
			t.Fatalf("%v is %v bins from the first", v, u)
		}
	})
	if runs != kept+1 {
		t.Errorf("%v runs", runs)
	}
}

// Steps are the quantiles at even shares, both ends among them.
func TestStepsByHand(t *testing.T) {
	d := distribution([]float64{1, 2, 3, 4})
	got := d.Steps(4)
	want := []Step{{1, 0}, {1, 0.25}, {2, 0.5}, {3, 0.75}, {4, 1}}
	if !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}
