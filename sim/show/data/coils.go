package data

import (
	strip "evenpull/fusee/mainspring/coils"
	"evenpull/sim/scenario"
	"evenpull/sim/show/words"
	"evenpull/sim/study/coils"
)

// winding is a winding of a strip with all of them.
type winding = part[coils.Result, strip.Winding]

// Coils is the document of a strip that was wound coil by coil; its rows are the windings.
func Coils() Document[coils.Result] {
	windings := func(r *coils.Result) []winding { return parts(r, r.Loop.Windings) }
	return Document[coils.Result]{Object[coils.Result]{
		Text("train", "the train", func(r *coils.Result) string { return r.Train }),
		Number("friction_coefficient", "between the coils, on arbor and wall", "", func(r *coils.Result) float64 { return r.Options.Friction }),
		Text("outer_end", "how the outer end is held: hooked or braced", func(r *coils.Result) string { return scenario.Ends()[r.Options.End] }),
		Whole("nodes_per_turn", "points of the strip that are solved for, to a turn", func(r *coils.Result) int { return r.Options.Nodes }),
		Number("rest_turns", "at which the strip gives no couple, counted like all turns from where the closed form rests", "turns", func(r *coils.Result) float64 { return r.Loop.Rest }),
		Number("solid_turns", "at which its coils are home on the arbor", "turns", func(r *coils.Result) float64 { return r.Loop.Solid }),
		Number("closed_form_turns", "at which they are by the closed form", "turns", func(r *coils.Result) float64 { return r.ClosedSolid }),
		Number("loop_area_j", "work that the couple encloses from the first winding to the last and back", "J", func(r *coils.Result) float64 { return r.Loop.Area }),
		Number("friction_work_j", "work that friction takes on that way", "J", func(r *coils.Result) float64 { return r.Loop.Rubbed }),
		Text("says", "what was found, in a sentence", words.FoundCoils),
		Texts("warnings", "what it does not tell, or not well", words.CoilsWarns),
		List("turns", "the windings", append(windingOf(), Sub("shape", "how the coils lie running down, from the arbor to the wall", shapeOf(), func(w *winding) *strip.Shape { return w.it.Down })), windings),
		Texts("cautions", "what to mind before a spring is touched", words.CoilsCautions),
	}, rows(windingOf(), windings)}
}

func windingOf() Object[winding] {
	couple := func(name, words string, of func(*strip.Winding) *strip.Shape) Member[winding] {
		return Number(name, words, "N·m", func(w *winding) float64 { return of(w.it).Couple })
	}
	return Object[winding]{
		Number("spring_turns", "turns of the mainspring from where the closed form rests", "turns", func(w *winding) float64 { return w.of.Options.Turns[w.at] }),
		couple("spring_torque_nm", "couple of the strip without friction", func(w *strip.Winding) *strip.Shape { return w.Free }),
		couple("winding_nm", "couple that winds it", func(w *strip.Winding) *strip.Shape { return w.Up }),
		couple("running_down_nm", "couple that it gives running down", func(w *strip.Winding) *strip.Shape { return w.Down }),
		Number("closed_form_nm", "couple by the closed form, without friction", "N·m", func(w *winding) float64 { return w.of.Closed[w.at] }),
		Number("run_nm", "couple that a run reckons with, past the coils", "N·m", func(w *winding) float64 { return w.of.Used[w.at] }),
		Number("closed_form_off", "how much more that is than the strip's without friction, as a share", "", func(w *winding) float64 { return w.of.Off(w.at) }),
		Number("coil_efficiency", "share of the couple that friction leaves, one way", "", func(w *winding) float64 { return w.it.Efficiency() }),
		Number("residual", "the most that is left of any equation, over that of a strip bent to the inside radius of the barrel", "", func(w *winding) float64 { return w.of.Residual(w.at) }),
		Number("overlap_mm", "how deep coils overlap at the most; 0 where none do", "mm", func(w *winding) float64 { return w.of.Overlap(w.at) * 1e3 }),
	}
}

func shapeOf() Object[strip.Shape] {
	each := func(name, words, unit string, factor float64, of func(*strip.Shape) []float64) Member[strip.Shape] {
		return Numbers(name, words, unit, func(s *strip.Shape) []float64 {
			all := make([]float64, len(of(s)))
			for i, v := range of(s) {
				all[i] = v * factor
			}
			return all
		})
	}
	return Object[strip.Shape]{
		each("angle_deg", "of each point, from the inner end", "°", words.Degrees(1), func(s *strip.Shape) []float64 { return s.Angle }),
		each("radius_mm", "of the middle of the strip", "mm", 1e3, func(s *strip.Shape) []float64 { return s.Radius }),
		each("along_mm", "along the strip", "mm", 1e3, func(s *strip.Shape) []float64 { return s.Along }),
		each("pressure_inner_n_per_mm", "what presses from inside, arbor or coil, to a length of strip", "N/mm", 1e-3, func(s *strip.Shape) []float64 { return s.Inner }),
		each("pressure_wall_n_per_mm", "what presses from the wall", "N/mm", 1e-3, func(s *strip.Shape) []float64 { return s.Wall }),
	}
}
