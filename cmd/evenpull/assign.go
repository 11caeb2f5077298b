package main

import (
	"io"

	"evenpull/sim/bench/assign"

	"github.com/spf13/cobra"
)

func newAssign(s streams) *cobra.Command {
	var f benchFlags
	c := &cobra.Command{
		Use:   "assign [FILE]",
		Short: "Tell which barrel belongs to which train",
		Long: `Assign sets every spring of a bench file against what every train needs, and finds
the one-to-one choice that suits best: fewest trains that stop, then fewest
overdriven, thin, strong; among equals the one nearest to the middle of what suits.
Ties and near ties are told, and verdicts that the measurements leave open.

What a train needs comes from the weights; with --scenario, where there are none,
from the scenario. A striking train is judged by the torques liked at the bench that
its scenario gives, else by the cadence that it wants, 0.8 to 1.6 s from blow to
blow when nothing else is said (common practice, no source).

A spring gives another torque through another fusee. With --scenario one that was
read in one train is carried over to the others: in the barrel of that train, with
the set-up that the scenario gives it, through its own fusee, by the torque curve
that was read. Without a scenario the readings stand as they are.

FILE is a path, - for standard input, or a sample; left out, the sample.`,
		Example: `  evenpull assign
  evenpull assign mixed-barrels --scenario three-trains
  evenpull assign --scenario three-trains --format json
  evenpull assign --scenario three-trains --plot assign.svg --force`,
		Args: usageArgs(cobra.MaximumNArgs(1)),
		RunE: func(c *cobra.Command, args []string) error { return runAssign(c, s, &f, args) },
	}
	f.register(c, "`scenario` of the clock, to carry readings over: a file, - or a sample", "also draw every spring in every train")
	return c
}

func runAssign(c *cobra.Command, s streams, f *benchFlags, args []string) error {
	b, sc, err := f.load(c, s, args)
	if err != nil {
		return err
	}
	st, err := assign.Of(b, sc)
	if err != nil {
		return err
	}
	if err := f.drawPlot(s, func(w io.Writer, format string) error { return assign.Plot(w, format, st) }); err != nil {
		return err
	}
	caution(s, f.format, st.Caution)
	return writeAs(s, f.format, st, assign.Text{Colour: wantsColour(s.out)}.Write, assign.JSON, assign.CSV)
}
