package main

import (
	"errors"
	"fmt"

	"evenpull/sim/outcome"
	"evenpull/sim/scenario"
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
	seed int64
	hold string
}

func newSpread(s streams) *cobra.Command {
	var f spreadFlags
	c := &cobra.Command{
		Use:   "spread [SCENARIO]",
		Short: "Tell what tolerances do to the results",
		Long: `Spread draws every quantity of a scenario that has a tolerance at random, runs
the train down, and does it again, many times over. It tells in what share of
the runs the verdict stands, and what the results come to: mean, standard
deviation and percentiles.

Tolerances stand in the scenario, one table each:

  [[tolerance]]
  key        = "going.mainspring.thickness_mm"
  plus_minus = 0.01          # in its unit; or percent = 2.0
  shape      = "normal"      # or "uniform"

Of a normal tolerance plus_minus is two standard deviations, of a uniform one the
half width. Quantities are drawn on their own: whether some go together is for
the scenario's author to judge. But the thickness of a strip and its set are one,
so the set is computed anew for each spring drawn, and --hold fill cuts each to
the length at which it fills the barrel as the scenario's does; by default its
length stays (see "evenpull sweep --help").

What has no tolerance is taken as exact here. How sure the verdict is when every input
is as well known as it is usually read, "evenpull run" tells.

The same --seed gives the same figures on any number of cores. Stopped early with
Ctrl-C, spread reports the runs that are done. It needs no more memory for a
million runs than for twenty thousand.`,
		Example: `  evenpull spread
  evenpull spread --runs 100000 --seed 7 --plot spread.svg --force
  evenpull spread --hold fill --of reserve.min --of fusee_torque_nm.unevenness
  evenpull spread --set tolerance.1.plus_minus=0.02 --format json`,
		Args: usageArgs(cobra.MaximumNArgs(1)),
		RunE: func(c *cobra.Command, args []string) error { return runSpread(c, s, &f, args) },
	}
	f.register(c, "the train of this `name`; left out, the first that has a tolerance", "also draw histogram and distribution")
	c.Flags().StringArrayVar(&f.of, "of", nil, "`RESULT` to gather, named as in the JSON of run (repeatable; left out, the main ones)")
	c.Flags().IntVar(&f.runs, "runs", 10_000, "`number` of run-downs")
	c.Flags().Int64Var(&f.seed, "seed", 1, "`number` that the random draws begin from")
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
	sc, number, err := f.loadTrain(c, s, args, tolerated)
	if err != nil {
		return err
	}
	ctx, stop := interruptible()
	defer stop()
	moved, finished := progress(s.err, f.runs, "run-downs")
	st, err := spread.Run(ctx, sc, number, spread.Options{Runs: f.runs, Seed: f.seed, Of: of, Hold: hold, Progress: moved})
	finished()
	switch {
	case errors.Is(err, spread.ErrNoTolerance):
		return fmt.Errorf("%w; give at least one in the scenario:\n[[tolerance]]\nkey = \"%s.mainspring.thickness_mm\"\nplus_minus = 0.01\nshape = \"normal\"", err, sc.Trains[number].Name)
	case err != nil && ctx.Err() != nil:
		return errors.New("stopped before any run was done")
	case err != nil:
		return err
	}
	stop() // from here on an interrupt ends the program as usual
	return shown[spread.Study]{plot: chart.Spread, text: text.Spread, document: data.Spread()}.write(s, &f.flags, st, text.Options{})
}

// tolerated are the keys that have a tolerance.
func tolerated(s *scenario.Scenario) []string {
	keys := make([]string, len(s.Tolerances))
	for i := range keys {
		keys[i] = s.Tolerances[i].Key
	}
	return keys
}
