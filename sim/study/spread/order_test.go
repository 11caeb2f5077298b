package spread

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// Values come in the order that slices.Sort puts them in, however they lie.
func TestSorted(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	for name, draw := range map[string]func() float64{
		"normal": random.NormFloat64, "exponential": random.ExpFloat64, "even": random.Float64,
		"seldom far off": func() float64 { return math.Pow(random.NormFloat64(), 21) },
		"whole":          func() float64 { return math.Round(3 * random.NormFloat64()) },
		"one":            func() float64 { return -0.43 },
		"close":          func() float64 { return 1 + 1e-15*random.NormFloat64() },
		"least":          func() float64 { return 5e-324 * float64(random.IntN(100)) },
		"greatest":       func() float64 { return math.MaxFloat64 * (2*random.Float64() - 1) },
		"any":            func() float64 { return math.Ldexp(random.Float64()-0.5, random.IntN(2000)-1000) },
	} {
		for _, n := range []int{0, 1, 2, 3, 63, 64, 65, 1000, kept} {
			x := make([]float64, n)
			for i := range x {
				x[i] = draw()
			}
			want := slices.Sorted(slices.Values(x))
			lo, hi := math.Inf(1), math.Inf(-1)
			if n > 0 {
				lo, hi = want[0], want[n-1]
			}
			if got := sorted(x, lo, hi); !slices.Equal(got, want) {
				t.Errorf("%d values, %s: %v, want %v", n, name, got, want)
			}
		}
	}
}

func BenchmarkSorted(b *testing.B) {
	random := rand.New(rand.NewPCG(7, 8))
	x := make([]float64, 10_000)
	for i := range x {
		x[i] = random.NormFloat64()
	}
	lo, hi := slices.Min(x), slices.Max(x)
	values := make([]float64, len(x))
	b.Run("by slots", func(b *testing.B) {
		for b.Loop() {
			copy(values, x)
			sorted(values, lo, hi)
		}
	})
	b.Run("knowing nothing", func(b *testing.B) {
		for b.Loop() {
			copy(values, x)
			slices.Sort(values)
		}
	})
}
