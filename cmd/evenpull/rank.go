package main

import (
	"context"
	"strconv"
	"strings"

	"evenpull/sim/outcome"
	"evenpull/sim/scenario"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/data"
	"evenpull/sim/show/text"
	"evenpull/sim/study/rank"

	"github.com/spf13/cobra"
)

// rankFlags are the flags of rank.
type rankFlags struct {
	flags
	of     []string
	change string
	total  bool
	sharesFlags
}

func newRank(s streams) *cobra.Command {
	var f rankFlags
	c := &cobra.Command{
		Use:   "rank [SCENARIO]",
		Short: "Tell which inputs a result depends on most",
		Long: `Rank moves every number of a scenario, one at a time, by as far as it may be off, and
lists the inputs by what that does to a result. So it shows what to measure best, and
what need not be measured again. Each is moved by its [[tolerance]] or, where the
scenario has none, by the usual error of such a reading (see "evenpull help sure");
what is taken as exact, by 1 %. What was observed stays: free coils keep their number
when the thickness is moved, and tell of another steel. With --change all are moved
alike.

Beside that stands, of how far the result may be off when all inputs are off at once, how
much is the doing of each: alone, and together with others. You are warned where inputs
act together. This takes 8 × 512 run-downs for each number that may be off and two more,
and 8 × 2048 where a share is else not known to 0.3 % (standard error); --shares=false
leaves it out, as does --change. With --total the inputs stand in the order of what each
makes in all, with its standard error, and the picture shows that: where inputs act
together, what moving one of them does tells less of what to measure.

It also tells how many % the result changes for 1 % more of the input. That is found
from ever smaller steps; an error that would show is printed beside it.

A RESULT is named as in the JSON of "evenpull run": fusee_torque_nm.mean,
reserve.min, runtime_h; of what stands in the rows, amplitude_deg.mean,
blow_interval_s.max, line_tension_n.max. In the JSON the first result stands at
the top, the others below "others"; "minus" and "plus" are the changes of the
result with the input moved down and up.`,
		Example: `  evenpull rank
  evenpull rank --of amplitude_deg.min --of runtime_h
  evenpull rank --total --of fusee_torque_nm.unevenness --plot shares.svg --force
  evenpull rank --change 5% --plot rank.svg --force
  evenpull rank three-trains --train striking --of blow_interval_s.mean --format json`,
		Args: usageArgs(cobra.MaximumNArgs(1)),
		RunE: func(c *cobra.Command, args []string) error { return runRank(c, s, &f, args) },
	}
	f.register(c, "the train of this `name`; left out, the first", "also draw what moving each input does, or with --total what each makes in all,")
	c.Flags().StringArrayVar(&f.of, "of", rank.Default(), "`RESULT` to rank by (repeatable)")
	c.Flags().StringVar(&f.change, "change", "", "move all inputs alike, by so many `percent`; left out, each by its own error")
	c.Flags().BoolVar(&f.total, "total", false, "put the inputs in order by what each makes in all of how far the result may be off")
	f.registerShares(c)
	completeWords(c, "of", outcome.Names()...)
	return c
}

func runRank(c *cobra.Command, s streams, f *rankFlags, args []string) error {
	of, err := outcome.Several(f.of...)
	if err != nil {
		return usagef("--of: %w", err)
	}
	percent := 0.0
	if f.change != "" {
		if percent, err = strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(f.change, "%")), 64); err != nil || !(percent > 0 && percent <= 50) {
			return usagef("--change %q: want a percentage above 0 up to 50, such as 1%%", f.change)
		}
	}
	switch {
	case f.total && f.change != "":
		return usagef("--total and --change: want one of them; shares in the variance are of each input's own error, and with --change there are none")
	case f.total && !f.shares:
		return usagef("--total goes by the shares in the variance, which --shares=false leaves out: want one of them without the other")
	}
	st, err := ofTrain(c, s, &f.flags, args, func(ctx context.Context, sc *scenario.Scenario, number int) (*rank.Study, error) {
		return rank.Run(ctx, sc, number, rank.Options{Of: of, Change: percent / 100, Shares: f.shares, Total: f.total, Seed: f.seed})
	})
	if err != nil {
		return err
	}
	var seed *int64
	if f.shares && !st.Alike {
		seed = &f.seed
	}
	return shown[rank.Study]{plot: chart.Rank, text: text.Rank, document: data.Rank(), seed: seed}.write(c.Context(), s, &f.flags, st)
}
