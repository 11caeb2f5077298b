package plan

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// Exchanges find what trying every set finds.
func TestExchanges(t *testing.T) {
	for _, key := range []string{thickness, flow, "going.barrel.set_up_turns", "going.barrel.inside_diameter_mm", "going.line.thickness_mm"} {
		d := &planned(t, asked(key)).design
		for _, repeats := range []int{1, 3, 20} {
			every, found := d.best(repeats), d.exchanged(repeats)
			for k := range every {
				if v, w := d.varianceOf(found[k], repeats), d.varianceOf(every[k], repeats); !(v <= w*1.001) || !slices.IsSorted(found[k]) || len(found[k]) != k+1 {
					t.Errorf("%s, %d turns in %d run-downs: %v, best %v (%v)", key, k+1, repeats, v, w, found[k])
				}
			}
		}
	}
}

// From any set exchanges lead to one that no exchange makes better; of invented slopes to both
// sides, some of them 0, the sets found for each size are hardly ever worse than the best.
func TestExchangesFromAnywhere(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 5))
	tried, missed := 0, 0
	for range 20 {
		d := design{scatter: random.Float64(), offset: 4 * random.Float64(), meter: random.Float64()}
		for i := range 12 {
			d.at, d.slope, d.torque = append(d.at, i), append(d.slope, max(random.NormFloat64(), -1)+float64(i%3)), append(d.torque, 1+random.Float64())
		}
		d.slope[random.IntN(12)] = 0
		every, found := d.best(2), d.exchanged(2)
		for k := range every {
			if tried++; d.varianceOf(found[k], 2) > d.varianceOf(every[k], 2)*(1+1e-9) {
				missed++
			}
			start := random.Perm(12)[:k+1]
			set := d.exchange(start, 2)
			least := d.varianceOf(set, 2)
			if len(set) != k+1 || least > d.varianceOf(start, 2) {
				t.Fatalf("%v becomes %v", start, set)
			}
			for i := range set {
				for turn := range 12 {
					other := slices.Clone(set)
					if other[i] = turn; !slices.Contains(set, turn) && d.varianceOf(other, 2) < least*(1-1e-12) {
						t.Fatalf("%v is better than %v", other, set)
					}
				}
			}
		}
	}
	if missed > tried/20 {
		t.Errorf("%d of %d sets are not the best", missed, tried)
	}
}
