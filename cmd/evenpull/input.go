package main

import (
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/scenario"
	"evenpull/sim/show/chart"

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
	f.registerOutput(c, plot)
	completeKeys(c, "set", "=")
	if err := c.RegisterFlagCompletionFunc("train", completeTrains); err != nil {
		panic(err) // the flag's name is misspelt in the line above
	}
	c.ValidArgsFunction = completeSamples
}

// registerOutput adds the flags of what is written; plot says what is drawn.
func (f *flags) registerOutput(c *cobra.Command, plot string) {
	c.Flags().StringVar(&f.format, "format", "text", "how to write the result: text, json or csv")
	c.Flags().StringVar(&f.plot, "plot", "", plot+" into this `file`: .svg, .png or .pdf")
	c.Flags().BoolVar(&f.force, "force", false, "overwrite a file that exists")
	completeWords(c, "format", "text", "json", "csv")
}

// load judges the flags, then reads the scenario that the arguments name,
// applies --set and compiles the trains asked for.
func (f *flags) load(c *cobra.Command, s streams, args []string) (*scenario.Scenario, []sim.Train, error) {
	if err := f.checkOutput(c); err != nil {
		return nil, nil, err
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
	trains, err := sim.Compile(sc, f.trains()...)
	return sc, trains, err
}

// trains are the names of the trains asked for; none: all.
func (f *flags) trains() []string {
	if f.train == "" {
		return nil
	}
	return []string{f.train}
}

// checkOutput judges the flags of what is written.
func (f *flags) checkOutput(c *cobra.Command) error {
	if !slices.Contains([]string{"text", "json", "csv"}, f.format) {
		return usagef("--format %q: want text, json or csv", f.format)
	}
	if c.Flags().Changed("plot") {
		if _, err := chart.FormatOf(f.plot); err != nil {
			return usageError{err}
		}
	}
	return nil
}

// drawPlot writes the plot that was asked for, if one was.
func (f *flags) drawPlot(s streams, draw func(w io.Writer, format string) error) error {
	return f.drawInto(s, f.plot, "plot", draw)
}

// drawInto writes a picture of the given kind into a file, if one is named.
func (f *flags) drawInto(s streams, file, kind string, draw func(w io.Writer, format string) error) error {
	if file == "" {
		return nil
	}
	format, err := chart.FormatOf(file)
	if err != nil {
		return err
	}
	if err := writeFile(file, f.force, func(w io.Writer) error { return draw(w, format) }); err != nil {
		return err
	}
	fmt.Fprintf(s.err, "%s written to %s\n", kind, file)
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
	text, err := scenarioText(s, name)
	if err != nil {
		return nil, err
	}
	sc, err := scenario.Read(strings.NewReader(text), source(name))
	return sc, otherKind(text, "scenario", err)
}

// kinds are the files that are read, by a table that only they have, with the
// commands that read it.
var kinds = [...]struct{ table, kind, readers string }{
	{"train", "scenario", "run reads"},
	{"weights", "bench file", "record and assign read"},
	{"torque", "bench file", "record and assign read"},
	{"spring", "stock list", "choose --stock reads"},
}

// otherKind adds to a fault found in a text that it looks like another kind of
// file than the one wanted.
func otherKind(text, want string, err error) error {
	if err == nil {
		return nil
	}
	for _, k := range kinds {
		if !strings.Contains("\n"+text, "\n[["+k.table+"]]") {
			continue
		}
		if k.kind != want {
			err = fmt.Errorf("this looks like a %s, which %s; want a %s\n%w", k.kind, k.readers, want, err)
		}
		break
	}
	return err
}

// noSample adds to a fault of a name that is neither file nor sample which samples
// there are of the kind wanted, and of which other kind it is one.
func noSample(name, want string, samples []string, err error) error {
	if strings.ContainsAny(name, `./\`) {
		return err
	}
	for _, k := range []struct {
		kind    string
		samples []string
	}{{"scenario", scenarios.Names()}, {"bench file", scenarios.BenchNames()}, {"stock list", scenarios.StockNames()}} {
		if k.kind != want && slices.Contains(k.samples, name) {
			return fmt.Errorf("%s is a sample %s; want a %s: a file, or one of the samples %s", name, k.kind, want, strings.Join(samples, ", "))
		}
	}
	hint := "the samples are: " + strings.Join(samples, ", ")
	if near := scenario.Nearest(name, samples); near != "" {
		hint = "did you mean " + near + "?"
	}
	return fmt.Errorf("%w\n(there is no sample %s of that name either; %s)", err, want, hint)
}

// source is what messages call the place that a text was read from.
func source(name string) string {
	if name == "-" {
		return "standard input"
	}
	return name
}

// scenarioText is the text behind a name: standard input for "-", a sample, or
// else a file.
func scenarioText(s streams, name string) (string, error) {
	if text, ok := scenarios.Text(name); ok {
		return text, nil
	}
	text, err := textOf(s, name)
	if err != nil {
		return "", noSample(name, "scenario", scenarios.Names(), err)
	}
	return text, nil
}

// textOf reads standard input for "-", or else a file, up to one byte more than is
// read of any.
func textOf(s streams, name string) (string, error) {
	in := s.in
	if name != "-" {
		f, err := os.Open(name)
		if err != nil {
			return "", fmt.Errorf("%s cannot be read: %w", name, bare(err))
		}
		defer f.Close()
		in = f
	}
	text, err := io.ReadAll(io.LimitReader(in, scenario.MaxBytes+1))
	if err != nil {
		return "", fmt.Errorf("%s cannot be read: %w", source(name), bare(err))
	}
	return string(text), nil
}
