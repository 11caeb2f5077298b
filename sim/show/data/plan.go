package data

import (
	"math"

	"evenpull/sim"
	"evenpull/sim/show/words"
	"evenpull/sim/study/plan"
)

// Plan is the document of the readings to take; its rows are the turns of the fusee.
func Plan() Document[plan.Study] {
	own := func(st *plan.Study) *sim.Digest { return &st.Own }
	turns := func(st *plan.Study) []plan.Turn { return st.At }
	planned := func(st *plan.Study) *plan.Plan { return &st.Plan }
	input := func(st *plan.Study, of func() string) string {
		if st.For == nil {
			return ""
		}
		return of()
	}
	law := func(of func(*plan.Law) float64) func(*plan.Study) float64 {
		return func(st *plan.Study) float64 { return of(&st.Options.Law) }
	}
	all := Object[plan.Study]{
		trainOf(own),
		Text("for", "the input that is to be known; null for two springs", func(st *plan.Study) string { return input(st, func() string { return st.For.Key }) }),
		Text("unit", "its unit", func(st *plan.Study) string { return input(st, func() string { return st.For.Unit }) }),
		Number("value", "that the scenario has of it", "", func(st *plan.Study) float64 {
			if st.For == nil {
				return math.NaN()
			}
			return st.Value
		}),
		Text("against", "the title of the scenario of the other spring; null for an input", func(st *plan.Study) string { return st.Against }),
	}
	all = append(all, Within(planOf(), planned)...)
	return Document[plan.Study]{append(all,
		Number("whole_run_standard_error", "likewise, were every turn read in as many run-downs", "", func(st *plan.Study) float64 { return st.Whole.StandardError }),
		Number("whole_run_power", "likewise", "", func(st *plan.Study) float64 { return st.Whole.Power }),
		Number("error_asked", "standard error asked for, as a share of the input; null where none was", "", func(st *plan.Study) float64 { return st.Options.Error }),
		Number("power_asked", "share of experiments asked for; null where none was", "", func(st *plan.Study) float64 { return st.Options.Power }),
		Count("repeats_needed", "run-downs that what was asked for takes; null where nothing was, or where none are enough", func(st *plan.Study) int { return st.Needed }),
		Number("scatter", "standard deviation of a reading within a run-down, as a share of the torque", "", law(func(l *plan.Law) float64 { return l.Scatter })),
		Number("offset", "standard deviation of run-downs as wholes, as a share of the torque", "", law(func(l *plan.Law) float64 { return l.Offset })),
		Number("meter_relative", "bound of the meter's error, a share", "", law(func(l *plan.Law) float64 { return l.MeterRelative })),
		Number("meter_resolution_nm", "step of the meter; 0 where it is left out", "N·m", law(func(l *plan.Law) float64 { return l.MeterResolution })),
		Text("says", "the plan in a sentence", words.PlanHead),
		Texts("warnings", "what the plan does not tell", words.PlanWarns),
		List("choices", "the best by a number of turns and of run-downs", planOf(), func(st *plan.Study) (list []plan.Plan) {
			for i := range st.Choices {
				list = append(list, st.Choices[i].Plans...)
			}
			return list
		}),
		List("fusee_turns", "every whole turn", planTurn(), turns),
		Texts("cautions", "what to mind before a spring is touched", words.PlanCautions)), rows(planTurn(), turns)}
}

func planOf() Object[plan.Plan] {
	return Object[plan.Plan]{
		Numbers("turns", "fusee turns to read, paid out: 0 is fully wound", "turns", func(p *plan.Plan) []float64 {
			list := make([]float64, len(p.Turns))
			for i, t := range p.Turns {
				list[i] = float64(t)
			}
			return list
		}),
		Whole("repeats", "run-downs to read them in", func(p *plan.Plan) int { return p.Repeats }),
		Number("standard_error", "of the input as the fit then finds it, in its unit, all others as the scenario has them; of two springs a share of what they differ by", "", func(p *plan.Plan) float64 { return p.StandardError }),
		Number("from_meter", "the part of it that no repeat lessens", "", func(p *plan.Plan) float64 { return p.FromMeter }),
		Number("half_width_95", "half the 95 % interval that record then tells, about; null of one run-down", "", func(p *plan.Plan) float64 { return p.HalfWidth }),
		Number("power", "share of experiments that tell two springs apart at 5 %; null of an input", "", func(p *plan.Plan) float64 { return p.Power }),
	}
}

func planTurn() Object[plan.Turn] {
	return Object[plan.Turn]{
		Whole("fusee_turn", "paid out", func(t *plan.Turn) int { return t.FuseeTurn }),
		Number("torque_nm", "predicted", "N·m", func(t *plan.Turn) float64 { return t.Torque }),
		Number("slope_nm", "how much more for 1 of the input in its unit, or than the other spring", "N·m", func(t *plan.Turn) float64 { return t.Slope }),
		Flag("read", "it is to be read", func(t *plan.Turn) bool { return t.Read }),
		Number("alone_standard_error", "standard error by this turn alone in as many run-downs; null where it tells nothing", "", func(t *plan.Turn) float64 { return t.Alone }),
	}
}
