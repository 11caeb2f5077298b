package plan

import (
	"math"
	"slices"
)

// others fills what each turn tells and what other plans come to.
func (st *Study) others() {
	for i := range st.design.slope {
		t := Turn{FuseeTurn: st.design.at[i], Torque: st.design.torque[i], Slope: st.design.slope[i], Read: slices.Contains(st.Plan.Turns, st.design.at[i]), Alone: math.Inf(1)}
		if t.Slope != 0 {
			t.Alone = st.promise([]int{i}, st.Plan.Repeats).StandardError
		}
		st.At = append(st.At, t)
	}
	n := len(st.At)
	sizes := upTo(n, append([]int{1, 2, 3, 5, 8, 12, n}, len(st.Plan.Turns)))
	st.Repeats = upTo(MostRepeats, []int{1, 2, 3, 5, 10, st.Plan.Repeats})
	byRepeats := make([][][]int, len(st.Repeats))
	for i, repeats := range st.Repeats {
		byRepeats[i] = st.design.best(repeats)
	}
	for _, size := range sizes {
		row := Size{Turns: size}
		for i, repeats := range st.Repeats {
			if turns := byRepeats[i][size-1]; turns != nil {
				row.Plans = append(row.Plans, st.promise(turns, repeats))
			}
		}
		if len(row.Plans) == len(st.Repeats) {
			st.Choices = append(st.Choices, row)
		}
	}
}

// upTo are numbers up to one, each once, rising.
func upTo(most int, list []int) []int {
	slices.Sort(list)
	return slices.Compact(slices.DeleteFunc(list, func(v int) bool { return v > most }))
}
