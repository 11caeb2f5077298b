package main

import (
	"errors"
	"math"
	"slices"
	"strings"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/bench/found"
	"evenpull/sim/scenario"
	"evenpull/sim/show/canvas"
	"evenpull/sim/vary"

	"github.com/spf13/cobra"
)

// flags are those of every command that computes a scenario.
type flags struct {
	set    []string
	train  string
	format string
	plot   string
	data   string // the folder that what it comes to is kept in
	force  bool
	full   bool
	named  string // the scenario, as it was asked for
	// For the origin of what is written.
	command, title string
	loaded         bool // and read
	at             *cobra.Command

	drawFlags // of the commands that tell how sure a verdict is
	lookFlags

	drawing   string // of the commands that have it
	animation string // likewise
	atBench          // likewise
	// searches: the command looks for a cone that is wanted, and takes a train without one
	searches bool
	ofOne    bool // the command is about one train, the first where none is asked for
	bare     bool // the command takes trains whose mainspring is broken or lost
	taken    []found.Taken
}

// register adds the flags; train and plot say what they do to this command.
func (f *flags) register(c *cobra.Command, train, plot string) {
	c.Flags().StringArrayVar(&f.set, "set", nil, "change a value of the scenario, in any unit of its kind: `KEY=VALUE` (repeatable)")
	c.Flags().StringVar(&f.train, "train", "", train)
	f.registerOutput(c, plot)
	completeKeys(c, "set", "=")
	complete(c, "train", completeTrains)
	c.ValidArgsFunction = completeSamples
}

// registerOutput adds the flags of what is written; plot says what is drawn.
func (f *flags) registerOutput(c *cobra.Command, plot string) {
	c.Flags().StringVar(&f.format, "format", "text", "`form` of the result: text, json or csv")
	c.Flags().StringVar(&f.plot, "plot", "", plot+" into this `file`: .svg, .png or .pdf")
	f.lookFlags.register(c)
	keepsData(c, &f.data, "result and picture")
	c.Flags().BoolVar(&f.full, "full", false, "write all there is to tell, not only what a screen holds")
	c.Flags().BoolVar(&f.force, "force", false, "overwrite a file that exists")
	completeWords(c, "format", "text", "json", "csv")
}

// optional registers a number that is NaN when it is left out.
func optional(c *cobra.Command, v *float64, name, usage string) {
	c.Flags().Float64Var(v, name, math.NaN(), usage)
	c.Flags().Lookup(name).DefValue = "0" // which help does not show
}

// load judges the flags, then reads the scenario that the arguments name, puts in what
// --bench says, applies --set and compiles the trains asked for.
func (f *flags) load(c *cobra.Command, s streams, args []string) (*scenario.Scenario, []sim.Train, error) {
	if err := f.checkOutput(c, s); err != nil {
		return nil, nil, err
	}
	f.named, f.loaded = argument(args, ""), true
	sc, err := open(s, argument(args, sampleMark+scenarios.Default))
	if err != nil {
		return nil, nil, err
	}
	f.command, f.title = c.Name(), sc.Title
	names := make([]string, len(sc.Trains))
	for i := range sc.Trains {
		names[i] = sc.Trains[i].Name
	}
	if f.train != "" && !slices.Contains(names, f.train) {
		return nil, nil, usagef("--train %q: the scenario has: %s", f.train, strings.Join(names, ", "))
	}
	of := f.trains()
	if f.ofOne && f.train == "" {
		of = names[:1]
	}
	if sc, f.taken, err = f.apply(c, s, args, sc, of...); err == nil {
		if len(f.taken) > 0 && len(f.set) > 0 {
			s.say("changed after that, by --set: %s", strings.Join(f.set, ", "))
		}
		err = f.change(sc)
	}
	if err != nil {
		return nil, nil, err
	}
	of = f.trains()
	if f.bare {
		if of = withSpring(sc, of); len(of) == 0 {
			return sc, nil, nil
		}
	}
	trains, err := sim.Compile(sc, of...)
	if f.searches && errors.Is(err, sim.ErrWanted) {
		err = nil
	}
	return sc, trains, err
}

// withSpring are those of some trains, or of all where none is named, that have a mainspring.
func withSpring(sc *scenario.Scenario, of []string) (names []string) {
	for i := range sc.Trains {
		if t := &sc.Trains[i]; t.Mainspring.Present && (len(of) == 0 || slices.Contains(of, t.Name)) {
			names = append(names, t.Name)
		}
	}
	return names
}

// trains are the names of the trains asked for; none: all.
func (f *flags) trains() []string {
	if f.train == "" {
		return nil
	}
	return []string{f.train}
}

// checkOutput judges the flags of what is written.
func (f *flags) checkOutput(c *cobra.Command, s streams) error {
	f.at = c
	if err := f.checkDraws(); err != nil {
		return err
	}
	if !slices.Contains([]string{"text", "json", "csv"}, f.format) {
		return usagef("--format %q: want text, json or csv", f.format)
	}
	for flag, file := range map[string]string{"plot": f.plot, "drawing": f.drawing, "animation": f.animation} {
		if !c.Flags().Changed(flag) {
			continue
		}
		if _, err := canvas.FormatOf(file); err != nil {
			return usageError{err}
		}
	}
	return f.lookFlags.check(c, f.plot != "" || f.keeps(s), f.drawing != "" || f.animation != "")
}

// keeps tells whether what the command comes to is to be kept.
func (f *flags) keeps(s streams) bool { return f.data != "" || s.again != nil }

// read reads the scenario of a name and applies --set.
func (f *flags) read(s streams, name string) (*scenario.Scenario, error) {
	sc, err := open(s, name)
	if err != nil {
		return nil, err
	}
	return sc, f.change(sc)
}

// change applies --set.
func (f *flags) change(sc *scenario.Scenario) error {
	if err := vary.Apply(sc, f.set); err != nil {
		return usageError{err} // the scenario was sound before
	}
	return nil
}

// argument is the first of the arguments, or what stands for it when it is left out.
func argument(args []string, standIn string) string {
	if len(args) > 0 {
		return args[0]
	}
	return standIn
}
