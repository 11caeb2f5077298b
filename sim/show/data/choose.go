package data

import (
	"io"

	"evenpull/sim"
	"evenpull/sim/show/words"
	"evenpull/sim/study/choose"
)

// Choose is the document of a choice among springs.
func Choose() Object[choose.Study] {
	return Object[choose.Study]{
		Text("train", "the train", func(st *choose.Study) string { return st.Present.Digest.Name }),
		Text("first", "what is tried first: nothing, another set-up or another spring", func(st *choose.Study) string { return st.First.String() }),
		Text("advice", "the same in a sentence, with its reason", func(st *choose.Study) string { return words.ChooseFirst(st, words.Small) }),
		Number("target_mean_nm", "mean torque at the fusee that is aimed at", "N·m", func(st *choose.Study) float64 { return st.Target.Mean }),
		Number("reserve_target", "that over the least torque needed", "", func(st *choose.Study) float64 { return st.Target.Reserve }),
		Number("end_shake_mm", "room left beside spring and spacers", "mm", func(st *choose.Study) float64 { return st.EndShake }),
		Number("assumed_yield_mpa", "stress from which on a spring sets whose own steel is not known; null: it never does", "MPa", func(st *choose.Study) float64 { return st.Steel / 1e6 }),
		Whole("springs", "springs in the list", func(st *choose.Study) int { return st.Asked }),
		Flag("stopped", "stopped before all of them were tried", (*choose.Study).Stopped),
		Text("order", "the best as it can be ordered; null when it is not to be", func(st *choose.Study) string { return words.ChooseOrder(st, &st.Candidates[0]) }),
		Sub("tolerance", "thickness over which the best still can be ordered, as it is fitted", tolerance(), func(st *choose.Study) *choose.Tolerance { return known(&st.Tolerance) }),
		Sub("present", "the spring that the train has", present(), func(st *choose.Study) *choose.Present { return &st.Present }),
		Sub("ideal", "the spring to have made, as wide as the barrel takes", ideal(), func(st *choose.Study) *choose.Ideal {
			if len(st.Ideals) == 0 {
				return nil
			}
			return &st.Ideals[0]
		}),
		List("ideals", "that one and narrower ones", ideal(), func(st *choose.Study) []choose.Ideal { return st.Ideals }),
		Sub("rule_of_thumb", "strength as the width and as the cube of the thickness", thumb(), func(st *choose.Study) *choose.Study { return st }),
		List("candidates", "the springs of the list, the best first", candidate(), candidatesOf),
		Texts("notes", "what is odd about what was asked for", words.ChooseNotes),
		Texts("cautions", "what to mind before a spring is touched", words.ChooseCautions),
	}
}

func present() Object[choose.Present] {
	return append(Object[choose.Present]{
		Number("width_mm", "width", "mm", func(p *choose.Present) float64 { return p.Width }),
		Number("thickness_mm", "thickness", "mm", func(p *choose.Present) float64 { return p.Thickness }),
		Number("length_mm", "length", "mm", func(p *choose.Present) float64 { return p.Length }),
	}, Within(Digest(), func(p *choose.Present) *sim.Digest { return &p.Digest })...)
}

func ideal() Object[choose.Ideal] {
	return append(Object[choose.Ideal]{
		Number("width_mm", "width", "mm", func(id *choose.Ideal) float64 { return id.Width }),
		Number("thickness_mm", "thickness that brings the mean torque to the target; null when none does", "mm", func(id *choose.Ideal) float64 { return id.Thickness }),
		Number("length_mm", "length", "mm", func(id *choose.Ideal) float64 { return id.Length }),
		Number("rule_of_thumb_thickness_mm", "thickness by the rule of thumb", "mm", func(id *choose.Ideal) float64 { return id.Thumb }),
		Number("spacers_mm", "spacers beside it in all", "mm", func(id *choose.Ideal) float64 { return id.Spacers }),
		Text("order", "as it can be ordered; null when it is not to be", words.IdealOrder),
		Sub("ordered", "what it comes to in the sizes to order; null when it is not to be", ordered(), func(id *choose.Ideal) *choose.Ordered {
			if !id.Ordered.Known() {
				return nil
			}
			return &id.Ordered
		}),
	}, Within(Digest(), func(id *choose.Ideal) *sim.Digest {
		if !id.Found() {
			return nil
		}
		return &id.Digest
	})...)
}

