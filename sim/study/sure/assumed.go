package sure

import (
	"cmp"
	"math"
	"slices"

	"evenpull/sim"
)

// assumed are the values that were assumed and move the torque over its limits most, each
// moved by its own error.
func (st *study) assumed() (list [3]sim.Assumed) {
	type moved struct {
		sim.Assumed
		by float64
	}
	var all []moved
	places := make([]float64, st.parts)
	at := func(k int, place float64) [4]float64 {
		places[k] = place
		_, l := judged(st.tried[0], places, nil)
		places[k] = 0
		return l
	}
	part := 0
	for i := range st.inputs {
		in := &st.inputs[i]
		if in.Assumed {
			by := 0.0
			for k := range in.Parts {
				up, down := at(part+k, 1), at(part+k, -1)
				for j := range up {
					by = max(by, math.Abs(finite(up[j]-down[j])))
				}
			}
			all = append(all, moved{sim.Assumed{Words: in.Words, Unit: in.Unit, Value: in.Parts[0].Value}, by})
		}
		part += len(in.Parts)
	}
	slices.SortStableFunc(all, func(a, b moved) int { return cmp.Compare(b.by, a.by) })
	for i := range min(len(all), len(list)) {
		list[i] = all[i].Assumed
	}
	return list
}
