package main

import (
	"errors"
	"runtime/debug"

	"evenpull/sim/outcome"
	"evenpull/sim/scenario"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/data"
	"evenpull/sim/show/text"
	"evenpull/sim/study/sweep"

	"github.com/spf13/cobra"
)

// sweepFlags are the flags of sweep.
type sweepFlags struct {
	flags
	over, against sweep.Axis
	of, hold      string
}

func newSweep(s streams) *cobra.Command {
	var f sweepFlags
	c := &cobra.Command{
		Use:   "sweep [SCENARIO]",
		Short: "Try a range of values of one input, or of two",
		Long: `Sweep runs a train down with one quantity taken over a range: the thickness of
its mainspring, or any other KEY. It tells where the verdict changes and what it
is on both sides, how fast the mean torque grows beside the rule of thumb, what
stops fitting where, and the figures point by point. A point that cannot be
built, such as a strip too long for the barrel, says why, and the sweep goes on.
--of takes another result in place of the mean torque, named as in the JSON of
"evenpull run", to be drawn, mapped and told how fast it grows.

A thicker spring is another spring of the same steel: its set is computed anew.
Springs are ordered in two ways, and --hold says which is meant:
  length  the strip is as long as the scenario has it, so that a thicker one
          fills more of the barrel and has fewer turns to give;
  fill    the strip is cut so that the barrel is as full as before, so that a
          thicker one is shorter.
A spring known by its free_coils is another of the steel that they tell of, and
one known by its solid_turns packs as they tell. A cone asked to be even stays as
it was cut for the present spring.

A KEY in another unit, such as going.mainspring.thickness_in, has --from and --to in
it; what comes out is in the units of the format.

--against takes a second quantity over a range as well; --plot then draws a map
of the result with the borders of the verdicts.

A verdict that changes and changes back between two neighbouring points is not
seen: take more --steps.`,
		Example: `  evenpull sweep
  evenpull sweep --hold fill --from 0.34 --to 0.42 --steps 9
  evenpull sweep --over going.line.thickness_mm --plot line.svg --force
  evenpull sweep --over going.barrel.set_up_turns --from 0 --to 3 --steps 31
  evenpull sweep --of amplitude_deg.min --over going.pendulum.mass_g
  evenpull sweep --against going.mainspring.width_mm --of reserve.min --plot map.svg --force
  evenpull sweep three-trains --over striking.mainspring.thickness_mm --format csv`,
		Args: usageArgs(cobra.MaximumNArgs(1)),
		RunE: func(c *cobra.Command, args []string) error { return runSweep(c, s, &f, args) },
	}
	f.register(c, "the train of this `name`; left out, the one whose input it is", "also draw the result, torque, reserve, unevenness and arc, or a map,")
	c.Flags().StringVar(&f.of, "of", outcome.MeanTorque, "`RESULT` that is drawn, mapped and told how fast it grows")
	c.Flags().StringVar(&f.over.Key, "over", "", "`KEY` of the input; left out, the thickness of the train's mainspring")
	axisFlags(c, &f.over, "", "")
	c.Flags().StringVar(&f.against.Key, "against", "", "`KEY` of a second input, for a map")
	axisFlags(c, &f.against, "2", " of the second input")
	completeKeys(c, "over", "")
	completeKeys(c, "against", "")
	completeWords(c, "of", outcome.Names()...)
	holdFlag(c, &f.hold)
	return c
}

// axisFlags registers the range of an input; of tells which, where there are two.
func axisFlags(c *cobra.Command, a *sweep.Axis, suffix, of string) {
	optional(c, &a.From, "from"+suffix, "`value`"+of+" to begin at; left out, 25 % below the scenario's")
	optional(c, &a.To, "to"+suffix, "`value`"+of+" to end at; left out, 25 % above it")
	c.Flags().IntVar(&a.Steps, "steps"+suffix, 41, "`number` of values"+of)
}

func runSweep(c *cobra.Command, s streams, f *sweepFlags, args []string) error {
	hold, err := holdOf(f.hold)
	if err != nil {
		return err
	}
	of, err := outcome.Named(f.of)
	if err != nil {
		return usagef("--of: %w", err)
	}
	if f.against.Key == "" && (c.Flags().Changed("from2") || c.Flags().Changed("to2") || c.Flags().Changed("steps2")) {
		return usagef("--from2, --to2 and --steps2 go with --against KEY")
	}
	sc, number, err := f.loadTrain(c, s, args, func(*scenario.Scenario) []string { return []string{f.over.Key, f.against.Key} })
	if err != nil {
		return err
	}
	o := sweep.Options{Over: f.over, Hold: hold, Of: of}
	if o.Over.Key == "" {
		o.Over.Key = sc.Trains[number].Name + ".mainspring.thickness_mm"
	}
	if f.against.Key != "" {
		o.Against = &f.against
		defer debug.SetGCPercent(debug.SetGCPercent(mapGarbage))
	}
	ctx := c.Context()
	st, err := sweep.Run(ctx, sc, number, o)
	if err != nil {
		return sweepFault(o, err)
	}
	return shown[sweep.Study]{plot: chart.Sweep, text: text.Sweep, document: data.Sweep()}.write(ctx, s, &f.flags, st)
}

// mapGarbage is how much garbage is let gather beside the points of a map, in
// percent of them: of a large one they take a quarter of a gigabyte.
const mapGarbage = 20

// sweepFault lays a fault of a range or a KEY at its flag.
func sweepFault(o sweep.Options, err error) error {
	if errors.Is(err, sweep.ErrRange) || errors.Is(err, sweep.ErrApart) || errors.Is(err, sweep.ErrMap) {
		return usageError{err}
	}
	err = keyFault("over", o.Over.Key, err)
	if o.Against != nil {
		err = keyFault("against", o.Against.Key, err)
	}
	return err
}