func ordered() Object[choose.Ordered] {
	return append(Object[choose.Ordered]{
		Number("thickness_mm", "thickness", "mm", func(o *choose.Ordered) float64 { return o.Thickness }),
		Number("length_mm", "length", "mm", func(o *choose.Ordered) float64 { return o.Length }),
		Sub("tolerance", "thickness over which it still can be ordered, each strip cut to the same fill", tolerance(), func(o *choose.Ordered) *choose.Tolerance { return known(&o.Tolerance) }),
	}, Within(Digest(), func(o *choose.Ordered) *sim.Digest { return &o.Digest })...)
}

func tolerance() Object[choose.Tolerance] {
	return Object[choose.Tolerance]{
		Number("thickness_from_mm", "least thickness", "mm", func(t *choose.Tolerance) float64 { return t.From }),
		Number("thickness_to_mm", "greatest thickness", "mm", func(t *choose.Tolerance) float64 { return t.To }),
	}
}

func known(t *choose.Tolerance) *choose.Tolerance {
	if !t.Known() {
		return nil
	}
	return t
}

func thumb() Object[choose.Study] {
	return Object[choose.Study]{
		Number("exponent", "power of the thickness with which the mean torque goes", "", func(st *choose.Study) float64 { return st.Present.Exponent }),
		Number("exponent_without_set", "that of a spring that never sets", "", func(st *choose.Study) float64 { return st.Present.Unset }),
		Texts("says", "the rule beside what was computed", words.ChooseThumb),
	}
}

// tried is a candidate with the study that it belongs to.
type tried struct {
	st *choose.Study
	c  *choose.Candidate
}

func candidatesOf(st *choose.Study) []tried {
	list := make([]tried, len(st.Candidates))
	for i := range list {
		list[i] = tried{st, &st.Candidates[i]}
	}
	return list
}

func candidate() Object[tried] {
	return append(Object[tried]{
		Text("label", "its label in the list", func(t *tried) string { return t.c.Label }),
		Whole("rank", "place, from 1", func(t *tried) int { return t.c.Rank }),
		Number("width_mm", "width", "mm", func(t *tried) float64 { return t.c.WidthMM }),
		Number("thickness_mm", "thickness", "mm", func(t *tried) float64 { return t.c.ThicknessMM }),
		Number("length_mm", "length as sold", "mm", func(t *tried) float64 { return t.c.LengthMM }),
		Number("cut_to_mm", "length that it is cut to; null when whole", "mm", func(t *tried) float64 { return t.c.CutTo }),
		Number("spacers_mm", "spacers beside it in all; negative when it is too wide", "mm", func(t *tried) float64 { return t.c.Spacers }),
		Text("refused", "why it cannot be fitted; null when it can", func(t *tried) string { return words.ChooseRefused(t.st, t.c) }),
		Text("order", "as it can be ordered; null when it is not to be", func(t *tried) string { return words.ChooseOrder(t.st, t.c) }),
		Text("loses", "the first reason why it stands behind the best; null for that one", func(t *tried) string { return words.ChooseBehind(t.st, t.c) }),
	}, Within(Digest(), func(t *tried) *sim.Digest {
		if !t.c.Fits() {
			return nil
		}
		return &t.c.Digest
	})...)
}

// ChooseCSV writes the candidates, the best first.
func ChooseCSV(w io.Writer, st *choose.Study) error { return candidate().CSV(w, candidatesOf(st)) }
