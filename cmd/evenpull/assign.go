package main

import (
	"evenpull/sim/bench/assign"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/data"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"

	"github.com/spf13/cobra"
)

func newAssign(s streams) *cobra.Command {
	var f benchFlags
	c := &cobra.Command{
		Use:   "assign [FILE]",
		Short: "Tell which barrel belongs to which train",
		Long: `Assign sets every spring of a bench file against what every train needs, and finds
which spring for which train suits best: fewest trains that stop, then fewest
overdriven, thin, strong; among equals the one with the fewest faults, then the one
nearest to the middle of what suits. A spring that binds, or might, is never advised.
It tells how sure the choice and its verdicts are, the next best choice, and the one
reading that would make it surer: everything that is not known exactly of springs and
trains is drawn within what the readings, the weights and the usual reading errors leave
open, each spring alike in every train.

With --scenario a spring in a train is judged as run judges it (see "evenpull help sure"),
with what weights, ears and timed blows tell in place of the scenario's. The spring is what
its readings and the sizes in its table [[spring]] make it, together: what was not
measured is taken from the train it was read in, widely, and narrowed by the readings. In
another train it comes in its barrel, which is taken to be as large as the one that the
scenario has there, and is set up as the scenario has it. Readings at fewer than three turns
tell nothing of a spring: it is named, and not judged.

Without a scenario the readings stand as they are, beside the needs by weights.

FILE is a file, a sample, or a hyphen for what another program hands over; left out, the
sample.`,
		Example: `  evenpull assign
  evenpull assign mixed-barrels --scenario three-trains
  evenpull assign --scenario three-trains --format json
  evenpull assign --scenario three-trains --plot assign.svg --force`,
		Args: usageArgs(cobra.MaximumNArgs(1)),
		RunE: func(c *cobra.Command, args []string) error { return runAssign(c, s, &f, args) },
	}
	f.register(c, "`scenario` of the clock, to carry readings over: a file, - or a sample", "also draw every spring in every train")
	f.registerDraws(c)
	return c
}

func runAssign(c *cobra.Command, s streams, f *benchFlags, args []string) error {
	b, clock, err := f.load(c, s, args)
	if err != nil {
		return err
	}
	ctx := c.Context()
	st, err := assign.Of(ctx, b, clock)
	if err == nil && f.draws > 0 {
		err = st.Draw(ctx, f.draws, firstSeed)
	}
	if err != nil {
		return err
	}
	return shown[assign.Study]{plot: chart.Assign, text: text.Assign, document: data.Assign(), seed: f.seedIf(true), cautions: words.AssignCautions}.write(ctx, s, &f.flags, st)
}
