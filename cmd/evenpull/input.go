package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/chart"
	"evenpull/sim/scenario"

	"github.com/spf13/cobra"
)

// flags are those of every command that computes a scenario.
type flags struct {
	set    []string
	train  string
	format string
	plot   string
	force  bool
}

// register adds the flags; train and plot say what they do to this command.
func (f *flags) register(c *cobra.Command, train, plot string) {
	c.Flags().StringArrayVar(&f.set, "set", nil, "change a value of the scenario: `KEY=VALUE` (repeatable)")
	c.Flags().StringVar(&f.train, "train", "", train)
	c.Flags().StringVar(&f.format, "format", "text", "how to write the result: text, json or csv")
	c.Flags().StringVar(&f.plot, "plot", "", plot+" into this `file`: .svg, .png or .pdf")
	c.Flags().BoolVar(&f.force, "force", false, "overwrite the plot's file if it exists")
	completeWords(c, "format", "text", "json", "csv")
	completeKeys(c, "set", "=")
	if err := c.RegisterFlagCompletionFunc("train", completeTrains); err != nil {
		panic(err) // the flag's name is misspelt in the line above
	}
	c.ValidArgsFunction = completeSamples
}

// load judges the flags, then reads the scenario that the arguments name,
// applies --set and compiles the trains asked for.
func (f *flags) load(c *cobra.Command, s streams, args []string) (*scenario.Scenario, []sim.Train, error) {
	if !slices.Contains([]string{"text", "json", "csv"}, f.format) {
		return nil, nil, usagef("--format %q: want text, json or csv", f.format)
	}
	if c.Flags().Changed("plot") {
		if _, err := chart.FormatOf(f.plot); err != nil {
			return nil, nil, usageError{err}
		}
	}
	sc, err := f.read(s, args)
	if err != nil {
		return nil, nil, err
	}
	names := make([]string, len(sc.Trains))
	for i := range sc.Trains {
		names[i] = sc.Trains[i].Name
	}
	if f.train != "" && !slices.Contains(names, f.train) {
		return nil, nil, usagef("--train %q: the scenario has: %s", f.train, strings.Join(names, ", "))
	}
	trains, err := sim.Compile(sc, f.train)
	return sc, trains, err
}

// drawPlot writes the plot that was asked for, if one was.
func (f *flags) drawPlot(s streams, draw func(w io.Writer, format string) error) error {
	if f.plot == "" {
		return nil
	}
	format, err := chart.FormatOf(f.plot)
	if err != nil {
		return err
	}
	if err := writeFile(f.plot, f.force, func(w io.Writer) error { return draw(w, format) }); err != nil {
		return err
	}
	fmt.Fprintf(s.err, "plot written to %s\n", f.plot)
	return nil
}

// read reads the scenario that the arguments name and applies --set.
func (f *flags) read(s streams, args []string) (*scenario.Scenario, error) {
	name := scenarios.Default
	if len(args) > 0 {
		name = args[0]
	}
	sc, err := open(s, name)
	if err != nil {
		return nil, err
	}
	if err := sc.Apply(f.set); err != nil {
		return nil, usageError{err} // the scenario was sound before
	}
	return sc, nil
}

// open reads standard input for "-", a sample by its name, or else a file.
func open(s streams, name string) (*scenario.Scenario, error) {
	if name == "-" {
		return scenario.Read(s.in, "standard input")
	}
	if text, ok := scenarios.Text(name); ok {
		return scenario.Read(strings.NewReader(text), name)
	}
	sc, err := scenario.ReadFile(name)
	if err != nil && !strings.ContainsAny(name, `./\`) {
		return nil, fmt.Errorf("%w\n(there is no sample of that name either; there are: %s)", err, strings.Join(scenarios.Names(), ", "))
	}
	return sc, err
}
