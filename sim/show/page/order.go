package page

import (
	"context"
	"errors"
	"fmt"
	"math"

	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/show/words"
	"evenpull/sim/study/choose"
	"evenpull/sim/study/setup"
)

// setUp finds what another set-up would do, which costs nothing.
func (p *Part) setUp(ctx context.Context, s *scenario.Scenario, number int) error {
	st, err := setup.Run(ctx, s, number)
	switch {
	case errors.Is(err, setup.ErrNoRoom):
		return nil
	case err == nil:
		p.SetUp, p.cured = st.Words(), st.Cures()
	}
	return err
}

// ordering finds the spring to order: nothing where no need is known.
func (p *Part) ordering(s *scenario.Scenario, number int) error {
	st, err := choose.ToHave(s, number, choose.Options{Reserve: math.NaN(), EndShake: math.NaN()})
	switch {
	case errors.Is(err, choose.ErrNoNeed):
		return nil
	case err != nil:
		return err
	}
	aim := fmt.Sprintf("a mean of %s N·m", words.Figure(st.Target.Mean))
	if !math.IsNaN(st.Target.Reserve) {
		aim += fmt.Sprintf(", %s times the need", words.Figure(st.Target.Reserve))
	}
	for i := range st.Ideals {
		if order := st.Ideals[i].Order(); order != "" {
			p.Order = append(p.Order, fmt.Sprintf("%s; to be set up by %.2f turns", order, st.Ideals[i].SetUp))
		}
	}
	if len(p.Order) == 0 {
		p.ToOrder = "no spring of any width brings " + aim + " through this cone and suits"
		return nil
	}
	spring := fmt.Sprintf("width × thickness × length %s; for the same barrel, a mainspring of the same steel, with ends as the present one has them (aimed at: %s)", p.Order[0], aim)
	switch {
	case p.cured:
		p.ToOrder = "nothing before the set-up above was tried, with which the present spring suits; else: " + spring
	case st.Present.Verdict == rules.Suits:
		p.ToOrder = "nothing; if it has to be replaced: " + spring
	default:
		p.ToOrder = "in place of the spring it has: " + spring
	}
	t := tableOf(st.IdealTable(), 2, fmt.Sprintf("The spring to have made, for %s: for the full width and narrower ones, each set up to run most even with at least 0.5 turns to spare; spacers leave %s mm of end shake. Where a line to order rounds the thickness to hundredths of a millimetre, its length goes with the rounded thickness; the range of thickness is what this clock bears with this set-up and each strip cut to this fill, not what it bears of the present strip; strip is sold closer than that", aim, words.Figure(st.EndShake)))
	p.Springs = &t
	return nil
}
