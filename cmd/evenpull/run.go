package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"evenpull/sim"
	"evenpull/sim/chart"
	"evenpull/sim/report"
	"evenpull/sim/scenario"

	"github.com/spf13/cobra"
)

// runFlags are the flags of run.
type runFlags struct {
	input  inputFlags
	format string
	plot   string
	force  bool
	step   float64
	train  string
}

func newRun(s streams) *cobra.Command {
	var f runFlags
	c := &cobra.Command{
		Use:   "run [SCENARIO]",
		Short: "Run a clock down and judge its drive",
		Long: `Run computes the whole run-down of every train of a scenario: spring turns and
torque, line tension, torque at the fusee and down the train, what winding takes,
and the reserve over the least torque needed, turn by turn. The verdict comes
first, then its reasons, then what does not fit, then the figures.

SCENARIO is a file, - for standard input, or the name of a sample (see "evenpull
samples"); left out, the default sample. Fusee turn 0 is fully wound.

--set changes a value without touching the file. A key is TRAIN.TABLE.KEY, such
as going.mainspring.thickness_mm, going.mesh.centre.efficiency,
going.load.centre.torque_nm or place.gravity_m_s2.

Exit status: 0 the computation was done, whatever its verdict; 1 the scenario or
a file is at fault; 2 the command line is at fault.`,
		Example: `  evenpull run
  evenpull run too-strong
  evenpull run --set going.mainspring.thickness_mm=0.38
  evenpull run three-trains --train going --step 0.5
  evenpull run --format json
  evenpull run --plot torque.svg --force`,
		Args: usageArgs(cobra.MaximumNArgs(1)),
		RunE: func(c *cobra.Command, args []string) error { return runRun(c, s, &f, args) },
	}
	f.input.register(c)
	c.Flags().StringVar(&f.format, "format", "text", "how to write the result: text, json or csv")
	c.Flags().StringVar(&f.plot, "plot", "", "also draw the torque into this `file`: .svg, .png or .pdf")
	c.Flags().BoolVar(&f.force, "force", false, "overwrite the plot's file if it exists")
	c.Flags().Float64Var(&f.step, "step", sim.QuarterTurn, "fusee `turns` between rows; text shows whole turns unless this is given")
	c.Flags().StringVar(&f.train, "train", "", "only the train of this `name`")
	completeWords(c, "format", "text", "json", "csv")
	c.ValidArgsFunction = completeSamples
	return c
}

func runRun(c *cobra.Command, s streams, f *runFlags, args []string) error {
	write, err := f.writer(c, s)
	if err != nil {
		return err
	}
	plotFormat, err := plotFormatOf(c, f.plot)
	if err != nil {
		return err
	}
	sc, err := f.input.read(s, args)
	if err != nil {
		return err
	}
	trains, err := compile(sc, f.train)
	if err != nil {
		return err
	}
	result, err := runDown(sc, trains, f)
	if err != nil {
		return err
	}
	if f.plot != "" {
		if err := plotRun(s, trains, plotFormat, f); err != nil {
			return err
		}
	}
	return write(s.out, result)
}

// plotFormatOf is the format that --plot asks for; "" when it is not given.
func plotFormatOf(c *cobra.Command, name string) (string, error) {
	if !c.Flags().Changed("plot") {
		return "", nil
	}
	format, err := chart.FormatOf(name)
	if err != nil {
		return "", usageError{err}
	}
	return format, nil
}

// plotRun draws the run at steps too fine to see.
func plotRun(s streams, trains []sim.Train, format string, f *runFlags) error {
	fine := make([]sim.Result, len(trains))
	for i := range trains {
		step := min(sim.QuarterTurn, trains[i].Drive.Cone.Turns/240)
		if err := trains[i].Run(sim.Options{Step: step}, &fine[i]); err != nil {
			return err
		}
	}
	return writePlot(s, f.plot, f.force, func(w io.Writer) error { return chart.Write(w, format, fine) })
}

func writePlot(s streams, name string, force bool, write func(io.Writer) error) error {
	if err := writeFile(name, force, write); err != nil {
		return err
	}
	fmt.Fprintf(s.err, "plot written to %s\n", name)
	return nil
}

// writer picks how the result is written, and refuses what cannot be meant.
func (f *runFlags) writer(c *cobra.Command, s streams) (func(io.Writer, *report.Run) error, error) {
	if !(f.step >= sim.MinStep && f.step <= scenario.MaxTurns) {
		return nil, usagef("--step %v: want fusee turns from %v to %v", f.step, sim.MinStep, scenario.MaxTurns)
	}
	switch f.format {
	case "text":
		return report.Text{Colour: wantsColour(s.out), AllRows: c.Flags().Changed("step")}.Write, nil
	case "json":
		return report.JSON, nil
	case "csv":
		return report.CSV, nil
	}
	return nil, usagef("--format %q: want text, json or csv", f.format)
}

// compile compiles the trains of a scenario, or the one named.
func compile(sc *scenario.Scenario, only string) ([]sim.Train, error) {
	names := make([]string, len(sc.Trains))
	for i := range sc.Trains {
		names[i] = sc.Trains[i].Name
	}
	if only != "" && !slices.Contains(names, only) {
		return nil, usagef("--train %q: the scenario has: %s", only, strings.Join(names, ", "))
	}
	return sim.Compile(sc, only)
}

// runDown runs the compiled trains down.
func runDown(sc *scenario.Scenario, trains []sim.Train, f *runFlags) (*report.Run, error) {
	result := &report.Run{Title: sc.Title, Note: sc.Note, Trains: make([]sim.Result, len(trains))}
	for _, a := range sc.Assumed {
		if f.train == "" || a.Train == "" || a.Train == f.train {
			result.Assumed = append(result.Assumed, a.String())
		}
	}
	for i := range trains {
		if err := trains[i].Run(sim.Options{Step: f.step}, &result.Trains[i]); err != nil {
			return nil, err
		}
	}
	return result, nil
}
