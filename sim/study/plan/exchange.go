package plan

import (
	"math"
	"slices"
)

// exchanged are the best sets of each size that exchanges find: a turn read for one that is
// not, the best such exchange first, until none is for the better (after V. V. Fedorov,
// Theory of Optimal Experiments, 1972, and A. C. Atkinson and A. N. Donev, Optimum
// Experimental Designs, 1992; both from memory). Each size begins with the best of the size
// below and one turn more, and again with that above less one.
func (d *design) exchanged(repeats int) [][]int {
	n := len(d.slope)
	list := make([][]int, n)
	better := func(set []int) {
		set = d.exchange(set, repeats)
		if k := len(set) - 1; list[k] == nil || d.varianceOf(set, repeats) < d.varianceOf(list[k], repeats) {
			list[k] = set
		}
	}
	var set []int
	for range n {
		set = d.onward(set, repeats)
		better(set)
		set = list[len(set)-1]
	}
	for size := n - 1; size > 0; size-- {
		better(d.lessened(list[size], repeats))
	}
	for i := range list {
		slices.Sort(list[i])
	}
	return list
}

// varianceOf is that of a set; infinite where it tells nothing.
func (d *design) varianceOf(turns []int, repeats int) float64 {
	a := d.sumsOf(turns)
	if a.squares == 0 {
		return math.Inf(1)
	}
	return d.variance(a, repeats)
}

// onward is a set with the turn more that is best.
func (d *design) onward(set []int, repeats int) []int {
	var to []int
	for t := range d.slope {
		if slices.Contains(set, t) {
			continue
		}
		if next := append(slices.Clone(set), t); to == nil || d.varianceOf(next, repeats) < d.varianceOf(to, repeats) {
			to = next
		}
	}
	return to
}

// lessened is a set without the turn whose loss is least.
func (d *design) lessened(set []int, repeats int) []int {
	var to []int
	for i := range set {
		if next := slices.Delete(slices.Clone(set), i, i+1); to == nil || d.varianceOf(next, repeats) < d.varianceOf(to, repeats) {
			to = next
		}
	}
	return to
}

// exchange is a set that no exchange makes better.
func (d *design) exchange(set []int, repeats int) []int {
	set = slices.Clone(set)
	for least := d.varianceOf(set, repeats); ; {
		best := slices.Clone(set)
		for i, own := range set {
			for t := range d.slope {
				if slices.Contains(set, t) {
					continue
				}
				set[i] = t
				if v := d.varianceOf(set, repeats); v < least {
					least = v
					copy(best, set)
				}
			}
			set[i] = own
		}
		if slices.Equal(best, set) {
			return set
		}
		set = best
	}
}
