package shares

import (
	"context"
	"errors"
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// of estimates the shares for one result that is a function of the coordinates, each of
// them an input, on some cores.
func of(t testing.TB, seed int64, dims, cores int, place func(int, float64) float64, f func(x []float64) float64) Result {
	t.Helper()
	p := Problem{Inputs: make([]int, dims), Results: 1, Seed: seed, Place: place}
	for i := range p.Inputs {
		p.Inputs[i] = 1
	}
	for range cores {
		p.Runs = append(p.Runs, func(x, y []float64) bool { y[0] = f(x); return true })
	}
	r, err := Of(t.Context(), p)
	if err != nil || len(r) != 1 {
		t.Fatal(err, len(r))
	}
	return r[0]
}

// truth is the shares in closed form.
type truth struct{ first, total []float64 }

// ishigami is the function of T. Ishigami and T. Homma (1990) with a = 7, b = 0.1, and
// its shares.
func ishigami() (truth, func(int, float64) float64, func(x []float64) float64) {
	const a, b, pi4 = 7, 0.1, math.Pi * math.Pi * math.Pi * math.Pi
	v1, v2, v13 := math.Pow(1+b*pi4/5, 2)/2, a*a/8.0, b*b*pi4*pi4*8/225
	v := v1 + v2 + v13
	return truth{[]float64{v1 / v, v2 / v, 0}, []float64{(v1 + v13) / v, v2 / v, v13 / v}},
		func(_ int, u float64) float64 { return math.Pi * (2*u - 1) },
		func(x []float64) float64 {
			s := math.Sin(x[1])
			return math.Sin(x[0]) + a*s*s + b*x[2]*x[2]*x[2]*x[2]*math.Sin(x[0])
		}
}

// g is the function of A. Saltelli and I. M. Sobol' (1995) and its shares.
func g(a ...float64) (truth, func(int, float64) float64, func(x []float64) float64) {
	all := 1.0
	part := make([]float64, len(a))
	for i := range a {
		part[i] = 1 / (3 * (1 + a[i]) * (1 + a[i]))
		all *= 1 + part[i]
	}
	var tr truth
	for i := range a {
		tr.first = append(tr.first, part[i]/(all-1))
		tr.total = append(tr.total, part[i]*all/(1+part[i])/(all-1))
	}
	return tr, nil, func(x []float64) float64 {
		p := 1.0
		for i := range a {
			p *= (math.Abs(4*x[i]-2) + a[i]) / (1 + a[i])
		}
		return p
	}
}

// Shares in closed form are met to a hundredth whatever the seed, and the errors told are
// honest: of many estimates, each off by up to 2.36 of its own errors (Student's t, 7
// degrees of freedom), 95 in 100 hold the truth, and with the seed of the commands, 1, none
// is off by more than 3.
func TestClosedForms(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	within, tried := 0, 0
	for name, problem := range map[string]func() (truth, func(int, float64) float64, func(x []float64) float64){
		"ishigami": ishigami,
		"g":        func() (truth, func(int, float64) float64, func(x []float64) float64) { return g(0, 1, 4.5, 9, 99, 99) },
	} {
		tr, place, f := problem()
		for seed := range int64(40) {
			r := of(t, seed, len(tr.first), 1, place, f)
			left := 1.0
			for i, in := range r.Inputs {
				left -= tr.first[i]
				for _, c := range []struct {
					what string
					e    Estimate
					want float64
				}{{"first", in.First, tr.first[i]}, {"total", in.Total, tr.total[i]}, {"joint", in.Joint, tr.total[i] - tr.first[i]}} {
					off := math.Abs(c.e.Value - c.want)
					if tried++; off <= 2.36*c.e.Error {
						within++
					}
					if off > 0.01 || seed == 1 && off > 3*c.e.Error {
						t.Errorf("%s, seed %d, input %d, %s: %+v, want %v", name, seed, i, c.what, c.e, c.want)
					}
				}
			}
			if math.Abs(r.Joint.Value-left) > 0.015 || r.Failed != 0 || r.Pairs < Scrambles*Points*len(tr.first) || r.Pairs > Scrambles*MostPoints*len(tr.first) {
				t.Errorf("%s: %+v, want %v", name, r, left)
			}
		}
	}
	if share := float64(within) / float64(tried); share < 0.9 || share > 0.985 {
		t.Errorf("%.3f of %d hold the truth", share, tried)
	}
}

// More points are taken for the inputs whose errors call for it, and for those only, also
// if it is that of one result among others; what has no shares calls for nothing.
func TestMorePoints(t *testing.T) {
	_, place, f := ishigami()
	sum := func(x []float64) float64 { return x[0] + 2*x[1] + x[2] }
	crooked := func(x []float64) float64 { return f(x) + x[3]/100 }
	for _, c := range []struct {
		what string
		of   []func(x []float64) float64
		more int // inputs
	}{
		{"even", []func(x []float64) float64{sum}, 0},
		{"crooked", []func(x []float64) float64{crooked}, 3},
		{"both", []func(x []float64) float64{sum, crooked}, 3},
		{"none", []func(x []float64) float64{func([]float64) float64 { return 1 }}, 0},
	} {
		p := Problem{Inputs: []int{1, 1, 1, 1}, Results: len(c.of), Seed: 3, Place: place, Runs: []func(x, y []float64) bool{func(x, y []float64) bool {
			for i := range c.of {
				y[i] = c.of[i](x)
			}
			return true
		}}}
		all, err := Of(t.Context(), p)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range all {
			if want := 8 * (2048*c.more + 512*(4-c.more)); r.Pairs != want {
				t.Errorf("%s: %d pairs, want %d", c.what, r.Pairs, want)
			}
			for _, in := range r.Inputs {
				if in.First.Error > Known || in.Total.Error > Known {
					t.Errorf("%s: %+v", c.what, in)
				}
			}
		}
	}
}

// Of a sum of normal inputs the shares are those of the delta method (JCGM 100, 5.1.2),
// first-order and total-order alike, also where the mean is a thousand times the spread.
func TestLinear(t *testing.T) {
	c := []float64{3, -2, 1, 0.5, 0}
	sum := 0.0
	for _, v := range c {
		sum += v * v
	}
	for _, mean := range []float64{0, 4000} {
		r := of(t, 1, len(c), 1, func(_ int, u float64) float64 { return distuv.UnitNormal.Quantile(u) }, func(x []float64) float64 {
			y := mean
			for i := range c {
				y += c[i] * x[i]
			}
			return y
		})
		for i, in := range r.Inputs {
			want := c[i] * c[i] / sum
			if math.Abs(in.First.Value-want) > 0.01 || math.Abs(in.Total.Value-want) > 0.005 || math.Abs(in.Joint.Value) > 3*in.Joint.Error+1e-12 {
				t.Errorf("input %d: %+v, want %v", i, in, want)
			}
		}
		if math.Abs(r.Joint.Value) > 3*r.Joint.Error || r.Joint.Error > 0.01 {
			t.Errorf("%+v", r.Joint)
		}
	}
}

// Numbers of one input are exchanged together: a product of two coordinates is nobody
// else's once both are of one input. What nothing moves has no shares.
func TestTogether(t *testing.T) {
	p := Problem{Inputs: []int{1, 2}, Results: 2, Runs: []func(x, y []float64) bool{func(x, y []float64) bool {
		y[0], y[1] = (x[0]-0.5)+4*(x[1]-0.5)*(x[2]-0.5), 0.3
		return true
	}}}
	r, err := Of(t.Context(), p)
	if err != nil {
		t.Fatal(err)
	}
	alone := 1.0 / 12 / (1.0/12 + 16.0/144)
	for i, want := range []float64{alone, 1 - alone} {
		if in := r[0].Inputs[i]; math.Abs(in.First.Value-want) > 0.03 || math.Abs(in.Total.Value-want) > 0.02 {
			t.Errorf("input %d: %+v, want %v", i, in, want)
		}
		if in := r[1].Inputs[i]; !math.IsNaN(in.First.Value) || !math.IsNaN(in.Total.Error) {
			t.Errorf("%+v of what does not vary", in)
		}
	}
	// The same two coordinates apart have no share alone, and all of it jointly.
	p.Inputs = []int{1, 1, 1}
	if r, err = Of(t.Context(), p); err != nil {
		t.Fatal(err)
	}
	if in := r[0].Inputs[2]; math.Abs(in.First.Value) > 0.03 || math.Abs(in.Joint.Value-(1-alone)) > 0.04 || math.Abs(r[0].Joint.Value-(1-alone)) > 0.04 {
		t.Errorf("%+v, %+v", in, r[0].Joint)
	}
}

// Pairs of which a run cannot be built are left out and counted, and the shares of an
// additive function with a corner cut off stay near those of it whole. Where nothing can
// be built there are none.
func TestNotBuilt(t *testing.T) {
	cut := func(from float64) Result {
		p := Problem{Inputs: []int{1, 1}, Results: 1, Seed: 2, Runs: []func(x, y []float64) bool{func(x, y []float64) bool {
			y[0] = 2*x[0] + x[1]
			return x[0]*x[1] < from
		}}}
		r, err := Of(t.Context(), p)
		if err != nil {
			t.Fatal(err)
		}
		return r[0]
	}
	whole, most, none := cut(2), cut(0.95), cut(-1)
	if whole.Failed != 0 || most.Failed == 0 || most.Failed > most.Pairs/100 || none.Failed != none.Pairs || none.Pairs != 2*8*512 {
		t.Errorf("%d, %d and %d of %d failed", whole.Failed, most.Failed, none.Failed, none.Pairs)
	}
	if a, b := whole.Inputs[0].Total.Value, most.Inputs[0].Total.Value; math.Abs(a-0.8) > 0.01 || math.Abs(a-b) > 0.02 || !math.IsNaN(none.Inputs[0].Total.Value) {
		t.Errorf("%v, then %v", a, b)
	}
}

// The same seed gives the same on any number of cores, another one nearly it; an end is
// an end.
func TestSeedAndCores(t *testing.T) {
	_, place, f := ishigami()
	one := of(t, 5, 3, 1, place, f)
	if three := of(t, 5, 3, 3, place, f); fmt.Sprint(three) != fmt.Sprint(one) {
		t.Errorf("%+v on three cores, %+v on one", three, one)
	}
	if other := of(t, 6, 3, 1, place, f); fmt.Sprint(other) == fmt.Sprint(one) {
		t.Error("another seed gives the same")
	}
	ctx, stop := context.WithCancel(t.Context())
	stop()
	p := Problem{Inputs: []int{1}, Results: 1, Runs: []func(x, y []float64) bool{func(x, y []float64) bool { return true }}}
	if _, err := Of(ctx, p); !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
}
