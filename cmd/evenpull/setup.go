package main

import (
	"context"

	"evenpull/sim/scenario"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/data"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
	"evenpull/sim/study/setup"

	"github.com/spf13/cobra"
)

func newSetup(s streams) *cobra.Command {
	var f flags
	c := &cobra.Command{
		Use:   "setup [SCENARIO]",
		Short: "Find the set-up that makes the torque most even",
		Long: `Setup tries every click of the ratchet from no set-up to the most with which the
fusee can still be wound fully. Of those that leave the spring turns to spare it
tells which makes the torque at the fusee most even, what that gives beside the
present one, and the range that stays within 10 % of the best, or below 0.1 % where
the best is next to nothing. Set-up turns are those left in the spring when the
fusee has run down, counted from rest at the barrel arbor.

Another set-up is advised when it changes the verdict for the better, takes a fault
away, leaves the turns to spare where the present one does not, or lowers the
unevenness by enough to be worth it; "evenpull help rules" has the figures.

It tells how sure the verdict is with the present set-up and with others (see "evenpull
help sure"): one set anew is good to a quarter of a click, as found to one.

Unevenness is (greatest − least)/mean torque. More set-up also gives more torque:
look at the verdict and the reserve.`,
		Example: `  evenpull setup
  evenpull setup three-trains --train striking
  evenpull setup --plot setup.svg --force
  evenpull setup --format json`,
		Args: usageArgs(cobra.MaximumNArgs(1)),
		RunE: func(c *cobra.Command, args []string) error {
			st, err := ofTrain(c, s, &f, args, func(ctx context.Context, sc *scenario.Scenario, number int) (*setup.Study, error) {
				st, err := setup.Run(ctx, sc, number)
				if err == nil && f.draws > 0 {
					err = st.Sure(ctx, sc, number, *f.sureness())
				}
				return st, err
			})
			if err != nil {
				return err
			}
			return shown[setup.Study]{plot: chart.SetUp, text: text.SetUp, document: data.SetUp(), seed: f.seedIf(true),
				cautions: func(st *setup.Study) []string { return []string{words.Caution(st.Now.Spring.Stored)} }}.write(c.Context(), s, &f, st)
		},
	}
	f.register(c, "the train of this `name`; left out, the first", "also draw unevenness and torque against set-up")
	f.registerDraws(c)
	f.atBench.register(c)
	return c
}
