package main

import (
	"errors"
	"fmt"
	"math"

	"evenpull/escapement"
	"evenpull/sim"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/data"
	"evenpull/sim/show/text"
	"evenpull/sim/study/beat"

	"github.com/spf13/cobra"
)

// beatFlags are the flags of beat.
type beatFlags struct {
	flags
	turn    float64
	periods int
	start   float64
}

func newBeat(s streams) *cobra.Command {
	var f beatFlags
	c := &cobra.Command{
		Use:   "beat [SCENARIO]",
		Short: "Follow the pendulum beat by beat at one turn of the fusee",
		Long: `Beat starts the pendulum of a going train from rest and follows it from event to
event, drop, impulse and turning point, until the swing has settled: each piece
of the motion is solved exactly. It tells semi-arc, period and rate, beside what
the averages of "evenpull run" say.

It leaves out the circular error (a swing of a pendulum takes longer the wider it
is; the averages have it), the inertia of the wheels, friction on dead faces, and
play. Loads that come and go are off. The rate is against the pendulum's own beat
at small arcs, + gaining.

How well a pendulum keeps its swing, its Q, "evenpull help pendulum" tells how to
measure.`,
		Example: `  evenpull beat
  evenpull beat too-weak --fusee-turn 16
  evenpull beat three-trains --train going --format json
  evenpull beat --start-deg 5 --plot swing.svg --force`,
		Args: usageArgs(cobra.MaximumNArgs(1)),
		RunE: func(c *cobra.Command, args []string) error { return runBeat(c, s, &f, args) },
	}
	f.register(c, "the train of this `name`; left out, the first with an escapement", "also draw approach and phase portrait")
	c.Flags().Float64Var(&f.turn, "fusee-turn", 0, "fusee `turns` paid out; left out, the start of the run")
	c.Flags().IntVar(&f.periods, "periods", 100_000, "the most `periods` to follow")
	c.Flags().Float64Var(&f.start, "start-deg", 0, "semi-arc in `degrees` to start from; left out, the least wanted")
	return c
}

func runBeat(c *cobra.Command, s streams, f *beatFlags, args []string) error {
	if f.periods < 1 || f.periods > beat.MaxPeriods {
		return usagef("--periods %d: want 1 to %d", f.periods, beat.MaxPeriods)
	}
	if c.Flags().Changed("start-deg") && !(f.start > 0 && f.start <= 90) {
		return usagef("--start-deg %.6g: want a semi-arc above 0 to 90 degrees", f.start)
	}
	_, trains, err := f.load(c, s, args)
	if err != nil {
		return err
	}
	train, err := withEscapement(trains)
	if err != nil {
		return err
	}
	if !c.Flags().Changed("fusee-turn") {
		f.turn = math.NaN()
	} else if math.IsNaN(f.turn) {
		return usagef("--fusee-turn NaN: want a number of turns")
	}
	ctx := c.Context()
	r, err := beat.Follow(ctx, train, beat.Options{FuseeTurn: f.turn, Periods: f.periods, Start: escapement.SemiDegrees(f.start)})
	var start escapement.Fault
	if errors.Is(err, sim.ErrTurn) {
		return usageError{err}
	} else if errors.As(err, &start) {
		return usagef("--start-deg %.6g: want a semi-arc below the one that trips the escapement", f.start)
	} else if err != nil {
		return err
	}
	return shown[beat.Result]{plot: chart.Beat, text: text.Beat, document: data.Beat()}.write(ctx, s, &f.flags, &r)
}

// withEscapement is the first train that has one.
func withEscapement(trains []sim.Train) (*sim.Train, error) {
	for i := range trains {
		if trains[i].Escapes {
			return &trains[i], nil
		}
	}
	return nil, fmt.Errorf("no train asked for has an escapement and a pendulum; give [train.escapement] and [train.pendulum]")
}
