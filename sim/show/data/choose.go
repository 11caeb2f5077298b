package data

import (
	"math"

	"evenpull/sim"
	"evenpull/sim/show/words"
	"evenpull/sim/study/choose"
)

// Choose is the document of a choice among springs; its rows are the candidates, the
// best first, the present spring among them.
func Choose() Document[choose.Study] {
	candidates := func(st *choose.Study) []tried { return parts(st, st.All()) }
	return Document[choose.Study]{Object[choose.Study]{
		trainOf(func(st *choose.Study) *sim.Digest { return &st.Present.Digest }),
		Text("first", "what is tried first: nothing, another set-up or another spring", func(st *choose.Study) string { return st.First.String() }),
		Text("advice", "the same in a sentence, with its reason", func(st *choose.Study) string { return words.ChooseFirst(st, words.Small) }),
		Number("target_mean_nm", "mean torque at the fusee that is aimed at", "N·m", func(st *choose.Study) float64 { return st.Target.Mean }),
		Number("reserve_target", "that over the least torque needed", "", func(st *choose.Study) float64 { return st.Target.Reserve }),
		Number("end_shake_mm", "room left beside spring and spacers", "mm", func(st *choose.Study) float64 { return st.EndShake }),
		Number("assumed_yield_mpa", "stress from which on a spring sets whose own steel is not known; null: it never does", "MPa", func(st *choose.Study) float64 { return st.Steel / 1e6 }),
		Whole("springs", "springs in the list", func(st *choose.Study) int { return st.Asked }),
		Flag("stopped", "stopped before all of them were tried", (*choose.Study).Stopped),
		Text("order", "the best as it can be ordered; null when it is not to be", func(st *choose.Study) string { return words.ChooseOrder(st.Best()) }),
		Sub("tolerance", "thickness over which the best still can be ordered, as it is fitted", tolerance(), func(st *choose.Study) *choose.Tolerance { return st.Best().Tolerance.Told() }),
		List("changes_places", "flow stresses at which the first two candidates change places, over the usual range of a steel that is not stated; none without draws", changes(), func(st *choose.Study) []choose.Change { return st.Changes }),
		Texts("steel", "the same in sentences: what to ask, and what to measure", words.ChooseSteel),
		Sub("present", "the spring that the train has; null where it is broken or lost", withRun(func(p *choose.Present) *sim.Digest { return &p.Digest },
			size("width_mm", func(p *choose.Present) float64 { return p.Width }),
			size("thickness_mm", func(p *choose.Present) float64 { return p.Thickness }),
			size("length_mm", func(p *choose.Present) float64 { return p.Length }),
		), func(st *choose.Study) *choose.Present { return only(!st.Lost, &st.Present) }),
		Sub("ideal", "the spring to have made, as wide as the barrel takes", ideal(), func(st *choose.Study) *choose.Ideal { return first(st.Ideals) }),
		List("ideals", "that one and narrower ones", ideal(), func(st *choose.Study) []choose.Ideal { return st.Ideals }),
		Sub("rule_of_thumb", "strength as the width and as the cube of the thickness", Object[choose.Study]{
			Number("exponent", "power of the thickness with which the mean torque goes", "", func(st *choose.Study) float64 { return there(st, st.Present.Exponent) }),
			Number("exponent_without_set", "that of a spring that never sets", "", func(st *choose.Study) float64 { return there(st, st.Present.Unset) }),
			Texts("says", "the rule beside what was computed", words.ChooseThumb),
		}, self),
		List("candidates", "the springs of the list, the best first, and what can be done with the present one, where it stands among them", candidate(), candidates),
		Texts("notes", "what is odd about what was asked for", words.ChooseNotes),
		Texts("cautions", "what to mind before a spring is touched", words.ChooseCautions),
	}, rows(candidate(), candidates)}
}

// there is a figure of the present spring; NaN where there is none.
func there(st *choose.Study, v float64) float64 {
	if st.Lost {
		return math.NaN()
	}
	return v
}

