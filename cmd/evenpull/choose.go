package main

import (
	"context"
	"strings"

	"evenpull/scenarios"
	"evenpull/sim/scenario"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/data"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
	"evenpull/sim/stock"
	"evenpull/sim/study/choose"

	"github.com/spf13/cobra"
)

// chooseFlags are the flags of choose.
type chooseFlags struct {
	flags
	stock             string
	reserve, endShake float64
	all               bool
}

func newChoose(s streams) *cobra.Command {
	var f chooseFlags
	c := &cobra.Command{
		Use:   "choose [SCENARIO]",
		Short: "Choose a spring to order from a stock list",
		Long: `Choose tries every spring of a stock list in a train, as it would be fitted:
spacers beside it so that the end shake is left, with the set of its own steel, and
set up as setup advises, in whole clicks of the ratchet that leave the turns to spare
(advice.turns_to_spare): by the present number of clicks unless another is advised.
It is cut shorter only where that changes the verdict for the better or raises the
share of draws that suit (advice.shorten_gain). Choose runs the train down with each.

Those stand first that suit, have no fault and leave the turns to spare; then the order
is the share of draws that suit (see "evenpull help sure"; shares that differ by no more
than advice.equal_within are equal), the verdict, the least change of the present set-up,
the unevenness. Draws are made for the best 24. The present spring stands among them, as
it is ("do nothing") and with another set-up where one is advised. First of all it is told
whether anything is to be ordered; --full tells why each loses.

Beside them stands the spring to have made: the thickness that brings the mean
torque to the target, in a spring as wide as the barrel takes and in narrower ones, set
up by the same rule, and how much the thickness may be off; and what the rule of
thumb would have asked for. A line to order stands only by a spring that suits, has no
fault and leaves the turns to spare: put in as it says, with the steel of the list, it
gets the same figures from run, and setup has nothing against it.

A steel that the list does not state is drawn from its usual range, 12 % to both sides.
Where the first two springs change places within it, you are
told at which flow stress (that from which steel bends for good), what to ask the dealer, and by how many coils, lying free once
it was wound home, the parcel tells which of the two is the one.

A stock list is TOML, one table a spring, or CSV: "evenpull help springs" tells what
stands in it, and "evenpull samples shop-drawer" prints one. The mean torque aimed at is
the reserve times the least torque needed; for a striking train that is judged by the
torques liked it is their middle, unless --reserve is given.

A mainspring that is broken or lost needs no sizes: write present = false into
[train.mainspring]; barrel, line, fusee and train are enough then.

With --all every train that wants another spring is given one of the list, and none more
often than its quantity says (one, where it says nothing): so that as many trains as can be
get one that suits, then so that together they are the surest to suit (the product of
their shares of draws that suit); of one train, shares that differ by no more than
advice.equal_within count as equal.

Stopped early with Ctrl-C, choose reports the springs that are done.`,
		Example: `  evenpull choose
  evenpull choose --reserve 1.4 --plot choose.svg --force
  evenpull choose three-trains --train striking --end-shake-mm 0.8
  evenpull choose --stock shop-drawer --format csv
  evenpull choose three-trains --all
  evenpull choose --format json`,
		Args: usageArgs(cobra.MaximumNArgs(1)),
		RunE: func(c *cobra.Command, args []string) error { return runChoose(c, s, &f, args) },
	}
	f.register(c, "the train of this `name`; left out, the first", "also draw the torque of the best springs against the need")
	f.registerDraws(c)
	f.needs, f.bare = true, true
	f.atBench.register(c)
	c.Flags().StringVar(&f.stock, "stock", sampleMark+scenarios.DefaultStock, "the stock list: a `file` (.toml or .csv), or a sample; a hyphen for one in TOML that another program hands over")
	optional(c, &f.reserve, "reserve", "mean `reserve` to aim at; left out, 1.3, or the middle of the torques liked of a striking train")
	optional(c, &f.endShake, "end-shake-mm", "`room` left beside spring and spacers in the barrel, in mm; left out, that of the stock list")
	c.Flags().BoolVar(&f.all, "all", false, "every train of the scenario that wants another spring from the one list, no strip given more often than there is of it")
	completeWords(c, "stock", scenarios.StockNames()...)
	return c
}

func runChoose(c *cobra.Command, s streams, f *chooseFlags, args []string) error {
	if err := f.check(c, args); err != nil {
		return err
	}
	var every func(*scenario.Scenario) []string
	if f.all {
		every = func(*scenario.Scenario) []string { return nil }
	}
	sc, number, err := f.loadTrain(c, s, args, every)
	if err != nil {
		return err
	}
	list, err := openStock(s, f.stock)
	if err != nil {
		return err
	}
	ctx := c.Context()
	if f.all {
		return f.give(ctx, s, sc, list)
	}
	st, err := f.choice(ctx, s, sc, number, list)
	if err != nil {
		return err
	}
	return shown[choose.Study]{plot: chart.Choose, text: text.Choose, document: data.Choose(), seed: f.seedIf(true), notes: words.ChooseNotes, cautions: words.ChooseCautions}.
		write(finishing(ctx), s, &f.flags, st)
}

// choice is that for one train.
func (f *chooseFlags) choice(ctx context.Context, s streams, sc *scenario.Scenario, number int, list *stock.Stock) (*choose.Study, error) {
	moved, finished := progress(s.err, len(list.Springs), "springs")
	defer finished()
	return choose.Run(ctx, sc, number, list, choose.Options{Reserve: f.reserve, EndShake: f.endShake, Sure: f.sureness(), Progress: moved})
}

// give gives the strips of the list to the trains.
func (f *chooseFlags) give(ctx context.Context, s streams, sc *scenario.Scenario, list *stock.Stock) error {
	var studies []*choose.Study
	for number := range sc.Trains {
		st, err := f.choice(ctx, s, sc, number, list)
		if err != nil {
			return err
		}
		studies = append(studies, st)
	}
	all := choose.Give(studies, (*choose.Study).Wants)
	return shown[choose.Shared]{text: text.Give, document: data.Give(), seed: f.seedIf(true), cautions: func(all *choose.Shared) []string { return words.GiveCautions(*all) }}.
		write(finishing(ctx), s, &f.flags, &all)
}

// check judges the flags of choose itself.
func (f *chooseFlags) check(c *cobra.Command, args []string) error {
	lo, hi := stock.ShakeRange()
	switch {
	case c.Flags().Changed("reserve") && !(f.reserve > 0 && f.reserve <= choose.MaxReserve):
		return usagef("--reserve %.6g: %w", f.reserve, choose.ErrReserve)
	case c.Flags().Changed("end-shake-mm") && !(f.endShake >= lo && f.endShake <= hi):
		return usagef("--end-shake-mm %.6g: %w", f.endShake, choose.ErrShake)
	case f.all && (f.train != "" || f.plot != "" || f.full):
		return usagef("--all goes without --train, --plot and --full, which are about one train")
	case f.stock == "":
		return usagef("--stock \"\": want a file that ends in .toml or .csv, - for TOML on standard input, or a sample: %s", strings.Join(scenarios.StockNames(), ", "))
	case f.stock == "-" && len(args) > 0 && args[0] == "-":
		return usagef("standard input can be the scenario or the stock list, not both")
	}
	return nil
}
