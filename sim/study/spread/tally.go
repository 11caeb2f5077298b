package spread

import (
	"math"

	"evenpull/sim/outcome"

	"gonum.org/v1/gonum/stat"
)

const (
	kept    = 1 << 14 // values that are kept one by one; beyond, they are counted in bins
	bins    = 1 << 15
	outside = 0.5 // how far the bins reach beyond the values kept, as a share of their range
)

// tally gathers the values of one result in bounded memory: moments after
// Welford; the first values one by one and, when they get more, all of them in
// bins of one width.
type tally struct {
	n        int
	mean, m2 float64
	lo, hi   float64 // least and greatest value
	values   []float64

	counts      []uint32
	from, width float64 // of the bins
	under, over int     // values outside the bins
}

// newTally is for at most so many values.
func newTally(most int) *tally {
	return &tally{lo: math.Inf(1), hi: math.Inf(-1), values: make([]float64, 0, min(most, kept))}
}

// add takes a value; one that does not apply is passed over.
func (t *tally) add(v float64) {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return
	}
	t.n++
	d := v - t.mean
	t.mean += d / float64(t.n)
	t.m2 += d * (v - t.mean)
	t.lo, t.hi = min(t.lo, v), max(t.hi, v)
	switch {
	case t.counts != nil:
		t.count(v)
	case len(t.values) < kept:
		t.values = append(t.values, v)
	default:
		t.bin()
		t.count(v)
	}
}

// bin lays the bins out about the values kept so far and counts these.
func (t *tally) bin() {
	span := t.hi - t.lo
	if least := 1e-9 * math.Max(math.Abs(t.hi), 1e-300); span < least {
		span = least // all the same so far
	}
	t.from, t.width = t.lo-outside*span, (1+2*outside)*span/bins
	t.counts = make([]uint32, bins)
	for _, v := range t.values {
		t.count(v)
	}
	t.values = nil
}

func (t *tally) count(v float64) {
	switch u := (v - t.from) / t.width; {
	case u < 0:
		t.under++
	case u >= bins:
		t.over++
	default:
		t.counts[int(u)]++
	}
}

// Distribution is what one result came to over the runs.
type Distribution struct {
	Of  outcome.Figure // the result
	Own float64        // in the scenario as it is
	*tally
}

// close makes the distribution ready to be asked.
func (d *Distribution) close() { d.values = sorted(d.values, d.lo, d.hi) }

// N is the number of runs that have the result.
func (d *Distribution) N() int { return d.n }

// Mean is the mean; NaN when no run has the result.
func (d *Distribution) Mean() float64 { return orNaN(d.n > 0, d.mean) }

// SD is the standard deviation (n − 1); NaN below two runs.
func (d *Distribution) SD() float64 { return orNaN(d.n > 1, math.Sqrt(d.m2/float64(d.n-1))) }

// Range is the least and the greatest value met.
func (d *Distribution) Range() (lo, hi float64) { return orNaN(d.n > 0, d.lo), orNaN(d.n > 0, d.hi) }

// Fineness is the most by which a quantile may be out for having been counted in
// bins: one bin; 0 while the values are few enough to be kept.
func (d *Distribution) Fineness() float64 { return d.width }

// Quantile is the value below which the share p of the runs lies, within
// Fineness. Beyond the bins, which no share that matters comes near, it goes
// straight to the least and greatest value.
func (d *Distribution) Quantile(p float64) float64 {
	switch {
	case d.n == 0 || !(p >= 0 && p <= 1):
		return math.NaN()
	case d.counts == nil:
		return stat.Quantile(p, stat.LinInterp, d.values, nil)
	}
	wanted := p * float64(d.n)
	if wanted <= float64(d.under) {
		return d.lo + (d.from-d.lo)*ratio(wanted, float64(d.under))
	}
	below := float64(d.under)
	for i, c := range d.counts {
		if c > 0 && wanted <= below+float64(c) {
			v := d.from + d.width*(float64(i)+(wanted-below)/float64(c))
			return min(max(v, d.lo), d.hi)
		}
		below += float64(c)
	}
	end := d.from + d.width*bins
	return end + (d.hi-end)*ratio(wanted-below, float64(d.over))
}

func ratio(a, b float64) float64 {
	if b == 0 {
		return 0
	}
	return a / b
}

func orNaN(applies bool, v float64) float64 {
	if !applies {
		return math.NaN()
	}
	return v
}
