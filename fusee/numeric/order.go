package numeric

import (
	"cmp"
	"math"
	"slices"
)

// rounding is how far, as a share of the greatest, keys differ that are the same but for
// rounding: another processor rounds otherwise.
const rounding = 1e-9

// Descending sorts a list by a key, the greatest first and NaN last. Items whose keys are
// the same but for rounding are sorted by the next key, and by none keep their order, so
// that a list comes out the same on every processor.
func Descending[T any](list []T, keys ...func(*T) float64) {
	if len(keys) == 0 || len(list) < 2 {
		return
	}
	before, key, order := slices.Clone(list), make([]float64, len(list)), make([]int, len(list))
	greatest := 0.0
	for i := range list {
		key[i], order[i] = keys[0](&list[i]), i
		if a := math.Abs(key[i]); a > greatest && !math.IsInf(a, 0) {
			greatest = a
		}
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(key[j], key[i]) })
	for begin, end := 0, 0; begin < len(list); begin = end {
		for end = begin + 1; end < len(list); end++ {
			a, b := key[order[end-1]], key[order[end]]
			if cmp.Compare(a, b) != 0 && !(math.Abs(a-b) <= rounding*greatest) {
				break
			}
		}
		slices.Sort(order[begin:end])
		for i := begin; i < end; i++ {
			list[i] = before[order[i]]
		}
		Descending(list[begin:end], keys[1:]...)
	}
}
