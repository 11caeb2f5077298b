package main

import (
	"context"
	"errors"
	"io"
	"strings"

	"evenpull/scenarios"
	"evenpull/sim/bench/book"
	"evenpull/sim/bench/found"
	"evenpull/sim/bench/readings"
	"evenpull/sim/scenario"
	"evenpull/sim/show/words"

	"github.com/spf13/cobra"
)

// atBench are the flags of the commands that take what a bench book says in place of what
// the scenario says.
type atBench struct {
	book    string
	springs []string
	needs   bool // only what weights tell: the command is about another spring
	assigns bool // the command tells itself which spring goes where: it is not asked

	opened *book.Book // once it was applied
}

// register adds the flags.
func (f *atBench) register(c *cobra.Command) {
	what := "needs, torques liked, timed strikes and springs"
	if f.needs {
		what = "needs, torques liked and timed strikes"
	}
	c.Flags().StringVar(&f.book, "bench", "", "take "+what+" from this bench `file`, or a sample, in place of the scenario's")
	completeWords(c, "bench", scenarios.BenchNames()...)
	if f.needs {
		return
	}
	c.Flags().StringArrayVar(&f.springs, "spring", nil, "the spring of the bench book that is in a train: `TRAIN=LABEL` (repeatable); left out, the one that was read in it")
}

// apply puts what the bench book says into a scenario, for the trains asked for, and tells of
// it.
func (f *atBench) apply(c *cobra.Command, s streams, args []string, sc *scenario.Scenario, trains ...string) (*scenario.Scenario, []found.Taken, error) {
	switch {
	case f.book == "" && len(f.springs) > 0:
		return nil, nil, usagef("--spring goes with --bench")
	case f.book == "":
		return sc, nil, nil
	case f.book == "-" && argument(args, "") == "-":
		return nil, nil, usagef("standard input can be the scenario or the bench file, not both")
	}
	chosen, err := f.chosen(sc)
	if err != nil {
		return nil, nil, err
	}
	b, err := openBook(c, s, args, f.book)
	if err != nil {
		return nil, nil, err
	}
	f.opened = b
	clock, err := clockOf(c.Context(), b, sc)
	if err != nil {
		return nil, nil, err
	}
	sc, taken, err := f.with(c.Context(), clock, chosen, trains...)
	if err != nil {
		return nil, nil, err
	}
	for _, line := range words.FromBench(taken) {
		s.say("by the bench book: %s", line)
	}
	return sc, taken, nil
}

// clockOf puts a book into a scenario, which it is checked against.
func clockOf(ctx context.Context, b *book.Book, sc *scenario.Scenario) (*found.Clock, error) {
	if err := readings.Beside(b, sc); err != nil {
		return nil, err
	}
	return found.Of(ctx, b, sc)
}

// with is a clock with the springs that were chosen in its trains.
func (f *atBench) with(ctx context.Context, clock *found.Clock, chosen map[string]string, trains ...string) (*scenario.Scenario, []found.Taken, error) {
	if f.needs {
		clock.Springs = nil
	}
	for i := range clock.Given.Trains {
		name := clock.Given.Trains[i].Name
		if _, said := chosen[name]; !said && f.assigns && len(clock.ReadIn(name)) > 1 {
			chosen[name] = ""
		}
	}
	sc, taken, err := clock.With(ctx, chosen, trains...)
	var which *found.WhichError
	if errors.As(err, &which) {
		return nil, nil, usagef("--bench: %w: --spring %s=%s", err, which.Train, which.Labels[0])
	}
	return sc, taken, err
}

// chosen are the labels by the trains that --spring names.
func (f *atBench) chosen(sc *scenario.Scenario) (map[string]string, error) {
	chosen := map[string]string{}
	for _, s := range f.springs {
		train, label, ok := strings.Cut(s, "=")
		if !ok || label == "" {
			return nil, usagef("--spring %q: want TRAIN=LABEL", s)
		}
		if _, err := sc.Train(train); err != nil {
			return nil, usagef("--spring %s: %w", s, err)
		}
		for other, is := range chosen {
			if is == label && other != train {
				return nil, usagef("--spring %s: spring %s is in the %s train already", s, label, other)
			}
		}
		chosen[train] = label
	}
	return chosen, nil
}

// openBook reads a bench file by its name; files of readings that it names may not be
// written to.
func openBook(c *cobra.Command, s streams, args []string, name string) (*book.Book, error) {
	text, err := textOf(s, ofBench, name)
	if err != nil {
		return nil, err
	}
	var read []place
	b, err := readBench(name, text, func(file string) (io.ReadCloser, error) {
		read = append(read, readingsOf(name, file))
		return openBeside(s, name, file)
	})
	if err != nil {
		return nil, err
	}
	return b, apart(outputs(c, args), read)
}
