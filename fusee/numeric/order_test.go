package numeric

import (
	"fmt"
	"math"
	"testing"
)

// Keys that differ by rounding alone leave the order to the next key, or as it was.
func TestDescending(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	type item struct{ a, b float64 }
	for _, c := range []struct{ list, want []item }{
		{nil, nil},
		{[]item{{1, 0}, {3, 0}, {2, 0}}, []item{{3, 0}, {2, 0}, {1, 0}}},
		{[]item{{1, 1}, {1 + 1e-12, 2}, {1 - 1e-12, 3}}, []item{{1 - 1e-12, 3}, {1 + 1e-12, 2}, {1, 1}}},
		{[]item{{1, 5}, {1 + 1e-12, 5 + 1e-10}, {2, 0}}, []item{{2, 0}, {1, 5}, {1 + 1e-12, 5 + 1e-10}}},
		{[]item{{1e-17, 1}, {2e-17, 1}, {1, 0}}, []item{{1, 0}, {1e-17, 1}, {2e-17, 1}}},
		{[]item{{1, 0}, {1 + 1e-8, 0}}, []item{{1 + 1e-8, 0}, {1, 0}}},
		{[]item{{nan, 1}, {-3, 1}, {inf, 1}, {nan, 2}, {inf, 2}, {-3, 2}}, []item{{inf, 2}, {inf, 1}, {-3, 2}, {-3, 1}, {nan, 2}, {nan, 1}}},
		{[]item{{0, 1}, {0, 1}}, []item{{0, 1}, {0, 1}}},
		{[]item{{0, 1e-12}, {1, 3}, {0, 2e-12}, {0, 1}}, []item{{1, 3}, {0, 1}, {0, 1e-12}, {0, 2e-12}}}, // what is rounding goes by the 3
	} {
		got := append([]item(nil), c.list...)
		Descending(got, func(i *item) float64 { return i.a }, func(i *item) float64 { return i.b })
		if fmt.Sprint(got) != fmt.Sprint(c.want) {
			t.Errorf("%v: %v", c.list, got)
		}
	}
}