func ideal() Object[choose.Ideal] {
	return withRun((*choose.Ideal).Run,
		size("width_mm", func(id *choose.Ideal) float64 { return id.Width }),
		Number("thickness_mm", "thickness that brings the mean torque to the target; null when none does", "mm", func(id *choose.Ideal) float64 { return id.Thickness }),
		size("length_mm", func(id *choose.Ideal) float64 { return id.Length }),
		Number("rule_of_thumb_thickness_mm", "thickness by the rule of thumb", "mm", func(id *choose.Ideal) float64 { return id.Thumb }),
		Number("spacers_mm", "spacers beside it in all", "mm", func(id *choose.Ideal) float64 { return id.Spacers }),
		Text("order", "as it can be ordered; null when it is not to be", words.IdealOrder),
		Sub("ordered", "what it comes to in the sizes to order; null when it is not to be", withRun(func(o *choose.Ordered) *sim.Digest { return &o.Digest },
			size("thickness_mm", func(o *choose.Ordered) float64 { return o.Thickness }),
			size("length_mm", func(o *choose.Ordered) float64 { return o.Length }),
			Sub("tolerance", "thickness over which it still can be ordered, each strip cut to the same fill", tolerance(), func(o *choose.Ordered) *choose.Tolerance { return o.Tolerance.Told() }),
		), func(id *choose.Ideal) *choose.Ordered { return only(id.Ordered.Known(), &id.Ordered) }))
}

func changes() Object[choose.Change] {
	side := func(of func(*choose.Change) *choose.Candidate) Object[choose.Change] {
		return Object[choose.Change]{
			Text("label", "its label in the list", func(c *choose.Change) string { return of(c).Label }),
			Number("set_up_turns", "set-up that it then gets", "turns", func(c *choose.Change) float64 { return of(c).Digest.Spring.SetUp }),
			Number("cut_to_mm", "length that it is then cut to; null when whole", "mm", func(c *choose.Change) float64 { return of(c).CutTo }),
		}
	}
	whole := func(c *choose.Change) *choose.Change { return c }
	return Object[choose.Change]{
		Number("yield_mpa", "flow stress at which they change places", "MPa", func(c *choose.Change) float64 { return c.Yield }),
		Sub("below", "the one that comes first below it", side(func(c *choose.Change) *choose.Candidate { return &c.Below }), whole),
		Sub("above", "the one that comes first above it", side(func(c *choose.Change) *choose.Candidate { return &c.Above }), whole),
		Text("counted", "label of the one whose coils tell the stress", func(c *choose.Change) string { return c.Counted }),
		Number("free_coils", "coils that this one shows lying free at that stress, once wound home", "coils", func(c *choose.Change) float64 { return c.Coils }),
	}
}

func tolerance() Object[choose.Tolerance] {
	return Object[choose.Tolerance]{
		Number("thickness_from_mm", "least thickness", "mm", func(t *choose.Tolerance) float64 { return t.From }),
		Number("thickness_to_mm", "greatest thickness", "mm", func(t *choose.Tolerance) float64 { return t.To }),
	}
}

// tried is a candidate with the study that it belongs to.
type tried = part[choose.Study, choose.Candidate]

func candidate() Object[tried] {
	return withRun(func(t *tried) *sim.Digest { return t.it.Run() },
		Text("label", "its label in the list; of the present spring what is done with it", func(t *tried) string { return t.it.Label }),
		Flag("own", "it is the present spring, as it is or with another set-up, and none of the list", func(t *tried) bool { return t.it.Own }),
		Count("rank", "place among those of the list, from 1; null of the present spring", func(t *tried) int { return t.it.Rank }),
		size("width_mm", func(t *tried) float64 { return t.it.WidthMM }),
		size("thickness_mm", func(t *tried) float64 { return t.it.ThicknessMM }),
		Number("length_mm", "length as sold", "mm", func(t *tried) float64 { return t.it.LengthMM }),
		Number("cut_to_mm", "length that it is cut to; null when whole", "mm", func(t *tried) float64 { return t.it.CutTo }),
		Number("spacers_mm", "spacers beside it in all; negative when it is too wide", "mm", func(t *tried) float64 { return t.it.Spacers }),
		Sub("tolerance", "thickness over which it still can be ordered, as it is fitted; null beyond the foremost", tolerance(), func(t *tried) *choose.Tolerance { return t.it.Tolerance.Told() }),
		Count("quantity", "how many the list has of it; null when it does not tell", func(t *tried) int { return t.it.Quantity }),
		Text("price", "price of one as the list has it; null when it does not tell", func(t *tried) string { return t.it.Price }),
		Text("refused", "why it cannot be fitted; null when it can", func(t *tried) string { return words.ChooseRefused(t.of, t.it) }),
		Text("order", "as it can be ordered; null when it is not to be", func(t *tried) string { return words.ChooseOrder(t.it) }),
		Number("suits_share", "share of the draws in which it suits; null where none were made", "", func(t *tried) float64 { return drawn(&t.it.Digest, t.it.Digest.Verdict.Sureness.Suits) }),
		Text("loses", "the first reason why it stands behind the best; null for that one", func(t *tried) string { return words.ChooseBehind(t.of, t.it) }))
}
