package cut

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// misses are, for each bound, the cone that misses it least and keeps within all others: those
// first with which the train does best, then the least miss. Where every cone misses two and
// more there is the one that misses its worst bound least, once for each of these.
func (q *searcher) misses(ctx context.Context) ([]Miss, error) {
	var best [limitCount]candidate
	least := figures{}
	for i := range least {
		least[i] = math.Inf(1)
	}
	var any candidate
	anyLeast := math.Inf(1)
	err := q.each(ctx, func(c candidate) {
		f := q.figures(&c)
		worst, over, at := math.Inf(-1), 0, Limit(0)
		for i := range q.bounds {
			b := &q.bounds[i]
			miss := b.beyond(f[b.Limit])
			if miss > kept {
				over++
				at = b.Limit
			}
			worst = math.Max(worst, miss)
		}
		if over == 1 && worst < least[at] {
			least[at], best[at] = worst, c
		}
		if worst < anyLeast {
			anyLeast, any = worst, c
		}
	})
	if err != nil {
		return nil, err
	}
	var all []Miss
	for i := range q.bounds {
		b := q.bounds[i]
		if math.IsInf(least[b.Limit], 1) {
			continue
		}
		f, err := q.built(&best[b.Limit])
		if err != nil {
			return nil, err
		}
		if f != nil {
			all = append(all, Miss{b, b.Limit.outward(b.Limit.Of(f)), nil, *f})
		}
	}
	if len(all) == 0 && any.turns > 0 {
		all, err = q.together(&any)
	}
	slices.SortStableFunc(all, func(a, b Miss) int {
		return cmp.Or(cmp.Compare(a.Cone.Verdict.Code.Place(), b.Cone.Verdict.Code.Place()), cmp.Compare(a.beyond(a.Would), b.beyond(b.Would)))
	})
	return all, err
}

// outward rounds a figure to what is told of it, a tenth of a millimetre, a hundredth of a
// turn or of the reserve, a tenth of an hour, so that the cone keeps within it.
func (l Limit) outward(v float64) float64 {
	step := [...]float64{0.1, 0.1e-3, 0.1e-3, 0.1e-3, 0.01, 0.01}[l]
	if l.AtMost() {
		return math.Ceil(v/step-1e-6) * step
	}
	return math.Floor(v/step+1e-6) * step
}

// together are the bounds that a cone misses.
func (q *searcher) together(c *candidate) ([]Miss, error) {
	f, err := q.built(c)
	if err != nil || f == nil {
		return nil, err
	}
	var all []Miss
	var missed []Limit
	for _, b := range q.bounds {
		if is := b.Limit.Of(f); b.beyond(is) > kept {
			all, missed = append(all, Miss{b, b.Limit.outward(is), nil, *f}), append(missed, b.Limit)
		}
	}
	for i := range all {
		all[i].With = slices.DeleteFunc(slices.Clone(missed), func(l Limit) bool { return l == all[i].Limit })
	}
	return all, nil
}
