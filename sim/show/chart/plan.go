package chart

import (
	"fmt"
	"math"

	"evenpull/sim/show/words"
	"evenpull/sim/study/plan"

	"gonum.org/v1/plot/plotter"
)

// Plan draws what the best plans come to, by the number of turns read and a line for each of
// some numbers of run-downs, with the plan marked; and what each turn tells alone.
func Plan(look Look, st *plan.Study) (Files, error) {
	by := &panel{finding: words.FoundPlan(st), x: "turns read in each run-down", y: planLabel(st), height: highPlot, floor: true}
	i := 0
	for k, repeats := range st.Repeats {
		if repeats != 1 && repeats != 3 && repeats != 10 {
			continue
		}
		l := line(words.Count(repeats, "run-down"), trials[i], points(st.Choices, func(s *plan.Size) (x, y float64) {
			return float64(s.Turns), planShown(st, &s.Plans[k])
		}))
		l.dot = computed
		by.add(l)
		i++
	}
	by.add(mark(fmt.Sprintf("the plan: %d in %s", len(st.Plan.Turns), words.Count(st.Plan.Repeats, "run-down")), bestMark, float64(len(st.Plan.Turns)), planShown(st, &st.Plan)))
	return stack(look, by, aloneOver(st))
}

// planLabel is the axis of planShown.
func planLabel(st *plan.Study) string {
	switch {
	case st.For == nil:
		return "told apart, of 100"
	case st.Value == 0:
		return "standard error, " + st.For.Unit
	}
	return "standard error, %"
}

// planShown is what a plan comes to, as it is drawn.
func planShown(st *plan.Study, p *plan.Plan) float64 {
	if st.For == nil {
		return 100 * p.Power
	}
	return errorShown(st, p.StandardError)
}

func errorShown(st *plan.Study, v float64) float64 {
	if st.Value == 0 {
		return v
	}
	return 100 * v / math.Abs(st.Value)
}

// aloneOver is a panel of what each turn moves, those that are read marked.
func aloneOver(st *plan.Study) *panel {
	at := func(t *plan.Turn) (x, y float64) { return float64(t.FuseeTurn), words.PlanMoves(st, t) }
	p := &panel{x: "fusee turns paid out", y: "N·m " + words.PlanSlope(st), height: lowPlot, zero: true}
	l := line("", trials[0], points(st.At, at))
	l.dot = computed
	var read plotter.XYs
	for i := range st.At {
		if st.At[i].Read {
			x, y := at(&st.At[i])
			read = append(read, plotter.XY{X: x, Y: y})
		}
	}
	return p.add(l, dots("read by the plan", bestMark, read)).unnamed()
}
