package numeric

import (
	"cmp"
	"math"
	"slices"
)

// rounding is how far, as a share of the greatest of the list, keys differ that are the same
// but for rounding: another processor rounds otherwise.
const rounding = 1e-9

// Descending sorts a list by a key, the greatest first and NaN last. Items whose keys are
// the same but for rounding are sorted by the next key, and by none keep their order, so
// that a list comes out the same on every processor.
func Descending[T any](list []T, keys ...func(*T) float64) {
	order := make([]int, len(list))
	for i := range order {
		order[i] = i
	}
	values := make([][]float64, len(keys))
	for k, key := range keys {
		values[k] = make([]float64, len(list))
		for i := range list {
			values[k][i] = key(&list[i])
		}
	}
	descend(order, values)
	before := slices.Clone(list)
	for i, from := range order {
		list[i] = before[from]
	}
}

// descend sorts numbers of items by the values of their keys. What is rounding goes by the
// greatest value of all items, not of those alone that the keys before leave together: these
// may all be 0 but for rounding.
func descend(order []int, values [][]float64) {
	if len(values) == 0 {
		slices.Sort(order)
		return
	}
	key, greatest := values[0], 0.0
	for _, v := range key {
		if a := math.Abs(v); a > greatest && !math.IsInf(a, 0) {
			greatest = a
		}
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(key[j], key[i]) })
	for begin, end := 0, 0; begin < len(order); begin = end {
		for end = begin + 1; end < len(order); end++ {
			a, b := key[order[end-1]], key[order[end]]
			if cmp.Compare(a, b) != 0 && !(math.Abs(a-b) <= rounding*greatest) {
				break
			}
		}
		descend(order[begin:end], values[1:])
	}
}
