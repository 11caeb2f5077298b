package main

import (
	"io"
	"strings"

	"evenpull/sim"
	"evenpull/sim/scenario"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/data"
	"evenpull/sim/show/drawing"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"

	"github.com/spf13/cobra"
)

// runFlags are the flags of run.
type runFlags struct {
	flags
	step float64
}

func newRun(s streams) *cobra.Command {
	var f runFlags
	c := &cobra.Command{
		Use:   "run [SCENARIO]",
		Short: "Run a clock down and judge its drive",
		Long: `Run computes the whole run-down of every train of a scenario: spring turns and
torque, line tension, torque at the fusee and down the train, what winding takes,
and the reserve over the least torque needed, turn by turn. The verdict comes
first and how sure it is, then its reasons, then what does not fit, then the figures: as
much as a screen holds. --full adds all notes, every arbor and turn, and all that was
assumed. What a verdict means, "evenpull help verdict" tells, how sure it is, "evenpull
help sure", and why something is advised, "evenpull help rules".

SCENARIO is a file, the name of a sample (see "evenpull samples"), or a hyphen for what
another program hands over; left out, the default sample. "evenpull help scenario" tells
what stands in it. Fusee turn 0 is fully wound.

--bench puts what a bench book says of needs, torques liked, timed strikes and springs, each
as well as it is known, in the place of what the scenario says; --spring tells which of the
springs that were read is in a train.

--set changes a value without touching the file. A KEY is named TRAIN.TABLE.KEY, such
as going.mainspring.thickness_mm, going.mesh.centre.efficiency,
going.load.centre.torque_nm or place.gravity_m_s2.

Exit status: 0 the computation was done, whatever its verdict; 1 the scenario or
a file is at fault; 2 the command line is at fault; 130 interrupted.`,
		Example: `  evenpull run
  evenpull run too-strong
  evenpull run --set going.mainspring.thickness_mm=0.38
  evenpull run three-trains --train going --step 0.5
  evenpull run three-trains --train going --bench mixed-barrels --spring going=C
  evenpull run --format json
  evenpull run --plot torque.svg --force
  evenpull run three-trains --drawing trains.svg --force`,
		Args: usageArgs(cobra.MaximumNArgs(1)),
		RunE: func(c *cobra.Command, args []string) error { return runRun(c, s, &f, args) },
	}
	f.register(c, "only the train of this `name`", "also draw torque, arc and rate")
	f.registerDraws(c)
	f.atBench.register(c)
	c.Flags().StringVar(&f.drawing, "drawing", "", "also draw barrels and fusees to scale, and the wheels as a diagram, into this `file`: .svg, .png, or .pdf with a page a train")
	c.Flags().Float64Var(&f.step, "step", sim.QuarterTurn, "fusee `turns` between rows; text shows some of the whole turns unless this is given")
	return c
}

func runRun(c *cobra.Command, s streams, f *runFlags, args []string) error {
	if !(f.step >= sim.MinStep && f.step <= scenario.MaxTurns) {
		return usagef("--step %.6g: want fusee turns from %v to %v", f.step, sim.MinStep, scenario.MaxTurns)
	}
	sc, trains, err := f.load(c, s, args)
	if err != nil {
		return err
	}
	clock, err := sim.RunClock(sc, sim.Options{Step: f.step}, f.trains()...)
	if err != nil {
		return err
	}
	clock.Bench = words.FromBench(f.taken)
	if len(f.taken) > 0 && len(f.set) > 0 {
		clock.Bench = append(clock.Bench, "changed after that, by --set: "+strings.Join(f.set, ", "))
	}
	for i := range clock.Trains {
		if f.rowsOnly(s) {
			break
		}
		if err := f.judge(c.Context(), sc, &clock.Trains[i].Digest); err != nil {
			return err
		}
	}
	return shown[sim.Clock]{
		plot: func(look chart.Look, clock *sim.Clock) (chart.Files, error) { return plotRun(look, trains, clock) },
		drawing: func(look chart.Look, clock *sim.Clock) (chart.Files, error) {
			return chart.Files{func(w io.Writer) error { return drawing.Write(w, look.Form, clock.Trains) }}, nil
		},
		text: func(w io.Writer, clock *sim.Clock, o text.Options) error {
			o.AllRows = c.Flags().Changed("step")
			return text.Run(w, clock, o)
		}, document: data.Run(), seed: f.seedIf(!f.rowsOnly(s)),
	}.write(c.Context(), s, &f.flags, clock)
}

// rowsOnly: nothing is written that tells how sure a verdict is.
func (f *runFlags) rowsOnly(s streams) bool {
	return f.format == "csv" && !f.keeps(s)
}

// plotRun draws the run at steps too fine to see, with how sure the verdicts are.
func plotRun(look chart.Look, trains []sim.Train, clock *sim.Clock) (chart.Files, error) {
	fine := make([]sim.Result, len(trains))
	for i := range trains {
		step := sim.FineStep(trains[i].Drive.Cone.Turns)
		if err := trains[i].RunInto(&fine[i], sim.Options{Step: step}); err != nil {
			return nil, err
		}
		fine[i].Verdict = clock.Trains[i].Verdict
	}
	return chart.Write(look, fine)
}
