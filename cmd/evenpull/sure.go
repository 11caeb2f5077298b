package main

import (
	"context"

	"evenpull/sim"
	"evenpull/sim/scenario"
	"evenpull/sim/study/sure"

	"github.com/spf13/cobra"
)

// drawFlags is the flag of how sure a verdict is.
type drawFlags struct {
	draws int
}

func (f *drawFlags) registerDraws(c *cobra.Command) {
	c.Flags().IntVar(&f.draws, "draws", sure.Draws, "`number` of times that the train is tried with every input a little off, to tell how sure a verdict is; 0: none")
}

func (f *drawFlags) checkDraws() error {
	if f.draws < 0 || f.draws > mostDraws {
		return usagef("--draws %d: want 0 to %d", f.draws, mostDraws)
	}
	return nil
}

const mostDraws = 1_000_000

// judge tells a digest of a train of the scenario how sure its verdict is, unless no draws
// are wanted.
func (f *drawFlags) judge(ctx context.Context, sc *scenario.Scenario, d *sim.Digest) (err error) {
	o := f.sureness()
	if o == nil {
		return nil
	}
	number, err := sc.Train(d.Name)
	if err != nil {
		return err
	}
	d.Verdict.Sureness, err = sure.Of(ctx, sc, number, *o)
	return err
}

// sureness are the draws asked for; nil: none.
func (f *drawFlags) sureness() *sure.Options {
	if f.draws == 0 {
		return nil
	}
	return &sure.Options{Draws: f.draws, Seed: firstSeed}
}

// seedIf is the seed of the draws, where any were made.
func (f *drawFlags) seedIf(drawn bool) *int64 {
	if o := f.sureness(); o != nil && drawn {
		return &o.Seed
	}
	return nil
}

// firstSeed is the seed of draws where no other is asked for.
const firstSeed = 1
