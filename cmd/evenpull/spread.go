package main

import (
	"evenpull/sim/outcome"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/data"
	"evenpull/sim/show/text"
	"evenpull/sim/study/spread"

	"github.com/spf13/cobra"
)

// spreadFlags are the flags of spread.
type spreadFlags struct {
	flags
	of   []string
	runs int
	hold string
	sharesFlags
}

func newSpread(s streams) *cobra.Command {
	var f spreadFlags
	c := &cobra.Command{
		Use:   "spread [SCENARIO]",
		Short: "Tell what the errors of the inputs do to the results",
		Long: `Spread takes everything of a train that is not known exactly a little off, at random,
runs the train down, and does it again, many times over. It tells in what share of the
runs the verdict stands, and what the results come to: their mean, how far they stray
from it, and below which value so many in 100 lie.

A quantity strays by its [[tolerance]] or, where it has none, by the usual error of such
a reading ("evenpull help sure" has both); what has neither is taken as exact. Each is taken off
by itself: whether some go together you have to judge. But what was observed stays: coils that lie free, turns counted from
rest to solid, a timed strike, a free swing; what they tell of steel, packing and fly is
worked out anew in each run. --hold fill cuts each strip to the length at which it fills
the barrel as the scenario's does (see "evenpull sweep --help").

Beside each input stands how much of what the first result may be off is its doing:
alone, and together with others, each with how well that is known. You are warned where
inputs act together. This takes 8 × 512 run-downs for each input and two more,
whatever --runs, and 8 × 2048 where a share is else not known to 0.3 % (standard error);
--shares=false leaves it out.

The same --seed gives the same figures on any machine. Stopped early with Ctrl-C, spread
reports the runs that are done. It needs no more memory for a million runs than for
twenty thousand.`,
		Example: `  evenpull spread
  evenpull spread --runs 100000 --seed 7 --plot spread.svg --force
  evenpull spread --hold fill --of reserve.min --of fusee_torque_nm.unevenness
  evenpull spread --set tolerance.1.plus_minus=0.02 --format json`,
		Args: usageArgs(cobra.MaximumNArgs(1)),
		RunE: func(c *cobra.Command, args []string) error { return runSpread(c, s, &f, args) },
	}
	f.register(c, "the train of this `name`; left out, the first", "also draw histogram, distribution and shares")
	c.Flags().StringArrayVar(&f.of, "of", nil, "`RESULT` to gather, named as in the JSON of run (repeatable; left out, the main ones)")
	c.Flags().IntVar(&f.runs, "runs", 10_000, "`number` of run-downs")
	f.registerShares(c)
	holdFlag(c, &f.hold)
	completeWords(c, "of", outcome.Names()...)
	return c
}

func runSpread(c *cobra.Command, s streams, f *spreadFlags, args []string) error {
	hold, err := holdOf(f.hold)
	if err != nil {
		return err
	}
	if f.runs < 1 || f.runs > spread.MaxRuns {
		return usagef("--runs %d: want 1 to %d", f.runs, spread.MaxRuns)
	}
	of, err := outcome.Several(f.of...)
	if err != nil {
		return usagef("--of: %w", err)
	}
	sc, number, err := f.loadTrain(c, s, args, nil)
	if err != nil {
		return err
	}
	ctx := c.Context()
	moved, finished := progress(s.err, f.runs, "run-downs")
	st, err := spread.Run(ctx, sc, number, spread.Options{Runs: f.runs, Seed: f.seed, Of: of, Hold: hold, Shares: f.shares, Progress: moved})
	finished()
	if err != nil {
		return err
	}
	return shown[spread.Study]{plot: chart.Spread, text: text.Spread, document: data.Spread(), seed: &f.seed}.write(finishing(ctx), s, &f.flags, st)
}
