package text

import (
	"fmt"
	"io"
	"strconv"

	"evenpull/sim/show/words"
	"evenpull/sim/study/plan"
)

// Plan writes which readings to take, what they tell, and what other plans come to; in full
// also what each turn tells.
func Plan(w io.Writer, st *plan.Study, o Options) error {
	p := o.page(w)
	p.found(words.PlanHead(st), words.PlanSays(st), words.PlanWarns(st))
	p.Wrap("", words.PlanTable(st))
	p.table(planChoices(st))
	if p.Full {
		p.Line("")
		p.table(planTurns(st))
	}
	p.Line("")
	p.Wrap("", words.PlanBook(st))
	return p.end(words.PlanCautions(st)...)
}

// planChoices are the plans by the number of turns, a column for each number of run-downs,
// and which turns the best are with as many as are planned.
func planChoices(st *plan.Study) Grid {
	columns := []column[plan.Size]{{"turns", "", right, func(s *plan.Size) string {
		return words.Either(s.Turns == len(st.Plan.Turns), "> ", "") + strconv.Itoa(s.Turns)
	}}}
	planned := 0
	for i, repeats := range st.Repeats {
		if repeats == st.Plan.Repeats {
			planned = i
		}
		columns = append(columns, column[plan.Size]{fmt.Sprintf("in %d", repeats), "", right, func(s *plan.Size) string { return words.PlanCell(st, &s.Plans[i]) }})
	}
	return table(st.Choices, append(columns, column[plan.Size]{fmt.Sprintf("which, in %d", st.Plan.Repeats), "", left, func(s *plan.Size) string {
		return words.PlanAt(s.Plans[planned].Turns)
	}}))
}

// planTurns are what each turn tells.
func planTurns(st *plan.Study) Grid {
	return table(st.At, []column[plan.Turn]{
		{"fusee turn", "", right, func(t *plan.Turn) string { return strconv.Itoa(t.FuseeTurn) }},
		{"torque", "N·m", right, func(t *plan.Turn) string { return words.Figure(t.Torque) }},
		{words.PlanSlope(st), "N·m", right, func(t *plan.Turn) string { return words.Minus(words.Figure(words.PlanMoves(st, t))) }},
		{"", "", left, func(t *plan.Turn) string { return words.Either(t.Read, "read", "") }},
	})
}
