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
the one-to-one choice that suits best: fewest trains that stop, then fewest
overdriven, thin, strong; among equals the one with the fewest springs that bind or
have another fault, then with turns to spare, then the one nearest to the middle of
what suits. Ties and near ties are told, and how sure the choice and its verdicts are:
torques and needs are drawn within what the readings and the weights leave open.

A train is judged as run judges it, with the need that the weights tell in place of
the scenario's. A striking train is judged by the torques liked at the bench that its
scenario gives, else by the cadence that it wants, 0.8 to 1.6 s from blow to blow
when nothing else is said (common practice, no source): by the weights that were
timed, else by prediction.

A spring gives another torque through another fusee. With --scenario one that was
read in one train is carried over to the others: in the barrel of that train, with
the set-up that the scenario gives it, through its own fusee, by the torque curve
that was read; in the train that it was read in, the turns between and beyond the
readings are filled in. Without a scenario the readings stand as they are.

FILE is a path, - for standard input, or a sample; left out, the sample.`,
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
	b, sc, err := f.load(c, s, args)
	if err != nil {
		return err
	}
	ctx := c.Context()
	st, err := assign.Of(ctx, b, sc)
	if err == nil && f.draws > 0 {
		err = st.Draw(ctx, f.draws, firstSeed)
	}
	if err != nil {
		return err
	}
	return shown[assign.Study]{plot: chart.Assign, text: text.Assign, document: data.Assign(), cautions: words.AssignCautions}.write(ctx, s, &f.flags, st, text.Options{})
}
