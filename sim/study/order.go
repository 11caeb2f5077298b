package study

import (
	"errors"
	"fmt"
	"math"

	"evenpull/sim"
	"evenpull/sim/choose"
	"evenpull/sim/scenario"
)

// ordering finds the spring to order: nothing where no need is known.
func (p *Part) ordering(s *scenario.Scenario, number int) error {
	st, err := choose.ToHave(s, number, choose.Options{Reserve: math.NaN(), EndShake: math.NaN()})
	switch {
	case errors.Is(err, choose.ErrNoNeed):
		return nil
	case err != nil:
		return err
	}
	aim := fmt.Sprintf("a mean of %s N·m", sim.Figure(st.Target.Mean))
	if !math.IsNaN(st.Target.Reserve) {
		aim += fmt.Sprintf(", %s times the need", sim.Figure(st.Target.Reserve))
	}
	for i := range st.Ideals {
		if order := st.Ideals[i].Order(); order != "" {
			p.Order = append(p.Order, order)
		}
	}
	switch {
	case len(p.Order) == 0:
		p.ToOrder = "no spring of any width brings " + aim + " through this cone and suits"
	case st.Present.Verdict == sim.Suits:
		p.ToOrder = "the spring it has suits; one to replace it, for " + aim + ": " + p.Order[0]
	default:
		p.ToOrder = "in place of the spring it has, for " + aim + ": " + p.Order[0]
	}
	t := tableOf(st.IdealTable(), 2, fmt.Sprintf("The spring to have made, for %s: for the full width and narrower ones, with the present set-up; spacers leave %s mm of end shake", aim, sim.Figure(st.EndShake)))
	p.Springs = &t
	return nil
}
