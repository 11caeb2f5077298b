package data

import (
	"evenpull/sim"
	"evenpull/sim/show/words"
	"evenpull/sim/study/cut"
)

// wanted is the search for a cone.
func wanted() Object[cut.Wanted] {
	return Object[cut.Wanted]{
		List("limits", "what it has to keep within", bound(), func(w *cut.Wanted) []cut.Bound { return w.Bounds }),
		Whole("tried", "cones that were looked at", func(w *cut.Wanted) int { return w.Tried }),
		List("cones", "that keep within all limits and have no fault, the best first", coneFound(), func(w *cut.Wanted) []cut.Found { return w.Cones }),
		List("misses", "where there are none: what each limit alone would have to be, the nearest first", append(
			Within(bound(), func(m *cut.Miss) *cut.Bound { return &m.Bound }),
			Number("would", "what would do, in the unit of the key", "", func(m *cut.Miss) float64 { return inKey(m.Limit, m.Would) }),
			Texts("with", "keys of the limits that would have to give too", func(m *cut.Miss) (keys []string) {
				for _, l := range m.With {
					keys = append(keys, words.LimitKey(l))
				}
				return keys
			}),
			Sub("cone", "the cone that would then do", coneFound(), func(m *cut.Miss) *cut.Found { return &m.Cone })), func(w *cut.Wanted) []cut.Miss { return w.Misses }),
		Sub("blocked", "where faults alone are in the way: the cone that would be the best", coneFound(), func(w *cut.Wanted) *cut.Found { return w.Blocked }),
	}
}

// bound is a limit of a wanted cone.
func bound() Object[cut.Bound] {
	return Object[cut.Bound]{
		Text("key", "of the scenario", func(b *cut.Bound) string { return words.LimitKey(b.Limit) }),
		Flag("at_most", "a limit from above, else from below", func(b *cut.Bound) bool { return b.Limit.AtMost() }),
		Number("value", "in the unit of the key", "", func(b *cut.Bound) float64 { return inKey(b.Limit, b.Value) }),
	}
}

// inKey is a figure of a limit in the unit of its key.
func inKey(l cut.Limit, v float64) float64 {
	switch l {
	case cut.HeightAtMost, cut.DiameterAtMost, cut.DiameterAtLeast:
		return settled(v * 1e3)
	}
	return v
}

// coneFound is a cone that was found.
func coneFound() Object[cut.Found] {
	length := func(name, words string, of func(*cut.Found) float64) Member[cut.Found] {
		return Number(name, words, "mm", func(f *cut.Found) float64 { return settled(of(f) * 1e3) })
	}
	return append(Object[cut.Found]{
		Number("fusee_turns", "turns of the fusee", "turns", func(f *cut.Found) float64 { return f.Turns }),
		length("pitch_mm", "advance of the groove for each turn", func(f *cut.Found) float64 { return f.Pitch }),
		length("small_diameter_mm", "over the groove bottom at the small end", func(f *cut.Found) float64 { return f.Small }),
		length("large_diameter_mm", "over the groove bottom at the large end", func(f *cut.Found) float64 { return f.Large }),
		length("land_height_mm", "of the lands over the groove bottom", func(f *cut.Found) float64 { return f.Land }),
		length("height_mm", "of the blank with its end margins", func(f *cut.Found) float64 { return f.Height }),
		Sub("thinner", "with a spring 0.01 mm thinner", off(), func(f *cut.Found) *cut.Off { return &f.Thinner }),
		Sub("thicker", "with a spring 0.01 mm thicker", off(), func(f *cut.Found) *cut.Off { return &f.Thicker }),
	}, Within(Digest(), func(f *cut.Found) *sim.Digest { return &f.Digest })...)
}
